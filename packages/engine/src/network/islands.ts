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

/** Which nodes hang together. */
interface Grouping {
  /** The last position of each position's island. */
  readonly root: Int32Array;
  /** Island of each node. */
  readonly island: Int32Array;
  /** Positions in floating islands, and the island of each of them. */
  readonly floating: Int32Array;
  readonly floatingIn: Int32Array;
  readonly names: number;
}

/** Names the islands of a circuit's points; points whose islands are the same share one array. */
export class Islands {
  private readonly plan: Elimination;
  private readonly root: Int32Array;
  private readonly lowest: Float64Array;
  private readonly known = new Map<number, Grouping[]>();
  private groupings = 0;

  constructor(plan: Elimination) {
    this.plan = plan;
    this.root = new Int32Array(plan.nodeCount);
    this.lowest = new Float64Array(plan.nodeCount);
  }

  /**
   * Island of each node (0: the reference's; others numbered by their lowest node number), and moves the voltages of each
   * floating island so that its lowest node stands at 0 V.
   *
   * @param block from `begin` on: voltages by position, then what they leave out
   * @param L shares of a factored network: a step is joined to every later node that it has a share in
   */
  of(L: Float64Array, block: Float64Array, begin: number): Int32Array {
    const { nodeCount } = this.plan;
    const { lowest } = this;
    const { island, floating, floatingIn, names } = this.grouping(this.roots(L));
    for (let id = 1; id < names; id += 1) lowest[id] = Infinity;
    for (let i = 0; i < floating.length; i += 1) {
      const volts = block[begin + floating[i]!]!;
      const id = floatingIn[i]!;
      if (volts < lowest[id]!) lowest[id] = volts;
    }
    for (let i = 0; i < floating.length; i += 1) {
      lower(block, nodeCount, begin + floating[i]!, lowest[floatingIn[i]!]!);
    }
    return island;
  }

  /** Finds the last position of each position's island; returns a number that equal groupings have in common. */
  private roots(L: Float64Array): number {
    const { root } = this;
    const { nodeCount, start, column } = this.plan;
    let hash = 0;
    root[nodeCount - 1] = nodeCount - 1;
    for (let k = nodeCount - 2; k >= 0; k -= 1) {
      let own = k;
      const end = start[k + 1]!;
      for (let e = start[k]!; e < end; e += 1) {
        if (L[e]! > 0) {
          own = root[column[e]!]!;
          break;
        }
      }
      root[k] = own;
      hash = (Math.imul(hash, 31) + own) | 0;
    }
    return hash;
  }

  /** The grouping of the present roots; its arrays are never written to again. */
  private grouping(hash: number): Grouping {
    let alike = this.known.get(hash);
    if (alike !== undefined) for (const known of alike) if (same(known.root, this.root)) return known;
    if (this.groupings >= MOST_KNOWN) {
      this.known.clear();
      this.groupings = 0;
      alike = undefined;
    }
    const made = this.named();
    if (alike === undefined) this.known.set(hash, [made]);
    else alike.push(made);
    this.groupings += 1;
    return made;
  }

  /** Numbers the islands. */
  private named(): Grouping {
    const { nodeCount, positionOf } = this.plan;
    const root = this.root.slice();
    const name = new Int32Array(nodeCount).fill(-1);
    const island = new Int32Array(nodeCount);
    name[nodeCount - 1] = 0;
    let names = 1;
    for (let node = 0; node < nodeCount; node += 1) {
      const r = root[positionOf[node]!]!;
      if (name[r]! < 0) {
        name[r] = names;
        names += 1;
      }
      island[node] = name[r]!;
    }
    const nodes = [...island.keys()].filter((node) => island[node] !== 0);
    return {
      root,
      island,
      floating: Int32Array.from(nodes, (node) => positionOf[node]!),
      floatingIn: Int32Array.from(nodes, (node) => island[node]!),
      names,
    };
  }
}

/** Groupings remembered. */
const MOST_KNOWN = 256;

function same(a: Int32Array, b: Int32Array): boolean {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return false;
  return true;
}
