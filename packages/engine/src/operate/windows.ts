/** The window of each charger: what becomes of it over the set point at the posts. */
import type { WindowOutcome } from '../contracts/index.ts';
import type { CircuitPart } from './circuit.ts';
import type { Frame } from './frame.ts';
import { runScene, type Machine, type Run } from './run.ts';
import type { Entry } from './tracks.ts';

const BEYOND_V = 1;
const STEP_V = 0.05;
const FINEST_V = 0.001;
/** Grid steps between two set points that are always looked at. */
const STRIDE = 8;
/** A cycle that reaches an end of the sweep is followed this much further, V for each 12 V. */
const FOLLOW_V = 3;

export interface Sweep {
  readonly device: CircuitPart;
  readonly charging: readonly number[];
  readonly entries: readonly Entry[];
  readonly envelope: readonly [number, number];
  /** Set point of a typical day in this state, V: what a meter shows there. */
  readonly typical: number;
  /** 12 V blocks of the vehicle's net. */
  readonly blocks: number;
  /** The weak corner at a set point. */
  frameAt(volts: number): Frame;
}

export interface Span {
  readonly from: number;
  readonly to: number;
  readonly outcome: WindowOutcome;
}

/** Where something changed in sweeps of a charger in one state: places to look first in a like one, by what happens at the two ends. */
export type Hints = Map<string, Hint>;

interface Hint {
  /** Lower ends of the grid steps over which other events happen, V. */
  readonly steps: readonly number[];
  /** Edges of the spans, V. */
  readonly edges: readonly number[];
}

export interface Swept {
  readonly spans: readonly Span[];
  /** A run in the first cycling span: at the typical set point where it cycles there, else amid the envelope's share. */
  readonly sample: Run | null;
}

/**
 * Outcome over the set point from 1 V below the envelope to 1 V above it on a grid of 50 mV, each change refined by
 * bisection to 1 mV; a cycle at an end of the sweep is followed to its edge, so that no edge is where the looking ended.
 * The copper is as warm as it gets with the charger on at 1 V above the envelope.
 *
 * A stretch of the grid whose two ends go through the same events from the same starts is not looked into: every threshold
 * sees a voltage that rises with the set point, so a rule that answers alike at both ends answers alike between them. A
 * like sweep says where the stretches may end; without one they are short.
 */
export function sweep(m: Machine, s: Sweep, hints: Hints = new Map()): Swept {
  const temps = warmCopper(m, s, s.envelope[1] + BEYOND_V);
  const known = new Map<number, Course>();
  const at = (volts: number): Course => {
    const found = known.get(volts);
    if (found !== undefined) return found;
    const course = courseAt(m, s, volts, temps);
    known.set(volts, course);
    return course;
  };
  const outcomeAt = (volts: number): WindowOutcome => at(volts).outcome;
  const low = endOf(s, outcomeAt, s.envelope[0] - BEYOND_V, -1);
  const high = endOf(s, outcomeAt, s.envelope[1] + BEYOND_V, 1);
  const last = Math.round((high - low) / STEP_V);
  const volts = (i: number): number => (i === last ? high : low + i * STEP_V);
  const looked = (a: number, b: number): readonly number[] => {
    if (b - a <= 1 || at(volts(a)).events === at(volts(b)).events) return [b];
    const middle = (a + b) >> 1;
    return [...looked(a, middle), ...looked(middle, b)];
  };
  const like = `${at(low).events}/${at(high).events}`;
  const hint = hints.get(like);
  const short = hint === undefined ? null : asHinted({ low, last, volts }, at, hint);
  if (short !== null) return sweptOf(m, s, short, temps);
  const grid = [0];
  for (const mark of marksOf(hint ?? null, low, last)) grid.push(...looked(grid.at(-1) ?? 0, mark));
  const spans = spansOf(grid.map(volts), outcomeAt, hint?.edges ?? []);
  const steps = grid.filter(
    (i, k) => grid[k + 1] === i + 1 && at(volts(i)).events !== at(volts(i + 1)).events,
  );
  hints.set(like, { steps: steps.map(volts), edges: spans.slice(1).map((span) => span.from) });
  return sweptOf(m, s, spans, temps);
}

/** What lies between two edges less than a millivolt apart is finer than an edge is known: the next span begins there. */
function sweptOf(m: Machine, s: Sweep, found: readonly Span[], temps: Float64Array): Swept {
  const spans: Span[] = [];
  for (const span of found) {
    const last = spans.at(-1);
    if (last !== undefined && last.to - last.from < FINEST_V && spans.length > 1) {
      spans.pop();
      spans.push({ ...span, from: last.from });
    } else spans.push(span);
  }
  return { spans, sample: sampleOf(m, s, spans, temps) };
}

/** The grid of a sweep: `last` + 1 set points from `low` up. */
interface Grid {
  readonly low: number;
  readonly last: number;
  readonly volts: (i: number) => number;
}

/**
 * The spans when everything changes just where the hint says: the edges within their last millivolt, other events within
 * their step, nothing on the stretches between (long ones are looked at amid, too). null when something is otherwise.
 */
function asHinted(grid: Grid, at: (volts: number) => Course, hint: Hint): readonly Span[] | null {
  const { low, last, volts } = grid;
  const cells: { readonly a: number; readonly b: number; readonly edge: boolean }[] = [];
  for (const step of hint.steps) {
    const i = Math.round((step - low) / STEP_V);
    if (i < 0 || i >= last) continue;
    const edges = hint.edges.filter((g) => g > volts(i) && g <= volts(i + 1));
    if (edges.length === 0) cells.push({ a: volts(i), b: volts(i + 1), edge: false });
    for (const edge of edges) {
      const [a, b] = cellOf(volts(i), volts(i + 1), edge);
      cells.push({ a, b, edge: true });
    }
  }
  const spans: Span[] = [];
  let from = low;
  let before = low;
  for (const { a, b, edge } of cells) {
    if (!quiet(at, before, a)) return null;
    const outcome = at(a).outcome;
    if ((at(b).outcome !== outcome) !== edge) return null;
    if (edge) {
      spans.push({ from, to: b, outcome });
      from = b;
    }
    before = b;
  }
  const high = volts(last);
  if (!quiet(at, before, high)) return null;
  return [...spans, { from, to: high, outcome: at(high).outcome }];
}

/** True when the same happens at both ends of a stretch, and amid it where it is long. */
function quiet(at: (volts: number) => Course, a: number, b: number): boolean {
  const { events } = at(a);
  if (a > b || at(b).events !== events) return false;
  return b - a <= 2 * STRIDE * STEP_V || at((a + b) / 2).events === events;
}

/** The last cell of a bisection between `low` and `high` that closes in on `edge`. */
function cellOf(low: number, high: number, edge: number): readonly [number, number] {
  let [a, b] = [low, high];
  while (b - a > FINEST_V) {
    const middle = (a + b) / 2;
    if (edge > middle) a = middle;
    else b = middle;
  }
  return [a, b];
}

/** Where the looking ends on one side: a cycle is followed. */
function endOf(s: Sweep, at: (volts: number) => WindowOutcome, from: number, way: 1 | -1): number {
  const most = Math.round((FOLLOW_V * s.blocks) / (STRIDE * STEP_V));
  for (let i = 0; i < most; i++) {
    const volts = from + way * i * STRIDE * STEP_V;
    if (volts <= 0 || at(volts) !== 'cycle') return volts;
  }
  return from + way * most * STRIDE * STEP_V;
}

/** Grid points at which stretches end, the last one included: around the hinted steps and amid what lies between, else near each other. */
function marksOf(hint: Hint | null, low: number, last: number): readonly number[] {
  const marks: number[] = [];
  if (hint === null) {
    for (let i = STRIDE; i < last; i += STRIDE) marks.push(i);
    return [...marks, last];
  }
  const ends = new Set([0, last]);
  for (const step of hint.steps) {
    const i = Math.round((step - low) / STEP_V);
    if (i >= 0 && i < last) ends.add(i).add(i + 1);
  }
  const sorted = [...ends].toSorted((a, b) => a - b);
  sorted.forEach((end, k) => {
    const before = sorted[k - 1];
    if (before === undefined) return;
    if (end - before > 2 * STRIDE) marks.push((before + end) >> 1);
    marks.push(end);
  });
  return marks;
}

/** Adjoining set points with one outcome are a span; each edge between two is found to 1 mV. */
function spansOf(
  grid: readonly number[],
  at: (volts: number) => WindowOutcome,
  guesses: readonly number[],
): readonly Span[] {
  const spans: Span[] = [];
  let from = grid[0] ?? 0;
  for (let i = 1; i < grid.length; i++) {
    const b = grid[i] ?? from;
    // Something narrower than a step may lie between two edges of one step: each edge is looked behind.
    for (let a = grid[i - 1] ?? from; at(a) !== at(b);) {
      const outcome = at(a);
      const low = a;
      const guess = guesses.find((g) => g > low && g <= b);
      const edge =
        (guess === undefined ? null : confirmed(at, low, b, outcome, guess)) ?? refine(at, low, b, outcome);
      spans.push({ from, to: edge, outcome });
      from = edge;
      a = edge;
    }
  }
  const end = grid.at(-1) ?? from;
  spans.push({ from, to: end, outcome: at(end) });
  return spans;
}

/** The edge that bisection would find if it lies where it is guessed; null if not. */
function confirmed(
  at: (volts: number) => WindowOutcome,
  low: number,
  high: number,
  outcome: WindowOutcome,
  guess: number,
): number | null {
  const [a, b] = cellOf(low, high, guess);
  return at(a) === outcome && at(b) !== outcome ? b : null;
}

/** What becomes of the device at one set point, and through which events from each start. */
interface Course {
  readonly outcome: WindowOutcome;
  readonly events: string;
}

/** The set point below which the outcome still is `outcome`, to 1 mV. */
function refine(
  at: (volts: number) => WindowOutcome,
  low: number,
  high: number,
  outcome: WindowOutcome,
): number {
  let [a, b] = [low, high];
  while (b - a > FINEST_V) {
    const middle = (a + b) / 2;
    if (at(middle) === outcome) a = middle;
    else b = middle;
  }
  return b;
}

function warmCopper(m: Machine, s: Sweep, volts: number): Float64Array {
  const frame = s.frameAt(volts);
  const run = runScene(m, frame, onMemory(s, firstEntry(s)))[0];
  return run?.temperatures ?? m.cool(frame.scene);
}

const firstEntry = (s: Sweep): readonly number[] => s.entries[0]?.memory ?? [];

const withValue = (memory: readonly number[], device: number, value: number): readonly number[] =>
  memory.map((v, i) => (i === device ? value : v));

const onMemory = (s: Sweep, memory: readonly number[]): readonly number[] =>
  withValue(memory, s.device.device, s.charging[0] ?? 0);

/** Entered with the device off and with it on, from every memory that the state can be entered with. */
function starts(s: Sweep): readonly (readonly number[])[] {
  const list: (readonly number[])[] = [];
  const seen = new Set<string>();
  for (const entry of s.entries) {
    for (const memory of [
      entry.memory,
      withValue(entry.memory, s.device.device, 0),
      onMemory(s, entry.memory),
    ]) {
      const key = memory.join(',');
      if (seen.has(key)) continue;
      seen.add(key);
      list.push(memory);
    }
  }
  return list;
}

function courseAt(m: Machine, s: Sweep, volts: number, temps: Float64Array): Course {
  const frame = s.frameAt(volts);
  const outcomes = new Set<WindowOutcome>();
  const events: string[] = [];
  for (const memory of starts(s)) {
    for (const run of runScene(m, frame, memory, temps)) {
      outcomes.add(outcomeOf(s, run));
      events.push(eventsText(run));
    }
  }
  return { outcome: together(outcomes), events: events.join('|') };
}

/** A cycle that is reached from one side only is still a cycle: nothing else protects against it. */
function together(outcomes: ReadonlySet<WindowOutcome>): WindowOutcome {
  const [only] = outcomes;
  if (outcomes.size === 1 && only !== undefined) return only;
  return outcomes.has('cycle') ? 'cycle' : 'depends';
}

function eventsText(run: Run): string {
  const { outcome } = run;
  const moves = outcome.type === 'cycle' ? outcome.cycleEvents : outcome.events;
  return `${outcome.type}:${moves.map((e) => `${e.device}>${e.to}`).join()}`;
}

function outcomeOf(s: Sweep, run: Run): WindowOutcome {
  const on = run.outcome.segments.map((g) => s.charging.includes(g.memory[s.device.device] ?? 0));
  const cycles = run.outcome.type === 'cycle' || run.outcome.type === 'irregular';
  if (cycles && on.some((x) => x) && on.some((x) => !x)) return 'cycle';
  return on.at(-1) === true ? 'on' : 'off';
}

function sampleOf(m: Machine, s: Sweep, spans: readonly Span[], temps: Float64Array): Run | null {
  const cycles = spans.filter((p) => p.outcome === 'cycle');
  const inside = cycles.find((p) => p.to > s.envelope[0] && p.from < s.envelope[1]) ?? cycles[0];
  if (inside === undefined) return null;
  const a = Math.max(inside.from, Math.min(s.envelope[0], inside.to));
  const b = Math.min(inside.to, Math.max(s.envelope[1], inside.from));
  const typical = s.typical >= inside.from && s.typical <= inside.to;
  const frame = s.frameAt(typical ? s.typical : (a + b) / 2);
  for (const memory of starts(s)) {
    const run = runScene(m, frame, memory, temps).find((r) => outcomeOf(s, r) === 'cycle');
    if (run !== undefined) return run;
  }
  return null;
}

/** The set point nearest to `volts` inside the envelope at which the device is settled on; null: none. */
export function nearestOn(
  spans: readonly Span[],
  envelope: readonly [number, number],
  volts: number,
): number | null {
  let best: number | null = null;
  for (const span of spans) {
    if (span.outcome !== 'on') continue;
    const from = Math.max(span.from, envelope[0]);
    const to = Math.min(span.to, envelope[1]);
    if (from > to) continue;
    const near = Math.min(Math.max(volts, from), to);
    if (best === null || Math.abs(near - volts) < Math.abs(best - volts)) best = near;
  }
  return best;
}
