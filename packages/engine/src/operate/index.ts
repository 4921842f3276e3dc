export { makeOperation, valuesFor, type OperationOptions } from './operation.ts';
export { aheadOfSet, solveInSteps } from './ahead.ts';
export { atOnce } from './in-steps.ts';
export type { Steps } from './run.ts';
export * from './live/index.ts';
export { solveFree, type FreeCorner } from './free.ts';
