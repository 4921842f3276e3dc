/** The checks, one line each, in the order in which findings are listed. */
import type { Check } from '../contracts/index.ts';
import { rating } from './rating.ts';

export const checks = [
  rating,
] as const satisfies readonly Check[];
