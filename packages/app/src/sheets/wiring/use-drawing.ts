/** The drawing of the build on the desk, as screens see it. */
import type { View } from '@loomwright/engine';
import { useEffect, useRef, useState } from 'react';
import { useBuildState } from '../../hooks.ts';
import { useStore } from '../../store/store.ts';
import { drawingStore, want, type DrawingNow } from './drawing-store.ts';

/** The text that can be drawn: the present one, or the last that could be read. */
export function useReadable(): { readonly text: string | null; readonly auto: string | null } {
  const { text, readable, judged } = useBuildState();
  const [last, setLast] = useState<string | null>(null);
  useEffect(() => {
    if (readable && text !== null) setLast(text);
    if (text === null) setLast(null);
  }, [text, readable]);
  return { text: readable ? text : last, auto: judged?.auto?.size.text ?? null };
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
