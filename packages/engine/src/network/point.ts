/** An operating point: what the network answers. */
import type { ElementOf } from '../contracts/element.ts';
import { straightRegime } from './straight.ts';

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
  /** Volts of one node. */
  voltsAt(node: number): number;
  /** Island of each node: 0 is the reference's, others float. */
  readonly island: Int32Array;
  /** Current of each element, a to b (converters: input), amperes. */
  readonly currents: Float64Array;
  /** Current of element e from a to b through it, amperes (a converter's input current). */
  current(e: number): number;
  /** Magnitudes of the currents of the elements from `from` on, as many as `into` holds, amperes. */
  magnitudes(from: number, into: Float64Array): void;
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

/** What all points of a circuit have in common. */
export interface CircuitFacts {
  /** Types and nodes of the elements. */
  readonly shape: readonly ElementOf<number>[];
  readonly nodeCount: number;
  /** Device of each element, -1 for resistors and straight lines. */
  readonly deviceOf: Int32Array;
  /** Element of each device. */
  readonly deviceElement: Int32Array;
  /** Position of each node in the block. */
  readonly positionOf: Int32Array;
  /** Place of each element among those that are no resistors, -1 for resistors. */
  readonly curvedAt: Int32Array;
  /** Where the current of each element stands in the block, counted from its beginning. */
  readonly currentAt: Int32Array;
  /** Islands of the nodes where there is only the reference's. */
  readonly oneIsland: Int32Array;
}

/** All that a solved circuit hands to its point. */
export interface PointData {
  /**
   * From `begin` on: volts by position, what they leave out in double precision, output currents of devices, currents through them
   * and through the linear elements.
   */
  readonly block: Float64Array;
  readonly begin: number;
  /** Islands by node, or null when there is only the reference's. */
  readonly island: Int32Array | null;
  /** 1 for each open contact. */
  readonly open: Uint8Array;
  /** Elements that are no resistors, with their numbers. */
  readonly curves: readonly ElementOf<number>[];
  readonly regimes: readonly string[];
  readonly settled: boolean;
  readonly iterations: number;
}

/** Node pair that an element's current passes. */
export function ends(element: ElementOf<number>): readonly [number, number] {
  return element.type === 'converter' ? [element.inA, element.inB] : [element.a, element.b];
}

export class SolvedPoint implements Point {
  private readonly facts: CircuitFacts;
  private readonly data: PointData;
  private readonly block: Float64Array;
  private readonly begin: number;
  private voltsByNode: Float64Array | null = null;
  private amps: Float64Array | null = null;
  private evidence: Proof | null = null;
  private off: number[] | null = null;

  constructor(facts: CircuitFacts, data: PointData) {
    this.facts = facts;
    this.data = data;
    this.block = data.block;
    this.begin = data.begin;
  }

  // What is by node or by element is worked out when asked for: it costs as much as a good part of solving a small circuit.
  get volts(): Float64Array {
    this.voltsByNode ??= Float64Array.from(this.facts.positionOf, (at) => this.block[this.begin + at]!);
    return this.voltsByNode;
  }

  get currents(): Float64Array {
    this.amps ??= Float64Array.from(this.facts.currentAt, (at) => this.block[this.begin + at]!);
    return this.amps;
  }

  /** Where the output currents of the devices begin in the block. */
  private get sent(): number {
    return this.begin + 2 * this.facts.nodeCount;
  }

  magnitudes(from: number, into: Float64Array): void {
    const { block, begin } = this;
    const { currentAt } = this.facts;
    for (let i = 0; i < into.length; i += 1) into[i] = Math.abs(block[begin + currentAt[from + i]!]!);
  }

  voltsAt(node: number): number {
    return this.block[this.begin + this.facts.positionOf[node]!] ?? 0;
  }

  get settled(): boolean {
    return this.data.settled;
  }

  get iterations(): number {
    return this.data.iterations;
  }

  get island(): Int32Array {
    return this.data.island ?? this.facts.oneIsland;
  }

  private between(a: number, b: number): number {
    const { block, begin } = this;
    const { nodeCount, positionOf } = this.facts;
    const i = begin + positionOf[a]!;
    const j = begin + positionOf[b]!;
    return block[i]! - block[j]! + (block[nodeCount + i]! - block[nodeCount + j]!);
  }

  drop(e: number): number {
    const [a, b] = ends(this.facts.shape[e]!);
    return this.between(a, b);
  }

  current(e: number): number {
    return this.block[this.begin + this.facts.currentAt[e]!] ?? 0;
  }

  outCurrent(e: number): number {
    const device = this.facts.deviceOf[e]!;
    return device >= 0 ? -this.block[this.sent + device]! + 0 : 0;
  }

  regime(e: number): string {
    const { deviceOf, curvedAt } = this.facts;
    const device = deviceOf[e]!;
    if (device >= 0) return this.data.regimes[device]!;
    const element = this.data.curves[curvedAt[e]!];
    if (element === undefined) return this.data.open[e] === 1 ? 'open' : 'closed';
    return straightRegime(element, this.drop(e));
  }

  /** Sum of currents at each node (zero for a solution), and the largest current of each node's island. */
  private balance(): { residual: Float64Array; largest: Float64Array } {
    const { shape, nodeCount } = this.facts;
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
    shape.forEach((element, e) => {
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
    const { shape } = this.facts;
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
    shape.forEach((element, e) => {
      power += this.drop(e) * this.current(e);
      if (element.type === 'converter')
        power -= this.between(element.outA, element.outB) * this.outCurrent(e);
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
