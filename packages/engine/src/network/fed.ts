/**
 * Which loads have a way round: their two ends are joined by something other than loads. Only such a load can be taken
 * for a known current; the current of another one would have nowhere to go.
 */
import type { ElementOf } from '../contracts/element.ts';

/** What an element can be to the search. */
export const NOTHING = 0;
export const LOAD = 1;
/** Joins the two nodes of its first pair. */
export const JOINS = 2;
/** A converter that sends: joins those of its second pair, too. */
export const JOINS_BOTH = 3;

/** Two node pairs for each element, the second one empty (-1) for all but converters. */
export function pairsOf(elements: readonly ElementOf<number>[]): Int32Array {
  const pairs = new Int32Array(4 * elements.length).fill(-1);
  elements.forEach((e, i) => {
    if (e.type === 'converter') pairs.set([e.inA, e.inB, e.outA, e.outB], 4 * i);
    else pairs.set([e.a, e.b], 4 * i);
  });
  return pairs;
}

/** The loads whose two ends are joined by what is closed, loads not counted; `sorts` says what each element is. */
export function fedLoads(nodeCount: number, pairs: Int32Array, sorts: Uint8Array): number[] {
  const root = new Int32Array(nodeCount);
  for (let node = 0; node < nodeCount; node += 1) root[node] = node;
  for (let e = 0; e < sorts.length; e += 1) {
    const sort = sorts[e]!;
    if (sort < JOINS) continue;
    root[find(root, pairs[4 * e]!)] = find(root, pairs[4 * e + 1]!);
    if (sort === JOINS_BOTH) root[find(root, pairs[4 * e + 2]!)] = find(root, pairs[4 * e + 3]!);
  }
  const fed: number[] = [];
  for (let e = 0; e < sorts.length; e += 1) {
    if (sorts[e] === LOAD && find(root, pairs[4 * e]!) === find(root, pairs[4 * e + 1]!)) fed.push(e);
  }
  return fed;
}

function find(root: Int32Array, node: number): number {
  let n = node;
  while (root[n] !== n) {
    root[n] = root[root[n]!]!;
    n = root[n]!;
  }
  return n;
}
