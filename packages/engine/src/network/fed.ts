/**
 * Which loads have a way round: their two ends are joined by something other than loads. Only such a load can be taken
 * for a known current; the current of another one would have nowhere to go.
 */
import type { ElementOf } from '../contracts/element.ts';
import { isLoad } from './straight.ts';

type Element = ElementOf<number>;

/** 1 for each load whose two ends are joined by what is closed, loads not counted. */
export function fedLoads(
  nodeCount: number,
  elements: readonly Element[],
  open: (e: number) => boolean,
): Uint8Array {
  const root = Int32Array.from({ length: nodeCount }, (_, node) => node);
  const find = (node: number): number => {
    let n = node;
    while (root[n] !== n) {
      root[n] = root[root[n]!]!;
      n = root[n]!;
    }
    return n;
  };
  const join = (a: number, b: number): void => {
    root[find(a)] = find(b);
  };
  elements.forEach((element, e) => {
    if (isLoad(element) || open(e)) return;
    if (element.type === 'converter') {
      join(element.inA, element.inB);
      if (element.on) join(element.outA, element.outB);
    } else if (conducts(element)) join(element.a, element.b);
  });
  return Uint8Array.from(elements, (e) =>
    e.type === 'pieces' && isLoad(e) && find(e.a) === find(e.b) ? 1 : 0,
  );
}

/** Whether it may carry a current at some voltage. */
function conducts(element: Exclude<Element, { type: 'converter' }>): boolean {
  switch (element.type) {
    case 'hold':
      return element.greatest > 0 || element.least < 0;
    case 'power':
      return element.watts > 0;
    case 'pieces':
      return element.points.length > 1 || element.below > 0 || element.above > 0;
    default:
      return true;
  }
}
