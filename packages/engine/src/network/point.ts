/** An operating point: what the network answers. */
import type { ElementOf } from '../contracts/element.ts';
import { ampsOf, siemensOf, straightRegime, voltsOf } from './straight.ts';

/** Evidence that a point is a solution: worked out from the reported currents and voltages only. */
export interface Proof {
  /** Largest sum of currents at a node, amperes, judged beside the largest current of the node's island. */
  readonly worstResidual: number;
  readonly node: number;
  /** Largest current in that node's island, amperes. */
  readonly largestCurrent: number;
  /** Sum of volts x amperes over all elements, watts: what is given less what is taken. */
  readonly powerImbalance: number;
  /** True when every node's sum is within 1e-9 of its island's largest current (or under 1e-12 A). */
  readonly holds: boolean;
}

export interface Point {
  /** Volts of each node: against the reference, or against the lowest node of its own island. */
  readonly volts: Float64Array;
  /** Island of each node: 0 is the reference's, others float. */
  readonly island: Int32Array;
  /** Current of each element, a to b (converters: input), amperes. */
  readonly currents: Float64Array;
  /** Current of element e from a to b through it, amperes (a converter's input current). */
  current(e: number): number;
  /** Current that converter e sends out of its output's a, amperes; 0 for other elements. */
  outCurrent(e: number): number;
  /** Volts from a to b of element e (a converter's input), exact even where it is a small difference. */
  drop(e: number): number;
  /**
   * What the element does: hold `least`, `regulating`, `greatest`; pieces: segment number, 0 before the first point; power
   * `constant-power`, `at-limit`, `below-knee`; converter `off`, `blocked`, `voltage`, `current`, `input-limit`, `holding`,
   * `reducing`, `below-lowest`; resistor `open`, `closed`.
   */
  regime(e: number): string;
  /** False when no operating point was found: a defect to report with `unsettled`, never a statement about the circuit. */
  readonly settled: boolean;
  /** Nodes at which currents do not add up when not settled. */
  readonly unsettled: readonly number[];
  /** Newton steps. */
  readonly iterations: number;
  readonly proof: Proof;
}

/** All that a solved circuit hands to its point. */
export interface PointData {
  readonly elements: readonly ElementOf<number>[];
  readonly nodeCount: number;
  /** Volts by node, then what they leave out in double precision, then through-currents and output currents of devices. */
  readonly block: Float64Array;
  /** Islands by node, or null when there is only the reference's. */
  readonly island: Int32Array | null;
  /** Device of each element, -1 for resistors and straight lines. */
  readonly deviceOf: Int32Array;
  readonly deviceCount: number;
  readonly regimes: readonly string[];
  readonly settled: boolean;
  readonly iterations: number;
}

/** Node pair that an element's current passes. */
export function ends(element: ElementOf<number>): readonly [number, number] {
  return element.type === 'converter' ? [element.inA, element.inB] : [element.a, element.b];
}

export class SolvedPoint implements Point {
  private readonly data: PointData;
  readonly volts: Float64Array;
  private islands: Int32Array | null;
  private flows: Float64Array | null = null;
  private evidence: Proof | null = null;
  private off: number[] | null = null;

  constructor(data: PointData) {
    this.data = data;
    this.volts = data.block.subarray(0, data.nodeCount);
    this.islands = data.island;
  }

  get settled(): boolean {
    return this.data.settled;
  }

  get iterations(): number {
    return this.data.iterations;
  }

  get island(): Int32Array {
    this.islands ??= new Int32Array(this.data.nodeCount);
    return this.islands;
  }

  get currents(): Float64Array {
    if (this.flows === null) {
      const flows = new Float64Array(this.data.elements.length);
      for (let e = 0; e < flows.length; e += 1) flows[e] = this.current(e);
      this.flows = flows;
    }
    return this.flows;
  }

  private between(a: number, b: number, less: number): number {
    const { block, nodeCount } = this.data;
    return block[a]! - block[b]! - less + (block[nodeCount + a]! - block[nodeCount + b]!);
  }

  drop(e: number): number {
    const [a, b] = ends(this.data.elements[e]!);
    return this.between(a, b, 0);
  }

  current(e: number): number {
    const { elements, deviceOf, block, nodeCount } = this.data;
    const device = deviceOf[e]!;
    if (device >= 0) return block[2 * nodeCount + device]! + 0;
    const element = elements[e]!;
    if (element.type === 'resistor') {
      const siemens = 1 / element.ohms;
      return siemens === 0 ? 0 : siemens * this.between(element.a, element.b, 0);
    }
    const [a, b] = ends(element);
    return siemensOf(element) * this.between(a, b, voltsOf(element)) + ampsOf(element);
  }

  outCurrent(e: number): number {
    const { deviceOf, block, nodeCount, deviceCount } = this.data;
    const device = deviceOf[e]!;
    return device >= 0 ? -block[2 * nodeCount + deviceCount + device]! + 0 : 0;
  }

  regime(e: number): string {
    const { elements, deviceOf, regimes } = this.data;
    const device = deviceOf[e]!;
    if (device >= 0) return regimes[device]!;
    const element = elements[e]!;
    if (element.type === 'resistor') return element.ohms === Infinity ? 'open' : 'closed';
    return straightRegime(element);
  }

  /** Sum of currents at each node (zero for a solution), and the largest current of each node's island. */
  private balance(): { residual: Float64Array; largest: Float64Array } {
    const { elements, nodeCount } = this.data;
    const { island, currents } = this;
    const residual = new Float64Array(nodeCount);
    const largest = new Float64Array(nodeCount + 1);
    const pass = (a: number, b: number, amperes: number): void => {
      residual[a]! -= amperes;
      residual[b]! += amperes;
      const size = Math.abs(amperes);
      largest[island[a]!] = Math.max(largest[island[a]!]!, size);
      largest[island[b]!] = Math.max(largest[island[b]!]!, size);
    };
    elements.forEach((element, e) => {
      const [a, b] = ends(element);
      pass(a, b, currents[e]!);
      if (element.type === 'converter') pass(element.outA, element.outB, -this.outCurrent(e));
    });
    return { residual, largest };
  }

  get proof(): Proof {
    this.evidence ??= this.prove();
    return this.evidence;
  }

  private prove(): Proof {
    const { elements } = this.data;
    const { residual, largest } = this.balance();
    let node = 0;
    let worst = -1;
    for (let n = 0; n < residual.length; n += 1) {
      const measure = Math.abs(residual[n]!) / (largest[this.island[n]!]! + 1e-3);
      if (measure > worst) {
        worst = measure;
        node = n;
      }
    }
    let power = 0;
    elements.forEach((element, e) => {
      power += this.drop(e) * this.current(e);
      if (element.type === 'converter')
        power -= this.between(element.outA, element.outB, 0) * this.outCurrent(e);
    });
    const worstResidual = Math.abs(residual[node] ?? 0);
    const largestCurrent = largest[this.island[node] ?? 0] ?? 0;
    const holds = worstResidual <= 1e-9 * largestCurrent + 1e-12;
    return { worstResidual, node, largestCurrent, powerImbalance: Math.abs(power), holds };
  }

  get unsettled(): readonly number[] {
    this.off ??= this.data.settled ? [] : this.unbalanced();
    return this.off;
  }

  private unbalanced(): number[] {
    const { residual, largest } = this.balance();
    const nodes: number[] = [];
    residual.forEach((amperes, n) => {
      if (!(Math.abs(amperes) <= 1e-9 * largest[this.island[n]!]! + 1e-9)) nodes.push(n);
    });
    return nodes;
  }
}
