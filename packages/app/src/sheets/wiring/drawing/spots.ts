/** Where something may stand on a wire: on a straight run that its own words, other words and parts leave free. */
import { along, type Box, type Measured, type MeasuredWire, type Point } from './measure.ts';

export interface Spot extends Point {
  readonly degrees: number;
  /** How far along the wire. */
  readonly at: number;
}

interface Wanted {
  /** Half of its extent along the wire, and above and below it. */
  readonly half: number;
  readonly up: number;
  readonly down: number;
  /** Only on level runs. */
  readonly level: boolean;
}

const STEP = 1.5;

/** The freest spot; null: there is none. `taken`: what was set on this drawing before. */
export function freeSpot(
  measured: Measured,
  wire: MeasuredWire,
  wanted: Wanted,
  taken: readonly Box[],
): Spot | null {
  const blocked = [...wordsNear(measured), ...taken];
  const { points, length } = wire;
  let best: (Spot & { readonly room: number }) | null = null;
  for (let at = wanted.half + 1.5; at <= length - wanted.half - 1.5; at += STEP) {
    const here = along(points, at);
    const level = Math.abs(Math.sin((here.degrees * Math.PI) / 180)) < 0.01;
    if (wanted.level && !level) continue;
    const room = Math.min(runAt(points, at), at, length - at);
    if (room < wanted.half || (best !== null && room <= best.room)) continue;
    const box = boxAt(here, level, wanted);
    if (blocked.some((other) => meets(box, other))) continue;
    best = { x: here.x, y: here.y, degrees: here.degrees, at, room };
  }
  return best;
}

export const boxAt = ({ x, y }: Point, level: boolean, { half, up, down }: Omit<Wanted, 'level'>): Box =>
  level
    ? { left: x - half, right: x + half, top: y - up, bottom: y + down }
    : { left: x - up, right: x + down, top: y - half, bottom: y + half };

const meets = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Meets no words, no symbol, no wire, and nothing set before. */
export function isFree(measured: Measured, box: Box, taken: readonly Box[]): boolean {
  if (wordsNear(measured).some((other) => meets(box, other)) || taken.some((other) => meets(box, other)))
    return false;
  return [...measured.wires.values()].every((wire) => !crosses(box, wire.points));
}

/** Runs of a wire are level or upright. */
function crosses(box: Box, points: readonly Point[]): boolean {
  return points.slice(1).some((b, i) => {
    const a = points[i] ?? b;
    return (
      Math.min(a.x, b.x) < box.right &&
      Math.max(a.x, b.x) > box.left &&
      Math.min(a.y, b.y) < box.bottom &&
      Math.max(a.y, b.y) > box.top
    );
  });
}

/** The first of some places at which a box of that size meets nothing; else the first. */
export function firstFree(
  measured: Measured,
  tries: readonly Point[],
  size: { readonly width: number; readonly height: number },
  taken: readonly Box[],
): Point | null {
  const free = tries.find(({ x, y }) =>
    isFree(measured, { left: x, right: x + size.width, top: y, bottom: y + size.height }, taken),
  );
  return free ?? tries[0] ?? null;
}

const known = new WeakMap<Measured, readonly Box[]>();

/** Boxes of all words and symbols. */
function wordsNear(measured: Measured): readonly Box[] {
  const found = known.get(measured);
  if (found !== undefined) return found;
  const made = [
    ...measured.words,
    ...[...measured.wires.values()].flatMap(({ label }) => (label === null ? [] : [label])),
    ...[...measured.parts.values()].flatMap(({ box, whole }) => [box, whole]),
  ];
  known.set(measured, made);
  return made;
}

/** How far the run under a point goes on to its nearer corner. */
function runAt(points: readonly Point[], at: number): number {
  let begin = 0;
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1], points[i]];
    if (a === undefined || b === undefined) break;
    const span = Math.hypot(b.x - a.x, b.y - a.y);
    if (at <= begin + span) return Math.min(at - begin, begin + span - at);
    begin += span;
  }
  return 0;
}
