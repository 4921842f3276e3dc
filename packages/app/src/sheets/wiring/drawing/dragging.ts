/** What is dragged on a drawing, and what letting go of it there would do. Millimetres; nothing of it is stored but order and ends. */
import type { DrawingSubject } from '@loomwright/engine';
import { awayFrom, distance, type Box, type Measured, type Point } from './measure.ts';

/** What the pointer holds. */
export type Held =
  | { readonly type: 'part'; readonly part: string }
  | { readonly type: 'end'; readonly wire: string; readonly end: 'from' | 'to' };

/** What letting go would do; each is a change of the build or of its order. */
export type Drop =
  | { readonly type: 'place'; readonly part: string; readonly place: string }
  | { readonly type: 'order'; readonly part: string; readonly before: string | null }
  | {
      readonly type: 'wire-order';
      readonly wire: string;
      readonly at: string;
      readonly before: string | null;
    }
  | {
      readonly type: 'terminal';
      readonly wire: string;
      readonly end: 'from' | 'to';
      readonly terminal: string;
    }
  | { readonly type: 'onto'; readonly wire: string; readonly end: 'from' | 'to'; readonly part: string };

/** So near the end of a wire it is that end which is taken, px. */
const END_REACH = 26;
const TERMINAL_REACH = 14;
const WIRE_REACH = 8;

/** What a pointer that goes down here would take; null: nothing. */
export function heldAt(measured: Measured, p: Point, scale: number): Held | null {
  const part = [...measured.parts.values()].find(({ box }) => inside(box, p));
  const end = nearestEnd(measured, p, scale);
  // At a terminal the wire's end is meant, in the middle of a part the part.
  if (end !== null && (part === undefined || end.away <= 7 / scale)) return end.held;
  return part === undefined ? null : { type: 'part', part: part.id };
}

function nearestEnd(
  measured: Measured,
  p: Point,
  scale: number,
): { readonly held: Held; readonly away: number } | null {
  let best: { readonly held: Held; readonly away: number } | null = null;
  for (const wire of measured.wires.values()) {
    if (awayFrom(wire.points, p) > WIRE_REACH / scale) continue;
    for (const end of ['from', 'to'] as const) {
      const at = end === 'from' ? wire.points[0] : wire.points.at(-1);
      if (at === undefined) continue;
      const away = distance(at, p);
      if (away <= END_REACH / scale && (best === null || away < best.away))
        best = { held: { type: 'end', wire: wire.id, end }, away };
    }
  }
  return best;
}

export interface Ground {
  readonly measured: Measured;
  readonly subject: DrawingSubject;
  /** Whether the order of a place can be changed here: on the sheet, not on the vehicle. */
  readonly ordered: boolean;
}

/** What letting go at a point would do; null: nothing. */
export function dropAt(ground: Ground, held: Held, p: Point, scale: number): Drop | null {
  return held.type === 'part' ? partDrop(ground, held.part, p) : endDrop(ground, held, p, scale);
}

function partDrop({ measured, subject, ordered }: Ground, part: string, p: Point): Drop | null {
  const own = subject.parts.get(part)?.place;
  const place = measured.places.find(
    ({ box }) => p.x >= box.left && p.x <= box.right && (ordered || inside(box, p)),
  );
  if (place === undefined) return null;
  if (place.id !== own) return { type: 'place', part, place: place.id };
  if (!ordered) return null;
  const others = [...measured.parts.values()]
    .filter(({ id }) => id !== part && subject.parts.get(id)?.place === own)
    .toSorted((a, b) => a.box.top - b.box.top);
  const before = others.find(({ box }) => (box.top + box.bottom) / 2 > p.y)?.id ?? null;
  const now = measured.parts.get(part)?.box;
  const next = now === undefined ? undefined : others.find(({ box }) => box.top >= now.top)?.id;
  return before === (next ?? null) ? null : { type: 'order', part, before };
}

function endDrop(
  { measured, subject, ordered }: Ground,
  { wire, end }: Extract<Held, { type: 'end' }>,
  p: Point,
  scale: number,
): Drop | null {
  const drawn = subject.wires.get(wire);
  if (drawn === undefined) return null;
  const own = `${drawn[end].part}.${drawn[end].terminal}`;
  const terminal = terminalAt({ measured, subject }, wire, p, TERMINAL_REACH / scale);
  if (terminal !== null && terminal !== own) return { type: 'terminal', wire, end, terminal };
  const part = [...measured.parts.values()].find(({ box }) => inside(grown(box, 2), p));
  if (part === undefined) return null;
  if (part.id !== drawn[end].part) return { type: 'onto', wire, end, part: part.id };
  return ordered ? wireOrder(measured, subject, wire, end, p) : null;
}

/** The terminal at which the nearest other wire ends: where several meet one, each of its ends stands for it. */
function terminalAt(
  { measured, subject }: Pick<Ground, 'measured' | 'subject'>,
  wire: string,
  p: Point,
  reach: number,
): string | null {
  let best: { readonly terminal: string; readonly away: number } | null = null;
  for (const { id, points } of measured.wires.values()) {
    const drawn = subject.wires.get(id);
    if (drawn === undefined || id === wire) continue;
    for (const [{ part, terminal }, at] of [
      [drawn.from, points[0]],
      [drawn.to, points.at(-1)],
    ] as const) {
      const away = at === undefined ? Infinity : distance(at, p);
      if (away <= reach && (best === null || away < best.away))
        best = { terminal: `${part}.${terminal}`, away };
    }
  }
  return best?.terminal ?? null;
}

/** Above which wire it would meet its part now. */
function wireOrder(
  measured: Measured,
  subject: DrawingSubject,
  wire: string,
  end: 'from' | 'to',
  p: Point,
): Drop | null {
  const at = subject.wires.get(wire)?.[end].part ?? '';
  const ends = [...measured.wires.values()].flatMap(({ id, points }) => {
    const drawn = subject.wires.get(id);
    if (drawn === undefined) return [];
    return [
      ...(drawn.from.part === at && points[0] !== undefined ? [{ id, ...points[0] }] : []),
      ...(drawn.to.part === at ? [{ id, x: points.at(-1)?.x ?? 0, y: points.at(-1)?.y ?? 0 }] : []),
    ];
  });
  const own = ends.find(({ id }) => id === wire);
  const beside = ends
    .filter(({ id, x }) => id !== wire && own !== undefined && Math.abs(x - own.x) < 1)
    .toSorted((a, b) => a.y - b.y);
  const before = beside.find(({ y }) => y > p.y)?.id ?? null;
  const next = beside.find(({ y }) => y > (own?.y ?? 0))?.id ?? null;
  return before === next ? null : { type: 'wire-order', wire, at, before };
}

const inside = ({ left, right, top, bottom }: Box, { x, y }: Point): boolean =>
  x >= left && x <= right && y >= top && y <= bottom;

const grown = ({ left, right, top, bottom }: Box, by: number): Box => ({
  left: left - by,
  right: right + by,
  top: top - by,
  bottom: bottom + by,
});
