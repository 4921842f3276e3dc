/** What devices with memory end up doing. */

export interface MemoryEvent {
  /** Milliseconds since the state was entered (in a cycle's own list: since the cycle's start). */
  readonly atMs: number;
  readonly device: number;
  readonly from: number;
  readonly to: number;
}

/** A stretch of time during which nothing changes. */
export interface Segment<P> {
  readonly memory: readonly number[];
  readonly durationMs: number;
  readonly point: P;
}

export interface Outcome<P> {
  /**
   * `settled`: nothing will change any more. `cycle`: a (memory, timers) pair came back. `running`: the state ended with
   * timers running. `irregular`: too many events without either; means are over the last half.
   */
  readonly type: 'settled' | 'cycle' | 'running' | 'irregular';
  /** All events from the start, in order. */
  readonly events: readonly MemoryEvent[];
  /** Settled: the last point; cycle: one period; running: the whole run; irregular: the last half. */
  readonly segments: readonly Segment<P>[];
  /** Memories handed on to what follows: one, or all of a cycle (of the last half when irregular). */
  readonly memories: readonly (readonly number[])[];
  /** Length of the cycle (of the last half when irregular), ms; 0 otherwise. */
  readonly periodMs: number;
  /** Events of one period (of the last half when irregular). */
  readonly cycleEvents: readonly MemoryEvent[];
  /** For each device: share of the segments' time at each memory value, 0..1. */
  readonly duty: readonly ReadonlyMap<number, number>[];
  /** True for a cycle of nothing but events that their rules call benign (pauses for sampling). */
  readonly benign: boolean;
  /** Time-weighted mean over the segments. */
  mean(f: (point: P) => number): number;
  /** Root of the time-weighted mean square over the segments. */
  rms(f: (point: P) => number): number;
}

/** Time-weighted mean; a single or timeless stretch gives its last value. */
export function meanOver<P>(segments: readonly Segment<P>[], f: (point: P) => number): number {
  const last = segments.at(-1);
  if (last === undefined) return 0;
  if (segments.length === 1) return f(last.point);
  let time = 0;
  let sum = 0;
  for (const segment of segments) {
    time += segment.durationMs;
    sum += segment.durationMs * f(segment.point);
  }
  return time > 0 ? sum / time : f(last.point);
}

function dutyOf<P>(segments: readonly Segment<P>[], devices: number): ReadonlyMap<number, number>[] {
  const duty: ReadonlyMap<number, number>[] = [];
  const time = segments.reduce((sum, segment) => sum + segment.durationMs, 0);
  const even = segments.length === 1 || !(time > 0 && time < Infinity);
  for (let device = 0; device < devices; device += 1) {
    const share = new Map<number, number>();
    for (const { memory, durationMs } of segments) {
      const value = memory[device]!;
      const part = even ? 1 / segments.length : durationMs / time;
      share.set(value, (share.get(value) ?? 0) + part);
    }
    duty.push(share);
  }
  return duty;
}

function distinct(memories: readonly (readonly number[])[]): (readonly number[])[] {
  const seen = new Set<string>();
  return memories.filter((memory) => {
    const key = memory.join();
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

class Recorded<P> implements Outcome<P> {
  readonly type: Outcome<P>['type'];
  readonly events: readonly MemoryEvent[];
  readonly segments: readonly Segment<P>[];
  readonly memories: readonly (readonly number[])[];
  readonly periodMs: number;
  readonly cycleEvents: readonly MemoryEvent[];
  readonly benign: boolean;
  private shares: readonly ReadonlyMap<number, number>[] | null = null;

  constructor(
    type: Outcome<P>['type'],
    events: readonly MemoryEvent[],
    segments: readonly Segment<P>[],
    cycleEvents: readonly MemoryEvent[],
    benign: boolean,
  ) {
    const repeats = type === 'cycle' || type === 'irregular';
    this.type = type;
    this.events = events;
    this.segments = segments;
    this.memories = repeats
      ? distinct(segments.filter((s) => s.durationMs > 0).map((s) => s.memory))
      : [segments.at(-1)!.memory];
    this.periodMs = repeats ? segments.reduce((sum, segment) => sum + segment.durationMs, 0) : 0;
    this.cycleEvents = cycleEvents;
    this.benign = benign;
  }

  get duty(): readonly ReadonlyMap<number, number>[] {
    this.shares ??= dutyOf(this.segments, this.segments.at(-1)!.memory.length);
    return this.shares;
  }

  mean(f: (point: P) => number): number {
    return meanOver(this.segments, f);
  }

  rms(f: (point: P) => number): number {
    const square = (point: P): number => {
      const value = f(point);
      return value * value;
    };
    return Math.sqrt(meanOver(this.segments, square));
  }
}

/** Builds an outcome from its segments and events. */
export function outcomeOf<P>(
  type: Outcome<P>['type'],
  events: readonly MemoryEvent[],
  segments: readonly Segment<P>[],
  cycleEvents: readonly MemoryEvent[],
  benign: boolean,
): Outcome<P> {
  return new Recorded(type, events, segments, cycleEvents, benign);
}
