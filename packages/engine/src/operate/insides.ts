/** What an operation is made of, for those of this room that run it otherwise than by conditions. */
import type { Operation, StateId } from '../contracts/index.ts';
import type { Condition } from '../contracts/index.ts';
import type { Envelope } from '../conditions/index.ts';
import type { Scene } from './circuit.ts';
import type { InSteps } from './in-steps.ts';
import type { Machine } from './run.ts';

export interface Insides {
  readonly machine: Machine;
  sceneOf(c: Condition): Scene;
  envelopeOf(state: StateId): Envelope | null;
  /** Solves the judged set with its windows, in steps. */
  solving(): InSteps<unknown>;
  /** While it is refused, whoever asks for a condition, the judged set or the windows is thrown `TakesTheSet` unless it is solved. */
  refuseSet(refused: boolean): void;
}

/** What was asked for is not solved yet. One for all: noting where each was thrown cost more than what was asked. */
export class TakesTheSet extends Error {
  static readonly thrown = new TakesTheSet('the judged set is not solved yet');
}

const known = new WeakMap<Operation, Insides>();

export function keepInsides(op: Operation, insides: Insides): void {
  known.set(op, insides);
}

/** @throws Error for an operation that was not made in this room */
export function insidesOf(op: Operation): Insides {
  const insides = known.get(op);
  if (insides === undefined) throw new Error('this operation was made elsewhere');
  return insides;
}
