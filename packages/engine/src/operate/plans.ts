/** Plans of circuits by their shape: builds that differ in numbers only are planned once. */
import type { ElementOf } from '../contracts/index.ts';
import { planCircuit, type Plan } from '../network/index.ts';
import { elementEnds } from './element-nodes.ts';

/** Shapes that are remembered; the one used least recently goes first. A plan answers the same whatever it solved before. */
const MOST_PLANS = 6;

const known = new Map<string, Plan>();

export function planFor(nodes: number, reference: number, shape: readonly ElementOf<number>[]): Plan {
  const key = `${nodes},${reference};${shape.map((e) => `${e.type},${elementEnds(e).join()}`).join(';')}`;
  const plan = known.get(key) ?? planCircuit(nodes, reference, shape);
  known.delete(key);
  known.set(key, plan);
  const [oldest] = known.keys();
  if (known.size > MOST_PLANS && oldest !== undefined) known.delete(oldest);
  return plan;
}

const faulted = new WeakMap<Plan, Map<string, Plan>>();

/**
 * Plans of a circuit with a fault laid on it, by what the fault joins: for the three assumptions of a build and for every edit
 * that changes numbers only. They go with the plan of the circuit itself.
 */
export function faultPlansOf(plan: Plan): Map<string, Plan> {
  let known = faulted.get(plan);
  if (known === undefined) {
    known = new Map();
    faulted.set(plan, known);
  }
  return known;
}

/** Stands in until the circuit is planned. */
export const NO_PLAN: Plan = {
  nodeCount: 0,
  reference: 0,
  solve: () => {
    throw new Error('the circuit is not planned yet');
  },
};
