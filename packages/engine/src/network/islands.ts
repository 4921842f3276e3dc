/** Naming islands: groups of nodes with no conducting path to the reference. */
import type { Elimination } from './order.ts';

/** Moves a voltage kept in two parts down by `shift`, without losing the digits that fall off. */
function lower(block: Float64Array, nodeCount: number, at: number, shift: number): void {
  const v = block[at]!;
  const moved = v - shift;
  const taken = moved - v;
  block[at] = moved;
  block[nodeCount + at]! += v - (moved - taken) + (-shift - taken);
}

/** Names the islands of a circuit's points; points whose islands are the same share one array. */
export class Islands {
  private readonly plan: Elimination;
  private readonly root: Int32Array;
  private readonly name: Int32Array;
  private readonly lowest: Float64Array;
  private readonly island: Int32Array;
  private known: Int32Array[] = [];

  constructor(plan: Elimination) {
    this.plan = plan;
    this.root = new Int32Array(plan.nodeCount);
    this.name = new Int32Array(plan.nodeCount);
    this.lowest = new Float64Array(plan.nodeCount);
    this.island = new Int32Array(plan.nodeCount);
  }

  /**
   * Island of each node (0: the reference's; others numbered by their lowest node number), and moves the voltages of each
   * floating island so that its lowest node stands at 0 V.
   *
   * @param block from `begin` on: voltages by node, then what they leave out
   * @param L shares of a factored network: a step is joined to every later node that it has a share in
   */
  of(L: Float64Array, block: Float64Array, begin: number): Int32Array {
    const { nodeCount, nodeAt } = this.plan;
    const { island, lowest } = this;
    this.roots(L);
    this.names(block, begin);
    for (let k = 0; k < nodeCount; k += 1) {
      const node = nodeAt[k]!;
      const id = island[node]!;
      if (id > 0) lower(block, nodeCount, begin + node, lowest[id]!);
    }
    return this.kept();
  }

  /** The last position of each position's island. */
  private roots(L: Float64Array): void {
    const { root } = this;
    const { nodeCount, start, column } = this.plan;
    root[nodeCount - 1] = nodeCount - 1;
    for (let k = nodeCount - 2; k >= 0; k -= 1) {
      root[k] = k;
      const end = start[k + 1]!;
      for (let e = start[k]!; e < end; e += 1) {
        if (L[e]! > 0) {
          root[k] = root[column[e]!]!;
          break;
        }
      }
    }
  }

  /** Numbers the islands, and finds the lowest voltage of each floating one. */
  private names(block: Float64Array, begin: number): void {
    const { root, name, lowest, island } = this;
    const { nodeCount, positionOf } = this.plan;
    name.fill(-1);
    name[nodeCount - 1] = 0;
    let names = 1;
    for (let node = 0; node < nodeCount; node += 1) {
      const r = root[positionOf[node]!]!;
      if (name[r]! < 0) {
        name[r] = names;
        lowest[names] = Infinity;
        names += 1;
      }
      const id = name[r]!;
      island[node] = id;
      if (id > 0) lowest[id] = Math.min(lowest[id]!, block[begin + node]!);
    }
  }

  /** An array of the present islands that is never written to. */
  private kept(): Int32Array {
    const { island } = this;
    for (const known of this.known) if (same(known, island)) return known;
    if (this.known.length >= MOST_KNOWN) this.known = [];
    const own = island.slice();
    this.known.push(own);
    return own;
  }
}

/** Arrays of islands remembered for sharing. */
const MOST_KNOWN = 32;

function same(a: Int32Array, b: Int32Array): boolean {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return false;
  return true;
}
