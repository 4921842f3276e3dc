/**
 * A circuit of straight lines only, factored once and asked many times what a current between two of its nodes does: each
 * answer is one pass forward and one back.
 */
import type { ElementOf } from '../contracts/element.ts';
import { backwardAt, factor, forwardAt } from './kernel.ts';
import { nodePairs } from './linear.ts';
import { planElimination, type Elimination } from './order.ts';

/** A current (amperes) with no way out that is more than rounding. */
const STRAY_AMPS = 1e-12;

/** Volts by node, from currents into nodes. */
export interface Factored {
  /** Volts that the lines' own currents bring about, by `positionOf`. */
  readonly volts: Float64Array;
  /**
   * Volts per ampere taken out at node `a` and let in at node `b`, by `positionOf`; null: the two are not joined.
   */
  response(a: number, b: number): Float64Array | null;
}

export class StraightNet {
  readonly #plan: Elimination;
  readonly #ends: Int32Array;
  readonly #J: Float64Array;
  readonly #S: Float64Array;

  /** Of a converter only the input counts: a line stands for one that is off. */
  constructor(nodeCount: number, reference: number, shape: readonly ElementOf<number>[]) {
    const edges = Int32Array.from(shape.flatMap((e) => nodePairs(e).slice(0, 2)));
    this.#plan = planElimination(nodeCount, reference, edges, new Uint8Array(nodeCount));
    this.#ends = edges.map((node) => this.#plan.positionOf[node]!);
    this.#S = new Float64Array(this.#plan.slotCount);
    this.#J = new Float64Array(nodeCount);
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
    const back = (W: Float64Array): Float64Array | null => {
      const last = nodeCount - 1;
      for (let k = 0; k < last; k += 1) if (inverse[k] === 0 && Math.abs(W[k]!) > STRAY_AMPS) return null;
      W[last] = 0;
      backwardAt(plan, L, inverse, W, 0, 0, last);
      return W;
    };
    const volts = back(J.slice());
    if (volts === null) return null;
    return {
      volts,
      response: (a, b) => {
        const W = new Float64Array(nodeCount);
        W[plan.positionOf[a]!]! -= 1;
        W[plan.positionOf[b]!]! += 1;
        forwardAt(plan, L, W, 0, 0, nodeCount - 1);
        return back(W);
      },
    };
  }
}
