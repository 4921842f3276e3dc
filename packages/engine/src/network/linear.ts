/** The resistors and straight lines of a circuit: their numbers, what they put into the network, and their currents. */
import type { ElementOf, ResistorElement } from '../contracts/element.ts';
import type { Tail } from './plan.ts';
import { ampsOf, siemensOf, voltsOf } from './straight.ts';

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
  // element number, slot, positions, conductance at present; the resistors first
  private readonly resistors: Int32Array;
  private readonly sources: Int32Array;
  private readonly slot: Int32Array;
  private readonly linear: Int32Array;
  private readonly linearA: Int32Array;
  private readonly linearB: Int32Array;
  private readonly siemens: Float64Array;
  /** Of each source: volts and amperes where its line begins. */
  private readonly sourceVolts: Float64Array;
  private readonly sourceAmps: Float64Array;
  /** The elements that the numbers above were read from: an element that is still the same is not read again. */
  private readonly seen: (ElementOf<number> | null)[];

  /** @param slotOf slot of an element, -1 where its ends are one node */
  constructor(
    elements: readonly ElementOf<number>[],
    { resistors, sources }: Places,
    positionOf: Int32Array,
    slotOf: (e: number) => number,
  ) {
    const linear = [...resistors, ...sources];
    this.resistors = Int32Array.from(resistors);
    this.sources = Int32Array.from(sources);
    this.linear = Int32Array.from(linear);
    this.slot = this.linear.map(slotOf);
    this.linearA = this.linear.map((e) => positionOf[nodePairs(elements[e]!)[0]!]!);
    this.linearB = this.linear.map((e) => positionOf[nodePairs(elements[e]!)[1]!]!);
    this.siemens = new Float64Array(linear.length);
    this.sourceVolts = new Float64Array(sources.length);
    this.sourceAmps = new Float64Array(sources.length);
    this.seen = linear.map(() => null);
  }

  /**
   * Takes the numbers of these elements; `tail` has the resistances of the last ones.
   *
   * @throws RangeError for a resistance that is none
   */
  read(elements: readonly ElementOf<number>[], tail: Tail | undefined): void {
    this.readResistors(elements, tail);
    this.readSources(elements);
  }

  /** Conductances (siemens) into the slots, source currents (amperes) into the positions; both are written over. */
  stamp(S: Float64Array, J: Float64Array): void {
    const { resistors, sources, slot, siemens, linearA, linearB, sourceVolts, sourceAmps } = this;
    S.fill(0);
    J.fill(0);
    const count = resistors.length;
    for (let i = 0; i < siemens.length; i += 1) {
      const at = slot[i]!;
      if (at >= 0) S[at]! += siemens[i]!;
    }
    for (let k = 0; k < sources.length; k += 1) {
      const known = sourceAmps[k]! - siemens[count + k]! * sourceVolts[k]!;
      J[linearA[count + k]!]! -= known;
      J[linearB[count + k]!]! += known;
    }
  }

  /** What each position lacks at these voltages, branch by branch, into `residual`, amperes. */
  lack(v: Float64Array, residual: Float64Array): void {
    const { siemens, linearA, linearB, resistors, sources, sourceVolts, sourceAmps } = this;
    residual.fill(0);
    const count = resistors.length;
    for (let i = 0; i < count; i += 1) {
      const a = linearA[i]!;
      const b = linearB[i]!;
      const amps = siemens[i]! * (v[a]! - v[b]!);
      residual[a]! -= amps;
      residual[b]! += amps;
    }
    for (let k = 0; k < sources.length; k += 1) {
      const a = linearA[count + k]!;
      const b = linearB[count + k]!;
      const amps = siemens[count + k]! * (v[a]! - v[b]! - sourceVolts[k]!) + sourceAmps[k]!;
      residual[a]! -= amps;
      residual[b]! += amps;
    }
  }

  /**
   * Currents, exact even where the difference of two voltages is small.
   *
   * @param block volts by node from `begin` on, then what they leave out; receives the currents by element from `into` on
   */
  currents(nodeAt: Int32Array, block: Float64Array, begin: number, into: number): void {
    const { linear, linearA, linearB, siemens, resistors, sourceVolts, sourceAmps } = this;
    const nodeCount = nodeAt.length;
    const low = begin + nodeCount;
    const count = resistors.length;
    for (let i = 0; i < count; i += 1) {
      const a = nodeAt[linearA[i]!]!;
      const b = nodeAt[linearB[i]!]!;
      const g = siemens[i]!;
      const less = block[low + a]! - block[low + b]!;
      block[into + linear[i]!] = g === 0 ? 0 : g * (block[begin + a]! - block[begin + b]! + less);
    }
    for (let i = count; i < linear.length; i += 1) {
      const a = nodeAt[linearA[i]!]!;
      const b = nodeAt[linearB[i]!]!;
      const less = block[low + a]! - block[low + b]!;
      const volts = block[begin + a]! - block[begin + b]! - sourceVolts[i - count]! + less;
      block[into + linear[i]!] = siemens[i]! * volts + sourceAmps[i - count]!;
    }
  }

  private readResistors(elements: readonly ElementOf<number>[], tail: Tail | undefined): void {
    const { resistors, siemens, seen } = this;
    const count = resistors.length;
    const from = tail === undefined ? elements.length : tail.from;
    let i = 0;
    for (; i < count; i += 1) {
      const e = resistors[i]!;
      if (e >= from) break;
      const element = elements[e] as ResistorElement<number>;
      if (seen[i] === element) continue;
      siemens[i] = conductance(element.ohms, e);
      seen[i] = element;
    }
    if (tail === undefined) return;
    const { ohms } = tail;
    for (; i < count; i += 1) {
      const e = resistors[i]!;
      siemens[i] = conductance(ohms[e - from]!, e);
      seen[i] = null;
    }
  }

  private readSources(elements: readonly ElementOf<number>[]): void {
    const { resistors, sources, siemens, seen, sourceVolts, sourceAmps } = this;
    const count = resistors.length;
    for (let k = 0; k < sources.length; k += 1) {
      const element = elements[sources[k]!]!;
      if (seen[count + k] === element) continue;
      siemens[count + k] = siemensOf(element);
      sourceVolts[k] = voltsOf(element);
      sourceAmps[k] = ampsOf(element);
      seen[count + k] = element;
    }
  }
}

function conductance(ohms: number, e: number): number {
  if (!(ohms > 0)) throw new RangeError(`element ${e}: ${ohms} ohm is not a resistance`);
  return 1 / ohms;
}
