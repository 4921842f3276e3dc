/** What one ampere through a factored circuit does: of many volts few are looked at, and those are worked out when they are. */
import type { Elimination } from './order.ts';

/** A current (amperes) with no way out that is more than rounding. */
export const STRAY_AMPS = 1e-12;

/** So many answers share one piece of memory. */
const IN_POOL = 64;

/** Makes answers, in memory that many of them share: an array for each takes longer to get than to fill. */
export class Answers {
  readonly #plan: Elimination;
  #amps = new Float64Array();
  #known = new Uint8Array();
  #used = 0;

  constructor(plan: Elimination) {
    this.#plan = plan;
  }

  /**
   * For one ampere taken out at position `from` and let in at `to`; null: the two are not joined.
   *
   * @param L shares of the factored circuit
   * @param inverse ohms of each step, 0 where nothing passes
   */
  of(L: Float64Array, inverse: Float64Array, from: number, to: number): Answer | null {
    const plan = this.#plan;
    const { nodeCount, start, column } = plan;
    const base = this.#room(nodeCount);
    const amps = this.#amps;
    const last = nodeCount - 1;
    amps[base + from]! -= 1;
    amps[base + to]! += 1;
    for (let k = Math.min(from, to); k < last; k += 1) {
      const j = amps[base + k]!;
      if (j === 0) continue;
      if (inverse[k] === 0 && Math.abs(j) > STRAY_AMPS) {
        amps.fill(0, base, base + nodeCount);
        return null;
      }
      const end = start[k + 1]!;
      for (let e = start[k]!; e < end; e += 1) amps[base + column[e]!]! += L[e]! * j;
    }
    amps[base + last] = 0;
    this.#known[base + last] = 1;
    this.#used += nodeCount;
    return new Answer(plan, L, inverse, { volts: amps, known: this.#known, base });
  }

  #room(size: number): number {
    if (this.#used + size > this.#amps.length) {
      this.#amps = new Float64Array(IN_POOL * size);
      this.#known = new Uint8Array(IN_POOL * size);
      this.#used = 0;
    }
    return this.#used;
  }
}

/** Where the numbers of an answer stand: amperes carried forward, volts where they are known. */
interface Place {
  readonly volts: Float64Array;
  readonly known: Uint8Array;
  readonly base: number;
}

export class Answer {
  readonly #start: Int32Array;
  readonly #column: Int32Array;
  readonly #L: Float64Array;
  readonly #inverse: Float64Array;
  readonly #volts: Float64Array;
  readonly #known: Uint8Array;
  readonly #base: number;

  constructor(plan: Elimination, L: Float64Array, inverse: Float64Array, { volts, known, base }: Place) {
    this.#start = plan.start;
    this.#column = plan.column;
    this.#L = L;
    this.#inverse = inverse;
    this.#volts = volts;
    this.#known = known;
    this.#base = base;
  }

  /** Volts at a position. */
  at(position: number): number {
    if (this.#known[this.#base + position] !== 1) this.#workOut(position);
    return this.#volts[this.#base + position]!;
  }

  /** From the volts of the later positions that it leads to. */
  #workOut(position: number): void {
    const base = this.#base;
    const place = base + position;
    let volts = this.#volts[place]! * this.#inverse[position]!;
    const end = this.#start[position + 1]!;
    for (let e = this.#start[position]!; e < end; e += 1) {
      const later = this.#column[e]!;
      if (this.#known[base + later] !== 1) this.#workOut(later);
      volts += this.#L[e]! * this.#volts[base + later]!;
    }
    this.#volts[place] = volts;
    this.#known[place] = 1;
  }
}
