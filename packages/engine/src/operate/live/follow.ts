/**
 * Time, one event after the other: the same rules, delays and order as the event loop of operating points, but beginning with
 * delays that are already running, and with every moment kept.
 */
import type { EventRule, Point } from '../../network/index.ts';

/** Nothing reacts in no time, ms. */
const LEAST_DELAY_MS = 100;
/** Devices due at the same millisecond beyond which all change at once. */
const MOST_TIED = 4;

/** Memory of each device; for each rule the milliseconds that its delay still has (-1: not running). */
export interface Instant {
  readonly atMs: number;
  readonly memory: readonly number[];
  readonly left: readonly number[];
  readonly point: Point;
  /** Indexes of the rules that led here. */
  readonly by: readonly number[];
}

export interface Followed {
  readonly instants: readonly Instant[];
  readonly untilMs: number;
}

export interface Following {
  readonly rules: readonly EventRule<Point>[];
  readonly solve: (memory: readonly number[]) => Point;
  readonly memory: readonly number[];
  /** Running delays at the beginning, by rule; -1: none. */
  readonly left: readonly number[];
  readonly untilMs: number;
  /** Not followed further after so many events. */
  readonly mostEvents: number;
}

export function follow(f: Following): Followed {
  const delays = f.rules.map((rule) => Math.max(LEAST_DELAY_MS, Math.round(rule.delayMs)));
  const enter = (
    atMs: number,
    memory: readonly number[],
    before: readonly number[],
    elapsed: number,
    by: readonly number[],
  ): Instant => {
    const point = f.solve(memory);
    const left = f.rules.map((rule, i) => {
      if (memory[rule.device] !== rule.from || !rule.holds(point)) return -1;
      const running = before[i] ?? -1;
      const whole = delays[i] ?? LEAST_DELAY_MS;
      return running < 0 ? whole : Math.min(whole, Math.max(0, running - elapsed));
    });
    return { atMs, memory, left, point, by };
  };
  const instants = [enter(0, f.memory, f.left, 0, [])];
  for (let events = 0; events < f.mostEvents;) {
    const now = instants.at(-1);
    if (now === undefined) break;
    const wait = now.left.reduce((least, left) => (left >= 0 && left < least ? left : least), Infinity);
    if (wait === Infinity) return { instants, untilMs: Infinity };
    if (now.atMs + wait > f.untilMs) return { instants, untilMs: f.untilMs };
    const due = dueAfter(f.rules, now.left, wait);
    const memory = now.memory.slice();
    for (const i of due) {
      const rule = f.rules[i];
      if (rule !== undefined) memory[rule.device] = rule.to;
    }
    instants.push(enter(now.atMs + wait, memory, now.left, wait, due));
    events += due.length;
  }
  return { instants, untilMs: instants.at(-1)?.atMs ?? 0 };
}

/** The first rule that is due, of each device where more than a few are due at once. */
function dueAfter(
  rules: readonly EventRule<Point>[],
  left: readonly number[],
  wait: number,
): readonly number[] {
  const devices = new Set<number>();
  const due: number[] = [];
  rules.forEach((rule, i) => {
    if (left[i] !== wait || devices.has(rule.device)) return;
    devices.add(rule.device);
    due.push(i);
  });
  return due.length > MOST_TIED ? due : due.slice(0, 1);
}
