/**
 * A circuit of straight lines only, factored once and asked many times what a current between two of its nodes does: each
 * answer is one pass forward, and back as far as somebody looks.
 */
import type { ElementOf } from '../contracts/element.ts';
import { Answers, STRAY_AMPS, type Answer } from './answer.ts';
import { backwardAt, factor } from './kernel.ts';
import { nodePairs } from './linear.ts';
import { planElimination, type Elimination } from './order.ts';

/** Volts by node, from currents into nodes. */
export interface Factored {
  /** Volts that the lines' own currents bring about, by `positionOf`. */
  readonly volts: Float64Array;
  /** Volts per ampere taken out at node `a` and let in at node `b`; null: the two are not joined. */
  response(a: number, b: number): Answer | null;
}

export class StraightNet {
  readonly #plan: Elimination;
  readonly #ends: Int32Array;
  readonly #J: Float64Array;
  readonly #S: Float64Array;
  readonly #answers: Answers;

  /** Of a converter only the input counts: a line stands for one that is off. */
  constructor(nodeCount: number, reference: number, shape: readonly ElementOf<number>[]) {
    const edges = Int32Array.from(shape.flatMap((e) => nodePairs(e).slice(0, 2)));
    this.#plan = planElimination(nodeCount, reference, edges, new Uint8Array(nodeCount));
    this.#ends = edges.map((node) => this.#plan.positionOf[node]!);
    this.#S = new Float64Array(this.#plan.slotCount);
    this.#J = new Float64Array(nodeCount);
    this.#answers = new Answers(this.#plan);
  }

  get positionOf(): Int32Array {
    return this.#plan.positionOf;
  }

  /**
   * Each element's current is `amps + siemens x volts`, both by element.
   * null: a current has no way out.
   */
  factor(siemens: Float64Array, amps: Float64Array): Factored | null {
    const plan = this.#plan;
    const { nodeCount, slotOfEdge, runs } = plan;
    const [S, J, ends] = [this.#S, this.#J, this.#ends];
    S.fill(0);
    J.fill(0);
    for (let e = 0; e < siemens.length; e += 1) {
      const slot = slotOfEdge[e]!;
      if (slot >= 0) S[slot]! += siemens[e]!;
      const known = amps[e]!;
      if (known === 0) continue;
      J[ends[2 * e]!]! -= known;
      J[ends[2 * e + 1]!]! += known;
    }
    const L = new Float64Array(plan.slotCount);
    const inverse = new Float64Array(nodeCount);
    factor(plan, S, L, inverse, J, 0, runs.length / 4);
    const last = nodeCount - 1;
    for (let k = 0; k < last; k += 1) if (inverse[k] === 0 && Math.abs(J[k]!) > STRAY_AMPS) return null;
    const volts = J.slice();
    volts[last] = 0;
    backwardAt(plan, L, inverse, volts, 0, 0, last);
    const { positionOf } = plan;
    return {
      volts,
      response: (a, b) => this.#answers.of(L, inverse, positionOf[a]!, positionOf[b]!),
    };
  }
}
