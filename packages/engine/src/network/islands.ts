/** Naming islands: groups of nodes with no conducting path to the reference. */
import type { Elimination } from './order.ts';

/** Moves a voltage kept in two parts down by `shift`, without losing the digits that fall off. */
function lower(block: Float64Array, nodeCount: number, node: number, shift: number): void {
  const v = block[node]!;
  const moved = v - shift;
  const taken = moved - v;
  block[node] = moved;
  block[nodeCount + node]! += v - (moved - taken) + (-shift - taken);
}

/**
 * Island of each node (0: the reference's; others numbered by their lowest node number), and moves the voltages of each
 * floating island so that its lowest node stands at 0 V.
 *
 * @param block voltages by node, then what they leave out
 * @param L shares of a factored network: a step is joined to every later node that it has a share in
 */
export function islandsOf(plan: Elimination, L: Float64Array, block: Float64Array): Int32Array {
  const { nodeCount, start, column, nodeAt, positionOf } = plan;
  const root = new Int32Array(nodeCount);
  root[nodeCount - 1] = nodeCount - 1;
  for (let k = nodeCount - 2; k >= 0; k -= 1) {
    root[k] = k;
    for (let e = start[k]!; e < start[k + 1]!; e += 1) {
      if (L[e]! > 0) {
        root[k] = root[column[e]!]!;
        break;
      }
    }
  }
  const name = new Int32Array(nodeCount).fill(-1);
  name[nodeCount - 1] = 0;
  let names = 1;
  const island = new Int32Array(nodeCount);
  const lowest: number[] = [0];
  for (let node = 0; node < nodeCount; node += 1) {
    const r = root[positionOf[node]!]!;
    if (name[r]! < 0) {
      name[r] = names;
      names += 1;
    }
    const id = name[r]!;
    island[node] = id;
    if (id > 0) lowest[id] = Math.min(lowest[id] ?? Infinity, block[node]!);
  }
  for (let k = 0; k < nodeCount; k += 1) {
    const node = nodeAt[k]!;
    const id = island[node]!;
    if (id > 0) lower(block, nodeCount, node, lowest[id]!);
  }
  return island;
}
