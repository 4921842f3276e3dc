/** The resistors and straight lines of a circuit: their numbers, what they put into the network, and their currents. */
import type { ElementOf, ResistorElement } from '../contracts/element.ts';
import type { Changes } from './changes.ts';
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
  /** True after a reading that changed a conductance, and one that changed a source's volts or amperes. */
  conductancesChanged = true;
  sourcesChanged = true;
  // element number, slot, positions, nodes, conductance at present; the resistors first
  private readonly resistors: number;
  private readonly linear: Int32Array;
  private readonly slot: Int32Array;
  private readonly linearA: Int32Array;
  private readonly linearB: Int32Array;
  private readonly nodeA: Int32Array;
  private readonly nodeB: Int32Array;
  private readonly siemens: Float64Array;
  /** Place of each element here, -1 for others. */
  private readonly placeOf: Int32Array;
  /** Of each source: volts and amperes where its line begins. */
  private readonly sourceVolts: Float64Array;
  private readonly sourceAmps: Float64Array;
  /** The elements that the numbers were read from: one that is still the same is not read again. */
  private readonly seen: (ElementOf<number> | null)[];

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
    this.nodeA = this.linear.map((e) => nodePairs(elements[e]!)[0]!);
    this.nodeB = this.linear.map((e) => nodePairs(elements[e]!)[1]!);
    this.linearA = this.nodeA.map((node) => positionOf[node]!);
    this.linearB = this.nodeB.map((node) => positionOf[node]!);
    this.siemens = new Float64Array(linear.length);
    this.sourceVolts = new Float64Array(sources.length);
    this.sourceAmps = new Float64Array(sources.length);
    this.seen = linear.map(() => null);
    this.placeOf = new Int32Array(elements.length).fill(-1);
    linear.forEach((e, i) => {
      this.placeOf[e] = i;
    });
  }

  /**
   * Takes the numbers of these elements; `tail` has the resistances of the last ones.
   *
   * @param changes which of them are others than at the last reading; null: any may be
   * @throws RangeError for a resistance that is none
   */
  read(elements: readonly ElementOf<number>[], tail: Tail | undefined, changes: Changes | null): void {
    this.conductancesChanged = false;
    this.sourcesChanged = false;
    const { linear, placeOf } = this;
    if (changes === null) {
      const from = tail === undefined ? elements.length : tail.from;
      for (let i = 0; i < linear.length; i += 1) {
        const e = linear[i]!;
        if (e < from) this.readOne(i, elements[e]!, e);
      }
    } else {
      for (let c = 0; c < changes.count; c += 1) {
        const e = changes.list[c]!;
        const i = placeOf[e]!;
        if (i >= 0) this.readOne(i, elements[e]!, e);
      }
    }
    if (tail !== undefined && (changes === null || changes.tail)) this.readTail(tail);
  }

  private readOne(i: number, element: ElementOf<number>, e: number): void {
    const { resistors, siemens, sourceVolts, sourceAmps, seen } = this;
    if (seen[i] === element) return;
    seen[i] = null;
    if (i < resistors) {
      const { ohms } = element as ResistorElement<number>;
      if (!(ohms > 0)) noResistance(ohms, e);
      const own = 1 / ohms;
      if (siemens[i] !== own) this.conductancesChanged = true;
      siemens[i] = own;
      seen[i] = element;
      return;
    }
    const k = i - resistors;
    const own = siemensOf(element);
    if (siemens[i] !== own) this.conductancesChanged = true;
    siemens[i] = own;
    sourceVolts[k] = voltsOf(element);
    sourceAmps[k] = ampsOf(element);
    this.sourcesChanged = true;
    seen[i] = element;
  }

  private readTail({ from, ohms }: Tail): void {
    const { placeOf, siemens, seen } = this;
    for (let e = from; e < placeOf.length; e += 1) {
      const given = ohms[e - from]!;
      if (!(given > 0)) noResistance(given, e);
      const own = 1 / given;
      const i = placeOf[e]!;
      seen[i] = null;
      if (siemens[i] === own) continue;
      siemens[i] = own;
      this.conductancesChanged = true;
    }
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

  /** Conductances by element from `into` on: what `currents` needs later. */
  keep(block: Float64Array, into: number): void {
    const { linear, siemens } = this;
    for (let i = 0; i < linear.length; i += 1) block[into + linear[i]!] = siemens[i]!;
  }

  /**
   * Currents, exact even where the difference of two voltages is small, in place of the conductances.
   *
   * @param block volts by node from `begin` on, then what they leave out; has the conductances by element from `into` on
   * @param sourceOf the element of each source
   */
  currents(
    block: Float64Array,
    begin: number,
    into: number,
    low: number,
    sourceOf: (e: number) => ElementOf<number>,
  ): void {
    const { linear, nodeA, nodeB, resistors: count } = this;
    for (let i = 0; i < count; i += 1) {
      const a = nodeA[i]!;
      const b = nodeB[i]!;
      const at = into + linear[i]!;
      const g = block[at]!;
      const less = block[low + a]! - block[low + b]!;
      block[at] = g === 0 ? 0 : g * (block[begin + a]! - block[begin + b]! + less);
    }
    for (let i = count; i < linear.length; i += 1) {
      const a = nodeA[i]!;
      const b = nodeB[i]!;
      const at = into + linear[i]!;
      const source = sourceOf(linear[i]!);
      const less = block[low + a]! - block[low + b]!;
      const volts = block[begin + a]! - block[begin + b]! - voltsOf(source) + less;
      block[at] = block[at]! * volts + ampsOf(source);
    }
  }
}

function noResistance(ohms: number, e: number): never {
  throw new RangeError(`element ${e}: ${ohms} ohm is not a resistance`);
}
