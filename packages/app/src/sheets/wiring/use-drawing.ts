/** The drawing of the build on the desk, as screens see it. */
import type { View } from '@loomwright/engine';
import { useEffect, useRef } from 'react';
import { useFromBuild } from '../../hooks.ts';
import { useStore } from '../../store/store.ts';
import { drawingStore, want, type DrawingNow } from './drawing-store.ts';

/** The text that can be drawn: the present one, or the last that could be read. */
export function useReadable(): { readonly text: string | null; readonly auto: string | null } {
  const text = useFromBuild((state) => state.readableText);
  const auto = useFromBuild((state) => state.judged?.auto?.size.text ?? null);
  return { text, auto };
}

/** `sheet`: never the vehicle. `tidied` counts how often a fresh layout was asked for. */
export function useDrawing(view: View, sheet: boolean, tidied: number): DrawingNow {
  const done = useRef(tidied);
  useEffect(() => {
    want({ view, sheet }, tidied !== done.current);
    done.current = tidied;
  }, [view, sheet, tidied]);
  useEffect(() => () => want(null), []);
  return useStore(drawingStore, (now) => now);
}
