/**
 * The small dense system of the unknown device currents.
 *
 * Rows of ideal sources and of rising devices are eliminated first with row exchange (where two rows ask for the same, the
 * later one is left without pivot); rows of falling devices (constant power) last, in
 * order and without exchange, because the signs of their pivots tell whether the point is stable: all positive on the
 * branch reached from no load, not so beyond the tip of the curve.
 */
import type { Store } from './store.ts';

/** Kinds of unknown currents, in the order of elimination: of ideal sources, of other rising devices, of falling ones. */
export const IDEAL = 0;
export const RISING = 1;
export const FALLING = 2;
export type Kind = typeof IDEAL | typeof RISING | typeof FALLING;

/** What a solution has to say; these values stand in the module, too. */
/** Some falling device is beyond the tip of its curve at the last linearisation. */
export const UNSTABLE = 1;
/** A row without pivot asks for something (its device cannot get what it regulates). */
export const CONTRADICTORY = 2;

/** A pivot this small beside its row's largest entry counts as none. */
const NO_PIVOT = 1e-12;
/** Constant (row scaled to 1) that a row without pivot may have left by rounding. */
const STRAY = 1e-9;
/** Falling rows with a pivot (row scaled to 1) at or below this are not on the upper branch. */
const STABLE_PIVOT = 1e-9;

/** Works out the order of elimination: ideal sources and rising unknowns first. */
export function order(store: Store, size: number): void {
  const { columnAt, kind } = store;
  let place = 0;
  for (let q = 0; q < size; q += 1) if (kind[q] === IDEAL) columnAt[place++] = q;
  for (let q = 0; q < size; q += 1) if (kind[q] === RISING) columnAt[place++] = q;
  store.rising = place;
  for (let q = 0; q < size; q += 1) if (kind[q] === FALLING) columnAt[place++] = q;
}

export function clearRows({ rows, scale }: Store, size: number): void {
  const end = size * (size + 1);
  for (let i = 0; i < end; i += 1) rows[i] = 0;
  for (let q = 0; q < size; q += 1) scale[q] = 0;
}

/** Scales every row by its largest contribution. */
function prepare({ rows, columnAt, rowAt, scale }: Store, size: number): void {
  const stride = size + 1;
  for (let q = 0; q < size; q += 1) {
    rowAt[q] = columnAt[q]! * stride;
    const start = q * stride;
    const largest = scale[q]!;
    if (largest === 0) continue;
    const by = 1 / largest;
    for (let r = start; r <= start + size; r += 1) rows[r]! *= by;
  }
}

/** Brings the row with the largest entry of a column to a place among the rising ones. */
function exchange({ rows, rowAt, rising }: Store, place: number, column: number): void {
  let best = place;
  let largest = Math.abs(rows[rowAt[place]! + column]!);
  for (let r = place + 1; r < rising; r += 1) {
    const entry = Math.abs(rows[rowAt[r]! + column]!);
    if (entry > largest) {
      best = r;
      largest = entry;
    }
  }
  const swap = rowAt[place]!;
  rowAt[place] = rowAt[best]!;
  rowAt[best] = swap;
}

/** Solves the rows into `unknown` and clears them; returns UNSTABLE and CONTRADICTORY where they hold. */
export function solveSmall(store: Store, size: number): number {
  const { rows, columnAt, rowAt, powerless, rising } = store;
  let flags = 0;
  prepare(store, size);
  for (let i = 0; i < size; i += 1) {
    const column = columnAt[i]!;
    if (i < rising) exchange(store, i, column);
    const row = rowAt[i]!;
    const pivot = rows[row + column]!;
    powerless[column] = 0;
    if (i >= rising && pivot <= STABLE_PIVOT) flags = UNSTABLE;
    if (pivot < NO_PIVOT && pivot > -NO_PIVOT) {
      powerless[column] = 1;
      continue;
    }
    for (let r = i + 1; r < size; r += 1) {
      const other = rowAt[r]!;
      const entry = rows[other + column]!;
      if (entry === 0) continue;
      const f = entry / pivot;
      // columns already eliminated are not read again, so whole rows may be combined
      for (let c = 0; c <= size; c += 1) rows[other + c]! -= f * rows[row + c]!;
    }
  }
  if (substitute(store, size)) flags += CONTRADICTORY;
  clearRows(store, size);
  return flags;
}

/** True where the rows contradict each other. */
function substitute({ rows, columnAt, rowAt, powerless, unknown }: Store, size: number): boolean {
  let contradictory = false;
  for (let i = size - 1; i >= 0; i -= 1) {
    const column = columnAt[i]!;
    const row = rowAt[i]!;
    let x = -rows[row + size]!;
    if (powerless[column] === 1) {
      if (Math.abs(x) > STRAY) contradictory = true;
      unknown[column] = 0;
      continue;
    }
    for (let c = i + 1; c < size; c += 1) x -= rows[row + columnAt[c]!]! * unknown[columnAt[c]!]!;
    unknown[column] = x / rows[row + column]!;
  }
  return contradictory;
}
