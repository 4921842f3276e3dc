/** Ratings in which fuses and breakers are sold. */
import type { Sourced } from './sourced.ts';

/** Rated currents, A. */
export const standardRatings: Sourced<readonly number[]> = {
  value: [1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250, 300],
  unit: 'A',
  prov: 'practice',
  source: 'common practice, no source',
};
