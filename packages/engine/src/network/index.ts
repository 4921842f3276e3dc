/** Operating points of a circuit, and what devices with memory do around them. */
export { planCircuit, type Plan, type SolveOptions, type Steps } from './plan.ts';
export type { Point, Proof } from './point.ts';
export { runEvents, type EventRule, type EventRun } from './events.ts';
export type { MemoryEvent, Outcome, Segment } from './outcome.ts';
export { constantPowerVolts, greatestLoopOhms, huntingWindow, type HuntingWindow } from './closed-form.ts';
export { StraightNet, type Factored } from './straight-net.ts';
export type { Answer } from './answer.ts';
export { SENSE_RANGE } from './device.ts';
export { carriesNothing } from './straight.ts';
export { Tail } from './tail.ts';
