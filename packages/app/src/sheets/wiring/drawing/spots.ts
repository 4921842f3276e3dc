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
  const blocked = near(wire, wanted, ...standing(measured, wire, wanted.level), taken);
  const { points, length } = wire;
  const first = wanted.half + 1.5;
  let best: (Spot & { readonly room: number }) | null = null;
  for (const { begin, end, level } of straightsOf(points)) {
    if (wanted.level && !level) continue;
    // No room on it is greater than half of it.
    if (best !== null && (end - begin) / 2 <= best.room) continue;
    const last = Math.min(end, length - first);
    for (let at = onward(first, begin); at <= last; at += STEP) {
      const room = Math.min(at - begin, end - at, at, length - at);
      if (room < wanted.half || (best !== null && room <= best.room)) continue;
      const { x, y, degrees } = along(points, at);
      const box = boxAt({ x, y }, level, wanted);
      if (blocked.some((other) => meets(box, other))) continue;
      best = { x, y, degrees, at, room };
    }
  }
  return best;
}

/** The first step from `first` on that is not before `begin`. */
const onward = (first: number, begin: number): number =>
  first + STEP * Math.max(0, Math.ceil((begin - first) / STEP));

interface Straight {
  /** How far along the wire. */
  readonly begin: number;
  readonly end: number;
  readonly level: boolean;
}

function straightsOf(points: readonly Point[]): readonly Straight[] {
  let begin = 0;
  return points.slice(1).map((b, i) => {
    const a = points[i] ?? b;
    const end = begin + Math.hypot(b.x - a.x, b.y - a.y);
    const straight = { begin, end, level: isLevel((Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI) };
    begin = end;
    return straight;
  });
}

/** Beside an upright run of a wire, to its right: the middle of a box of this size; null: there is no room. */
export function besideUpright(
  measured: Measured,
  wire: MeasuredWire,
  { half, tall, air }: { readonly half: number; readonly tall: number; readonly air: number },
  taken: readonly Box[],
): Spot | null {
  const reach = { half: tall, up: tall, down: 2 * half + air };
  const blocked = near(wire, reach, ...standing(measured, wire, true), taken);
  for (let at = tall; at <= wire.length - tall; at += STEP) {
    const { x, y, degrees } = along(wire.points, at);
    if (isLevel(degrees) || runAt(wire.points, at) < tall / 2) continue;
    const left = x + air;
    const box = { left, right: left + 2 * half, top: y - tall / 2, bottom: y + tall / 2 };
    if (!blocked.some((other) => meets(box, other))) return { x: left + half, y, degrees, at };
  }
  return null;
}

export const isLevel = (degrees: number): boolean => Math.abs(Math.sin((degrees * Math.PI) / 180)) < 0.01;

/** Of some boxes those that a thing of this extent on the wire could meet. */
function near(
  { points }: MeasuredWire,
  { half, up, down }: Omit<Wanted, 'level'>,
  ...boxes: readonly (readonly Box[])[]
): readonly Box[] {
  const reach = Math.max(half, up, down);
  const xs = points.map(({ x }) => x);
  const ys = points.map(({ y }) => y);
  const around = {
    left: Math.min(...xs) - reach,
    right: Math.max(...xs) + reach,
    top: Math.min(...ys) - reach,
    bottom: Math.max(...ys) + reach,
  };
  return boxes.flatMap((some) => some.filter((box) => meets(around, box)));
}

/** Words, symbols and the runs of wires; of the wire itself only where `own` is said: a thing on it meets it. */
function standing(measured: Measured, wire: MeasuredWire, own: boolean): readonly (readonly Box[])[] {
  const runs = runsIn(measured);
  return [wordsNear(measured), own ? runs : runs.filter((run) => run.wire !== wire.id)];
}

interface Run extends Box {
  readonly wire: string;
}

const runsKnown = new WeakMap<Measured, readonly Run[]>();

/** Runs of all wires. */
function runsIn(measured: Measured): readonly Run[] {
  const found = runsKnown.get(measured);
  if (found !== undefined) return found;
  const made = [...measured.wires.values()].flatMap((wire) =>
    runsOf(wire.points).map((run) => ({ ...run, wire: wire.id })),
  );
  runsKnown.set(measured, made);
  return made;
}

/** Runs of a wire are level or upright: boxes without breadth. */
const runsOf = (points: readonly Point[]): readonly Box[] =>
  points.slice(1).map((b, i) => {
    const a = points[i] ?? b;
    return {
      left: Math.min(a.x, b.x),
      right: Math.max(a.x, b.x),
      top: Math.min(a.y, b.y),
      bottom: Math.max(a.y, b.y),
    };
  });

/** Words and symbols on the drawing and what else was set on it that a thing on the wire could meet. */
export const wordsAlong = (
  measured: Measured,
  wire: MeasuredWire,
  half: number,
  taken: readonly Box[],
): readonly Box[] => near(wire, { half, up: half, down: half }, wordsNear(measured), taken);

export const boxAt = ({ x, y }: Point, level: boolean, { half, up, down }: Omit<Wanted, 'level'>): Box =>
  level
    ? { left: x - half, right: x + half, top: y - up, bottom: y + down }
    : { left: x - up, right: x + down, top: y - half, bottom: y + half };

export const meets = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Meets no words, no symbol, no wire, and nothing set before. */
export function isFree(measured: Measured, box: Box, taken: readonly Box[]): boolean {
  if (wordsNear(measured).some((other) => meets(box, other)) || taken.some((other) => meets(box, other)))
    return false;
  return !runsIn(measured).some((run) => meets(box, run));
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
