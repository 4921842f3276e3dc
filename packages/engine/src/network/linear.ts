/** The resistors and straight lines of a circuit: their numbers, what they put into the network, and their currents. */
import type { ElementOf } from '../contracts/element.ts';
import type { Numbers } from './numbers.ts';
import { ampsOf, voltsOf } from './straight.ts';

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
  private readonly resistors: number;
  private readonly linear: Int32Array;
  private readonly slot: Int32Array;
  private readonly linearA: Int32Array;
  private readonly linearB: Int32Array;
  private readonly nodeCount: number;
  private readonly siemens: Float64Array;
  /** Of each source: volts and amperes where its line begins. */
  private readonly sourceVolts: Float64Array;
  private readonly sourceAmps: Float64Array;

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
    this.nodeCount = positionOf.length;
    this.linearA = this.linear.map((e) => positionOf[nodePairs(elements[e]!)[0]!]!);
    this.linearB = this.linear.map((e) => positionOf[nodePairs(elements[e]!)[1]!]!);
    this.siemens = new Float64Array(linear.length);
    this.sourceVolts = new Float64Array(sources.length);
    this.sourceAmps = new Float64Array(sources.length);
  }

  /** Takes the present numbers. */
  read({ siemens, volts, amps }: Numbers): void {
    const { linear, resistors: count, siemens: own, sourceVolts, sourceAmps } = this;
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

  /** Conductances (siemens) into the slots, which are written over. */
  stamp(S: Float64Array): void {
    const { slot, siemens } = this;
    S.fill(0);
    for (let i = 0; i < siemens.length; i += 1) {
      const at = slot[i]!;
      if (at >= 0) S[at]! += siemens[i]!;
    }
  }

  /** Source currents (amperes) into the positions, which are written over. */
  inject(J: Float64Array): void {
    const { resistors: count, siemens, linearA, linearB, sourceVolts, sourceAmps } = this;
    J.fill(0);
    for (let k = 0; k < sourceVolts.length; k += 1) {
      const known = sourceAmps[k]! - siemens[count + k]! * sourceVolts[k]!;
      J[linearA[count + k]!]! -= known;
      J[linearB[count + k]!]! += known;
    }
  }

  /** What each position lacks at these voltages, branch by branch, into `residual`, amperes. */
  lack(v: Float64Array, residual: Float64Array): void {
    const { siemens, linearA, linearB, resistors: count, sourceVolts, sourceAmps } = this;
    residual.fill(0);
    for (let i = 0; i < count; i += 1) {
      const a = linearA[i]!;
      const b = linearB[i]!;
      const amps = siemens[i]! * (v[a]! - v[b]!);
      residual[a]! -= amps;
      residual[b]! += amps;
    }
    for (let k = 0; k < sourceVolts.length; k += 1) {
      const a = linearA[count + k]!;
      const b = linearB[count + k]!;
      const amps = siemens[count + k]! * (v[a]! - v[b]! - sourceVolts[k]!) + sourceAmps[k]!;
      residual[a]! -= amps;
      residual[b]! += amps;
    }
  }

  /** Number of these elements. */
  get size(): number {
    return this.siemens.length;
  }

  /** The conductances, from `into` on: what `currents` needs later. */
  keep(block: Float64Array, into: number): void {
    const { siemens } = this;
    for (let i = 0; i < siemens.length; i += 1) block[into + i] = siemens[i]!;
  }

  /**
   * Currents by element, exact even where the difference of two voltages is small.
   *
   * @param sourceOf the element of each source
   */
  currents(kept: Kept, amps: Float64Array, sourceOf: (e: number) => ElementOf<number>): void {
    const { linear, linearA, linearB, resistors: count, nodeCount } = this;
    const { block, begin, siemens } = kept;
    for (let i = 0; i < count; i += 1) {
      const a = begin + linearA[i]!;
      const b = begin + linearB[i]!;
      const g = block[siemens + i]!;
      const less = block[nodeCount + a]! - block[nodeCount + b]!;
      amps[linear[i]!] = g === 0 ? 0 : g * (block[a]! - block[b]! + less);
    }
    for (let i = count; i < linear.length; i += 1) {
      const a = begin + linearA[i]!;
      const b = begin + linearB[i]!;
      const source = sourceOf(linear[i]!);
      const less = block[nodeCount + a]! - block[nodeCount + b]!;
      const volts = block[a]! - block[b]! - voltsOf(source) + less;
      amps[linear[i]!] = block[siemens + i]! * volts + ampsOf(source);
    }
  }
}

/** What a point keeps: from `begin` on volts by position and what they leave out, from `siemens` on the conductances. */
export interface Kept {
  readonly block: Float64Array;
  readonly begin: number;
  readonly siemens: number;
}
