/**
 * Devices with memory (thresholds with delays, latches, coils): an event loop around operating points.
 *
 * The state is the memory value of each device and the running timers in whole milliseconds. At each point every rule whose
 * condition holds has its timer running; a condition that lapses resets its timer. The earliest timer changes its device
 * and the circuit is solved again.
 */
import { outcomeOf, type MemoryEvent, type Outcome, type Segment } from './outcome.ts';

/** One way a device can change: from one memory value to another, once a condition has held for a delay. */
export interface EventRule<P> {
  readonly device: number;
  readonly from: number;
  readonly to: number;
  /** Milliseconds; 0 counts as 100 ms (nothing reacts in no time). */
  readonly delayMs: number;
  readonly holds: (point: P) => boolean;
  /** True for changes that are meant to come and go (sampling pauses). */
  readonly benign?: boolean;
}

export interface EventRun<P> {
  /** Memory value of each device at the start. */
  readonly initial: readonly number[];
  readonly rules: readonly EventRule<P>[];
  /** Operating point for given memories; asked once for each memory vector. */
  readonly solve: (memory: readonly number[]) => P;
  /** How long the state lasts, ms. */
  readonly lastsMs: number;
  /** Events after which a run without end or repetition counts as irregular. */
  readonly maxEvents?: number;
}

const LEAST_DELAY_MS = 100;
const MOST_EVENTS = 2000;
/** Devices due at the same millisecond whose orders are all followed; more change all at once. */
const MOST_TIED = 4;
/** Alternatives followed in one run. */
const MOST_BRANCHES = 64;

/** A moment right after an event (or the start): memory, remaining milliseconds of each rule (-1: not running). */
interface Moment<P> {
  readonly atMs: number;
  readonly memory: readonly number[];
  readonly timers: Float64Array;
  readonly point: P;
  readonly key: string;
}

/** Memory and the timers that run: what decides the future. */
function keyOf(memory: readonly number[], timers: Float64Array): string {
  let key = memory.join();
  for (let i = 0; i < timers.length; i += 1) if (timers[i]! >= 0) key += `|${i}:${timers[i]}`;
  return key;
}

interface Delayed {
  readonly delayMs: number;
}

/** The same rules are followed from many memories. */
const delaysKnown = new WeakMap<readonly Delayed[], readonly number[]>();

/** Whole milliseconds for which each rule's condition has to hold. */
function delaysOf(rules: readonly Delayed[]): readonly number[] {
  let delays = delaysKnown.get(rules);
  if (delays === undefined) {
    delays = rules.map(({ delayMs }) => {
      if (!(delayMs >= 0)) throw new RangeError(`a delay of ${delayMs} ms`);
      return Math.max(LEAST_DELAY_MS, Math.round(delayMs));
    });
    delaysKnown.set(rules, delays);
  }
  return delays;
}

/** One course of events; alternatives begin as copies. */
class Course<P> {
  readonly moments: Moment<P>[];
  readonly events: MemoryEvent[];
  /** Number of events before each moment. */
  readonly eventsBefore: number[];
  readonly benign: boolean[];
  readonly indexOf = new Map<string, number>();

  constructor(from?: Course<P>) {
    this.moments = from === undefined ? [] : from.moments.slice();
    this.events = from === undefined ? [] : from.events.slice();
    this.eventsBefore = from === undefined ? [] : from.eventsBefore.slice();
    this.benign = from === undefined ? [] : from.benign.slice();
    this.moments.forEach((moment, i) => this.indexOf.set(moment.key, i));
  }

  get now(): Moment<P> {
    return this.moments.at(-1)!;
  }

  enter(moment: Moment<P>): void {
    this.indexOf.set(moment.key, this.moments.length);
    this.moments.push(moment);
    this.eventsBefore.push(this.events.length);
  }

  /** Stretches from moment `first` on, the last one ending at `endMs`. */
  segments(first: number, endMs: number): Segment<P>[] {
    const segments: Segment<P>[] = [];
    for (let i = first; i < this.moments.length; i += 1) {
      const { memory, point, atMs } = this.moments[i]!;
      const next = this.moments[i + 1];
      segments.push({ memory, point, durationMs: (next === undefined ? endMs : next.atMs) - atMs });
    }
    return segments;
  }

  /** Events after moment `first`, timed from it. */
  eventsFrom(first: number): MemoryEvent[] {
    const start = this.moments[first]!.atMs;
    return this.events
      .slice(this.eventsBefore[first])
      .map((event) => ({ ...event, atMs: event.atMs - start }));
  }
}

/** Rules about to change their devices, all at once, after a wait. */
interface Due {
  readonly rules: readonly number[];
  readonly wait: number;
}

/** A course still to be followed; `first` is an alternative to what the original course did at its last moment. */
interface Branch<P> {
  readonly course: Course<P>;
  readonly first: Due | null;
}

class Loop<P> {
  private readonly run: EventRun<P>;
  private readonly delays: readonly number[];
  private readonly points = new Map<string, P>();
  private readonly finished = new Set<string>();
  private readonly waiting: Branch<P>[] = [];
  private branches = 1;

  /** `first`: the point of the initial memory. */
  constructor(run: EventRun<P>, first: P) {
    this.run = run;
    this.points.set(run.initial.join(), first);
    this.delays = delaysOf(run.rules);
  }

  outcomes(): Outcome<P>[] {
    const found: Outcome<P>[] = [];
    const known = new Set<string>();
    const course = new Course<P>();
    course.enter(this.moment(0, this.run.initial.slice(), null, 0));
    this.waiting.push({ course, first: null });
    for (let next = this.waiting.shift(); next !== undefined; next = this.waiting.shift()) {
      const outcome = this.follow(next.course, next.first);
      for (const moment of next.course.moments) this.finished.add(moment.key);
      if (outcome === null) continue;
      const key = [outcome.type, outcome.periodMs, ...outcome.memories.map((m) => m.join()).toSorted()].join(
        '|',
      );
      if (known.has(key)) continue;
      known.add(key);
      found.push(outcome);
    }
    return found;
  }

  private pointAt(memory: readonly number[]): P {
    const key = memory.join();
    let point = this.points.get(key);
    if (point === undefined) {
      point = this.run.solve(memory);
      this.points.set(key, point);
    }
    return point;
  }

  /** The moment after `elapsed` ms of the timers of `before`, with a new memory. */
  private moment(
    atMs: number,
    memory: readonly number[],
    before: Float64Array | null,
    elapsed: number,
  ): Moment<P> {
    const point = this.pointAt(memory);
    const { rules } = this.run;
    const timers = new Float64Array(rules.length).fill(-1);
    for (let i = 0; i < rules.length; i += 1) {
      const rule = rules[i]!;
      if (memory[rule.device] !== rule.from || !rule.holds(point)) continue;
      const running = before === null ? -1 : before[i]!;
      timers[i] = running < 0 ? this.delays[i]! : running - elapsed;
    }
    return { atMs, memory, timers, point, key: keyOf(memory, timers) };
  }

  /** Follows a course to its end; null when it joins one already followed. */
  private follow(course: Course<P>, first: Due | null): Outcome<P> | null {
    const most = this.run.maxEvents ?? MOST_EVENTS;
    let due = first;
    for (;;) {
      const wait = due === null ? this.earliest(course.now) : due.wait;
      const end = this.ended(course, wait);
      if (end !== null) return end;
      due ??= this.choose(course, wait);
      const moment = this.change(course, due);
      const back = course.indexOf.get(moment.key);
      if (back !== undefined) return this.cycle(course, back, moment.atMs);
      if (this.finished.has(moment.key)) return null;
      course.enter(moment);
      if (course.events.length >= most) return this.irregular(course);
      due = null;
    }
  }

  /** The outcome when nothing more happens, or not within the state. */
  private ended(course: Course<P>, wait: number): Outcome<P> | null {
    const { lastsMs } = this.run;
    const { atMs, memory, point } = course.now;
    if (wait === Infinity) {
      const segment = { memory, point, durationMs: Math.max(0, lastsMs - atMs) };
      return outcomeOf('settled', course.events, [segment], [], false);
    }
    if (atMs + wait < lastsMs) return null;
    return outcomeOf('running', course.events, course.segments(0, lastsMs), [], false);
  }

  /** What changes now; other orders of tied devices are kept for later. */
  private choose(course: Course<P>, wait: number): Due {
    const rules = this.due(course.now, wait);
    if (rules.length === 1 || rules.length > MOST_TIED) return { rules, wait };
    for (const rule of rules.slice(1)) {
      if (this.branches >= MOST_BRANCHES) break;
      this.branches += 1;
      this.waiting.push({ course: new Course<P>(course), first: { rules: [rule], wait } });
    }
    return { rules: rules.slice(0, 1), wait };
  }

  private earliest(now: Moment<P>): number {
    let wait = Infinity;
    for (const left of now.timers) if (left >= 0 && left < wait) wait = left;
    return wait;
  }

  /** Rules due after `wait`, the first of each device. */
  private due(now: Moment<P>, wait: number): number[] {
    const { rules } = this.run;
    const devices = new Set<number>();
    const due: number[] = [];
    now.timers.forEach((left, i) => {
      const { device } = rules[i]!;
      if (left !== wait || devices.has(device)) return;
      devices.add(device);
      due.push(i);
    });
    return due;
  }

  /** Performs the rules; records their events and returns the moment after. */
  private change(course: Course<P>, due: Due): Moment<P> {
    const { rules } = this.run;
    const now = course.now;
    const atMs = now.atMs + due.wait;
    const memory = now.memory.slice();
    for (const i of due.rules) {
      const { device, from, to, benign } = rules[i]!;
      memory[device] = to;
      course.events.push({ atMs, device, from, to });
      course.benign.push(benign === true);
    }
    return this.moment(atMs, memory, now.timers, due.wait);
  }

  private cycle(course: Course<P>, first: number, endMs: number): Outcome<P> {
    const benign = course.benign.slice(course.eventsBefore[first]).every(Boolean);
    const segments = course.segments(first, endMs).filter((segment) => segment.durationMs > 0);
    return outcomeOf('cycle', course.events, segments, course.eventsFrom(first), benign);
  }

  private irregular(course: Course<P>): Outcome<P> {
    const first = Math.floor(course.moments.length / 2);
    const segments = course.segments(first, course.now.atMs).filter((segment) => segment.durationMs > 0);
    return outcomeOf('irregular', course.events, segments, course.eventsFrom(first), false);
  }
}

/**
 * Follows devices with memory from their initial values until they settle, repeat, or the state ends.
 *
 * Devices due at the same millisecond are followed in every order (up to four at once; more change together); outcomes that
 * differ come back as alternatives, the first in the order of the rules.
 *
 * @throws RangeError for a negative or missing delay
 */
export function runEvents<P>(run: EventRun<P>): Outcome<P>[] {
  const { initial, rules, lastsMs } = run;
  const point = run.solve(initial);
  for (const rule of rules) {
    if (initial[rule.device] === rule.from && rule.holds(point)) return new Loop(run, point).outcomes();
  }
  const segment = { memory: initial.slice(), point, durationMs: Math.max(0, lastsMs) };
  return [outcomeOf('settled', [], [segment], [], false)];
}
