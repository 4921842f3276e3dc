/**
 * Values that say where they come from. Every published figure, and every figure derived from one, is of this
 * type.
 */

/**
 * Where a value comes from: given (this build), confirmed (a named person vouches for it), seen (read in a
 * published source),
 * computed (from a formula whose source is given), practice (common practice, no source), memory (written from
 * memory, not
 * confirmed).
 */
export type Prov = 'given' | 'confirmed' | 'seen' | 'computed' | 'practice' | 'memory';

export interface Sourced<T = number> {
  readonly value: T;
  /** Unit symbol: `Ω/m`, `A`, `V`; "" for a factor. */
  readonly unit: string;
  readonly prov: Prov;
  /** Least and greatest, where a range is published or assumed. */
  readonly band?: readonly [number, number];
  /** Standard with table or clause, paper, handbook, or the formula used. */
  readonly source: string;
  /** Range of validity, in words. */
  readonly range?: string;
}

/** A figure that does not exist, with the reason in words for the person who asked. */
export interface NoFigure {
  readonly noFigure: string;
}

/** What a look-up gives. */
export type Figure<T = number> = Sourced<T> | NoFigure;

/** True when the look-up found something. */
export function isFigure<T extends object>(figure: T | NoFigure): figure is T {
  return !('noFigure' in figure);
}

/** A look-up without result. */
export function noFigure(reason: string): NoFigure {
  return { noFigure: reason };
}

/** From the best founded to the least. */
const ORDER: readonly Prov[] = ['given', 'confirmed', 'seen', 'computed', 'practice', 'memory'];

/** The least founded of several: what a value derived from all of them can claim at most. */
export function weakest(...provs: readonly Prov[]): Prov {
  return ORDER[Math.max(0, ...provs.map((prov) => ORDER.indexOf(prov)))] ?? 'memory';
}
