export { makeOperation, valuesFor, type OperationOptions } from './operation.ts';
export type { Steps } from './run.ts';
export * from './live/index.ts';
export { solveFree, type FreeCorner } from './free.ts';
