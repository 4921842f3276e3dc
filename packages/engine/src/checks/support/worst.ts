/** Finding the worst of many operating points. */
import type { Operation, Solved } from '../../contracts/index.ts';
import { perOperation } from './memo.ts';

/** What was measured in one operating point; `margin` > 0 is on the good side. */
export interface Sample<T> {
  readonly solved: Solved;
  readonly margin: number;
  readonly of: T;
}

export interface Worst<T> extends Sample<T> {
  /** How many other conditions are on the bad side too. */
  readonly others: number;
}

/** Rounding of the solver: what differs by no more is equal, so that the order of elimination never chooses between conditions. */
const EQUAL_SHARE = 1e-9;
const EQUAL_LEAST = 1e-12;

/** True when a is less than b by more than rounding. */
export const clearlyLess = (a: number, b: number): boolean =>
  a < b - EQUAL_LEAST - EQUAL_SHARE * Math.abs(b) || (a < b && !Number.isFinite(b));

/** The item of the least figure; of those that only rounding tells apart the first. */
export function leastBy<T>(items: Iterable<T>, of: (item: T) => number): T | null {
  let least: { readonly item: T; readonly figure: number } | null = null;
  for (const item of items) {
    const figure = of(item);
    if (least === null || clearlyLess(figure, least.figure)) least = { item, figure };
  }
  return least === null ? null : least.item;
}

/**
 * The sample with the least margin; of equal ones the first. `measure` gets each point and its place among them, and gives null
 * where there is nothing to judge. Other
 * conditions on the bad side are counted by condition, not by outcome.
 */
export function worstOf<T>(
  points: Iterable<Solved>,
  measure: (solved: Solved, place: number) => { readonly margin: number; readonly of: T } | null,
): Worst<T> | null {
  let worst: Sample<T> | null = null;
  const bad = new Set<string>();
  let place = -1;
  for (const solved of points) {
    place += 1;
    const found = measure(solved, place);
    if (found === null) continue;
    if (found.margin < 0) bad.add(solved.id);
    if (worst === null || clearlyLess(found.margin, worst.margin)) worst = { solved, ...found };
  }
  if (worst === null) return null;
  bad.delete(worst.solved.id);
  return { ...worst, others: bad.size };
}

const CACHE = new WeakMap<Operation, readonly Solved[]>();

/** All outcomes of the judged set in which no device is opened on trial. */
export function whole(op: Operation): readonly Solved[] {
  let list = CACHE.get(op);
  if (list === undefined) {
    list = op.all().filter((s) => s.condition.open === null);
    CACHE.set(op, list);
  }
  return list;
}

/** Where the outcomes of `whole` stand among all. */
export const wholePlaces: (op: Operation) => readonly number[] = perOperation((op) =>
  op.all().flatMap((s, place) => (s.condition.open === null ? [place] : [])),
);

/** A point at rest, as opposed to one that hunts. */
export const isSettled = (s: Solved): boolean => s.outcome === 'settled' || s.outcome === 'running';

export const isCycling = (s: Solved): boolean => s.outcome === 'cycle' || s.outcome === 'irregular';
