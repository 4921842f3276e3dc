/**
 * Weighs changes of one picture by what they add to its cost (see `judge.ts`). Only what a change moves is looked at, and no
 * further than until it is sure to be worse.
 */
import { COST, crossings, nodeOnNode, wireOnNode, wireOnWire } from './judge.ts';
import { around, nodeOutline, wireOutline, type NodeOutline, type WireOutline } from './outline.ts';
import type { Picture } from './picture.ts';

interface Outlined {
  readonly nodes: readonly NodeOutline[];
  readonly wires: readonly WireOutline[];
}

/**
 * What a picture tried adds to the cost of this one; where that is 1 or more it may be any such number. A picture tried has the
 * same parts and wires in the same order; what stands where it stood is the same object.
 */
export function weighing(picture: Picture): (tried: Picture) => number {
  const old: Outlined = {
    nodes: picture.nodes.map(nodeOutline),
    wires: picture.wires.map(wireOutline),
  };
  const size = sizeOf(old);
  return (tried) => {
    const nodes = parted(picture.nodes, tried.nodes, old.nodes, nodeOutline);
    const wires = parted(picture.wires, tried.wires, old.wires, wireOutline);
    const still: Outlined = { nodes: nodes.still, wires: wires.still };
    const now: Outlined = { nodes: nodes.now, wires: wires.now };
    const was = inkCost({ nodes: nodes.was, wires: wires.was }, still, Infinity);
    const is = inkCost(now, still, was + 1);
    if (is - was >= 1) return is - was;
    return is - was + COST.size * (sizeOf(now, still) - size);
  };
}

interface Parted<O> {
  /** What moved: as it stands now, and as it stood. */
  readonly now: readonly O[];
  readonly was: readonly O[];
  readonly still: readonly O[];
}

function parted<T, O>(
  before: readonly T[],
  after: readonly T[],
  old: readonly O[],
  outline: (each: T) => O,
): Parted<O> {
  const [now, was, still]: [O[], O[], O[]] = [[], [], []];
  for (let i = 0; i < after.length; i += 1) {
    const each = after[i] as T;
    if (each === before[i]) still.push(old[i] as O);
    else {
      now.push(outline(each));
      was.push(old[i] as O);
    }
  }
  return { now, was, still };
}

/** Width and height together, mm. */
function sizeOf(...all: readonly Outlined[]): number {
  const boxes = all.flatMap(({ nodes, wires }) => [
    ...nodes.map((node) => node.box),
    ...wires.map((wire) => wire.extent),
  ]);
  if (boxes.length === 0) return 0;
  const { left, right, top, bottom } = around(boxes);
  return right - left + (bottom - top);
}

/** Overlaps, crossings and bends in which what moves takes part; no more is counted once they cost `most`. */
function inkCost({ nodes, wires }: Outlined, still: Outlined, most: number): number {
  let cost = wires.reduce((sum, wire) => sum + wire.bends, 0);
  const tell = (): void => {
    cost += COST.overlap;
  };
  const apart = (a: WireOutline, b: WireOutline): void => {
    wireOnWire(a, b, tell);
    cost += COST.crossing * crossings(a, b);
  };
  for (const [i, a] of nodes.entries()) {
    if (cost >= most) return cost;
    for (const b of nodes.slice(i + 1)) nodeOnNode(a, b, tell);
    for (const b of still.nodes) nodeOnNode(a, b, tell);
    for (const wire of still.wires) wireOnNode(wire, a, tell);
  }
  for (const [i, a] of wires.entries()) {
    if (cost >= most) return cost;
    for (const b of wires.slice(i + 1)) apart(a, b);
    for (const b of still.wires) apart(a, b);
    for (const node of nodes) wireOnNode(a, node, tell);
    for (const node of still.nodes) wireOnNode(a, node, tell);
  }
  return cost;
}
