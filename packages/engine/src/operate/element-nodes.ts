/** The nodes of an element, by name and by number. */
import type { ElementOf, Id } from '../contracts/index.ts';
import { fullName, type Nodes } from './nodes.ts';

/** Full names of all nodes that a part's elements touch. */
export function elementNodes(part: Id, elements: readonly ElementOf<string>[]): readonly string[] {
  const names: string[] = [];
  for (const e of elements) {
    mapped(e, (n) => {
      names.push(fullName(part, n));
      return 0;
    });
  }
  return names;
}

/** A part's elements with node numbers for names. */
export function renamed(
  part: Id,
  elements: readonly ElementOf<string>[],
  nodes: Nodes,
): readonly ElementOf<number>[] {
  return elements.map((e) => mapped(e, (n) => nodes.own(part, n)));
}

/** An element over other node names. The sorts of which there are many are written out: that is quicker than copying. */
export function mapped<A, B>(e: ElementOf<A>, to: (node: A) => B): ElementOf<B> {
  if (e.type === 'resistor') return { type: e.type, a: to(e.a), b: to(e.b), ohms: e.ohms };
  if (e.type === 'pieces') {
    const { type, points, below, above } = e;
    return { type, a: to(e.a), b: to(e.b), points, below, above };
  }
  if (e.type === 'converter') {
    return {
      ...e,
      inA: to(e.inA),
      inB: to(e.inB),
      outA: to(e.outA),
      outB: to(e.outB),
      senseA: to(e.senseA),
      senseB: to(e.senseB),
    };
  }
  if (e.type === 'hold') {
    return { ...e, a: to(e.a), b: to(e.b), senseA: to(e.senseA), senseB: to(e.senseB) };
  }
  return { ...e, a: to(e.a), b: to(e.b) };
}

/** Nodes of an element in the order of its fields. */
export function elementEnds(e: ElementOf<number>): readonly number[] {
  const ends: number[] = [];
  mapped(e, (node) => {
    ends.push(node);
    return node;
  });
  return ends;
}
