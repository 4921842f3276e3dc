/** The drawing of the build on the desk: asked for at each edit, the old one standing until the new one is there. */
import type { DrawingSubject, View } from '@loomwright/engine';
import { useEffect, useState } from 'react';
import { reader } from '../../build-store.ts';
import { useBuildState } from '../../hooks.ts';
import { orderStore } from '../../store/drawing-order.ts';
import { useStore } from '../../store/store.ts';
import { draw, type Drawn } from './drawing/newest-drawing.ts';

export interface DrawingNow {
  readonly drawn: Drawn | null;
  readonly subject: DrawingSubject | null;
}

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
  const { text, auto } = useReadable();
  const [subject, setSubject] = useState<DrawingSubject | null>(null);
  const [drawn, setDrawn] = useState<Drawn | null>(null);
  const [done, setDone] = useState(tidied);
  const changes = useStore(orderStore, (now) => now.changes);

  useEffect(() => {
    let stale = false;
    if (text === null) return undefined;
    void reader.ask.subject(text, auto).then((found) => {
      if (!stale && found !== null) setSubject(found);
    });
    return () => {
      stale = true;
    };
  }, [text, auto]);

  useEffect(() => {
    if (subject === null) return;
    void draw({ subject, view, sheet, tidy: tidied !== done }).then((made) => {
      if (made !== null) setDrawn(made);
    });
    setDone(tidied);
  }, [subject, view, sheet, tidied, done, changes]);

  return { drawn: text === null ? null : drawn, subject };
}
