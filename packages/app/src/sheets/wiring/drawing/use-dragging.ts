/** A part or a wire's end in the hand of a mouse or pen. A finger scrolls; all of it can be done by pressing too. */
import { useEffect, useRef, useState, type DragEvent, type MouseEvent, type PointerEvent } from 'react';
import { dropAt, heldAt, type Drop, type Ground, type Held } from './dragging.ts';
import type { Point } from './measure.ts';

export interface Dragged {
  readonly held: Held;
  /** Where it was taken, and where it is now. */
  readonly from: Point;
  readonly at: Point;
  readonly drop: Drop | null;
}

interface Options {
  /** null: nothing can be dragged. */
  readonly ground: Ground | null;
  readonly scale: number;
  readonly toMillimetres: (event: MouseEvent) => Point;
  readonly onDrop: (drop: Drop) => void;
}

interface Handlers {
  readonly onPointerDown: (event: PointerEvent) => void;
  readonly onPointerMove: (event: PointerEvent) => void;
  readonly onPointerUp: (event: PointerEvent) => void;
  readonly onPointerCancel: () => void;
  readonly onDragStart: (event: DragEvent) => void;
  readonly onClickCapture: (event: MouseEvent) => void;
}

/** Less than this is a press, px. */
const STILL = 5;

export function useDragging({ ground, scale, toMillimetres, onDrop }: Options): {
  readonly dragged: Dragged | null;
  readonly handlers: Handlers;
} {
  const taken = useRef<{ readonly held: Held; readonly from: Point } | null>(null);
  const wasDragged = useRef(false);
  const [dragged, setDragged] = useState<Dragged | null>(null);
  const letGo = (): void => {
    taken.current = null;
    setDragged(null);
  };
  useEffect(() => {
    if (dragged === null) return undefined;
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape') return;
      event.preventDefault();
      event.stopPropagation();
      letGo();
    };
    document.addEventListener('keydown', onKey, true);
    return () => document.removeEventListener('keydown', onKey, true);
  }, [dragged]);
  const handlers: Handlers = {
    onPointerDown: (event) => {
      wasDragged.current = false;
      if (ground === null || event.pointerType === 'touch' || event.button !== 0) return;
      const from = toMillimetres(event);
      const held = heldAt(ground.measured, from, scale);
      taken.current = held === null ? null : { held, from };
    },
    onPointerMove: (event) => {
      const now = taken.current;
      if (now === null || ground === null) return;
      const at = toMillimetres(event);
      const still = Math.hypot(at.x - now.from.x, at.y - now.from.y) * scale < STILL;
      if (!wasDragged.current && still) return;
      if (!wasDragged.current) event.currentTarget.setPointerCapture(event.pointerId);
      wasDragged.current = true;
      setDragged({ ...now, at, drop: dropAt(ground, now.held, at, scale) });
    },
    onPointerUp: (event) => {
      // Where it is let go counts, whether or not the last move was drawn yet.
      const now = wasDragged.current ? taken.current : null;
      const drop =
        now === null || ground === null ? null : dropAt(ground, now.held, toMillimetres(event), scale);
      letGo();
      if (drop !== null) onDrop(drop);
    },
    onPointerCancel: letGo,
    onDragStart: (event) => event.preventDefault(),
    onClickCapture: (event) => {
      // What was dragged is not pressed as well.
      if (!wasDragged.current) return;
      wasDragged.current = false;
      event.stopPropagation();
    },
  };
  return { dragged, handlers };
}
