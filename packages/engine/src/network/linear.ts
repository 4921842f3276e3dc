/** The resistors and straight lines of a circuit: which they are, and their numbers. */
import type { ElementOf } from '../contracts/element.ts';
import type { Numbers } from './numbers.ts';
import type { Store } from './store.ts';

/** Node pairs that an element's currents pass. */
export function nodePairs(element: ElementOf<number>): readonly number[] {
  if (element.type === 'converter') return [element.inA, element.inB, element.outA, element.outB];
  return [element.a, element.b];
}

/** Places among the elements. */
export interface Places {
  readonly resistors: readonly number[];
  /** Elements that are a straight line of current against voltage. */
  readonly sources: readonly number[];
}

export class LinearElements {
  /** True after a reading that changed a conductance, and one that changed a source's volts or amperes. */
  conductancesChanged = true;
  sourcesChanged = true;
  // element number, slot, positions, conductance at present; the resistors first
  readonly resistors: number;
  readonly linear: Int32Array;
  readonly slot: Int32Array;
  readonly linearA: Int32Array;
  readonly linearB: Int32Array;

  /** @param slotOf slot of an element, -1 where its ends are one node */
  constructor(
    elements: readonly ElementOf<number>[],
    { resistors, sources }: Places,
    positionOf: Int32Array,
    slotOf: (e: number) => number,
  ) {
    const linear = [...resistors, ...sources];
    this.resistors = resistors.length;
    this.linear = Int32Array.from(linear);
    this.slot = this.linear.map(slotOf);
    this.linearA = this.linear.map((e) => positionOf[nodePairs(elements[e]!)[0]!]!);
    this.linearB = this.linear.map((e) => positionOf[nodePairs(elements[e]!)[1]!]!);
  }

  /** Takes the present numbers into the circuit's. */
  read({ siemens, volts, amps }: Numbers, { siemens: own, sourceVolts, sourceAmps }: Store): void {
    const { linear, resistors: count } = this;
    let changed = false;
    for (let i = 0; i < linear.length; i += 1) {
      const g = siemens[linear[i]!]!;
      if (own[i] === g) continue;
      own[i] = g;
      changed = true;
    }
    this.conductancesChanged = changed;
    changed = false;
    for (let k = 0; k < sourceVolts.length; k += 1) {
      const e = linear[count + k]!;
      if (sourceVolts[k] === volts[e] && sourceAmps[k] === amps[e]) continue;
      sourceVolts[k] = volts[e]!;
      sourceAmps[k] = amps[e]!;
      changed = true;
    }
    this.sourcesChanged = changed;
  }
}
