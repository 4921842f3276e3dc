/** What can be said of a build before its judged set is solved, and solving that set in steps. */
import type { Operation } from '../contracts/index.ts';
import type { InSteps } from './in-steps.ts';
import { insidesOf, TakesTheSet } from './insides.ts';

/** null: it takes a condition that one of these operations has not solved yet; to be asked again once the judged set is solved. */
export function aheadOfSet<T>(operations: readonly Operation[], ask: () => T): T | null {
  const insides = operations.map(insidesOf);
  for (const inside of insides) inside.refuseSet(true);
  try {
    return ask();
  } catch (error) {
    if (error instanceof TakesTheSet) return null;
    throw error;
  } finally {
    for (const inside of insides) inside.refuseSet(false);
  }
}

/** All that `all` and `windows` answer, condition by condition; then both cost nothing. It may be left before its end. */
export const solveInSteps = (operation: Operation): InSteps<unknown> => insidesOf(operation).solving();
