/** Operating points of a circuit and what devices with memory do around them. */
export { planCircuit, type Plan, type SolveOptions, type Steps } from './plan.ts';
export type { Point, Proof } from './point.ts';
