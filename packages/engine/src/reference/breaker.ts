/** Breakers: reset types, and the interrupting rating that marine practice asks for. */
import type { Figure, Sourced } from './sourced.ts';
import { noFigure } from './sourced.ts';
import { interruptingMarineTable } from './tables/interrupting-marine.ts';

/** Reset types of SAE J553. */
export interface BreakerType {
  readonly type: 1 | 2 | 3;
  readonly name: string;
  readonly behaviour: string;
  /** Whether 33 CFR 183.455(a) accepts it as protection (manually reset, trip-free). */
  readonly accepted: boolean;
}

export const breakerTypes: Sourced<readonly BreakerType[]> = {
  value: [
    {
      type: 1,
      name: 'automatic reset',
      behaviour: 'resets by itself and cycles while the fault lasts',
      accepted: false,
    },
    { type: 2, name: 'modified reset', behaviour: 'stays open while voltage is present', accepted: false },
    { type: 3, name: 'manual reset', behaviour: 'needs a hand to reset; trip-free', accepted: true },
  ],
  unit: '',
  prov: 'seen',
  source: 'SAE J553 by a guide to its 2022 edition; 33 CFR 183.455(a)',
};

/** Greatest rating of SAE J553 breakers, A (12, 24 and 48 V, edition of 2022). */
export const greatestBreakerRating: Sourced = {
  value: 200,
  unit: 'A',
  prov: 'seen',
  source: 'SAE J553:2022 by a guide',
};

/**
 * Interrupting rating that marine practice asks of a breaker, by the sum of the cold cranking amperes of all
 * connected batteries (ABYC E-11 as
 * reproduced; 32 V rows from memory). Only lead batteries: a lithium bank's fault current is not tied to
 * cranking amperes.
 * @param volts nominal system voltage, 12 to 24 or 32 V @param coldCrankingA total, A
 */
export function interruptingMarine(volts: number, coldCrankingA: number, place: 'main' | 'branch'): Figure {
  const row = interruptingMarineTable.rows.find(
    (candidate) =>
      volts >= candidate.fromVolts &&
      volts <= candidate.toVolts &&
      coldCrankingA <= (candidate.toCca ?? Number.POSITIVE_INFINITY),
  );
  if (row === undefined || !(coldCrankingA >= 0))
    return noFigure(`no row for ${volts} V and ${coldCrankingA} A`);
  const value = place === 'main' ? row.mainA : row.branchA;
  return { value, unit: 'A', prov: row.prov, source: interruptingMarineTable.source };
}
