/**
 * Ways along conductors, from a terminal to all that it is joined to, with the hops in between: what current can follow.
 * Beyond the walks of protection it passes shunts and the negative that a converter's input and output share.
 */
import type { Id, Operation, TerminalRef } from '../../contracts/index.ts';
import { across, netOf as conductorsOf, type Link } from './conductors.ts';
import { perOperation } from './memo.ts';
import { refOf } from './refs.ts';

export { partOf, refOf, terminalOf } from './refs.ts';
export { sectionNode, type Link } from './conductors.ts';

export interface Net {
  at(node: string): readonly Link[];
}

/** One step along a way. */
export interface Hop {
  readonly link: Link;
  readonly from: string;
  readonly to: string;
}

export const netOf: (op: Operation) => Net = perOperation((op) => {
  const conductors = conductorsOf(op);
  const more = [...op.parts.values()].flatMap((part): readonly Link[] => {
    const { measures, converts } = part.ability;
    const join = (a: string, b: string): Link => ({
      a: refOf(part.id, a),
      b: refOf(part.id, b),
      type: 'joined',
      id: part.id,
      changeOver: false,
    });
    return [
      ...(measures === undefined ? [] : [join(measures.battery, measures.system)]),
      ...(converts?.negative === 'common' ? [join(converts.inMinus, converts.outMinus)] : []),
    ];
  });
  const known = (link: Link): boolean =>
    conductors.at(link.a).some((l) => l.id === link.id && across(l, link.a) === link.b);
  const by = new Map<string, Link[]>();
  for (const link of more.filter((l) => !known(l))) {
    for (const node of [link.a, link.b]) by.set(node, [...(by.get(node) ?? []), link]);
  }
  return { at: (node) => [...conductors.at(node), ...(by.get(node) ?? [])] };
});

/** Whether a walk may go along a link, from `at` to `to`. */
export type Passes = (link: Link, to: string, at: string) => boolean;

/** All nodes joined to a terminal along links that `passes` lets through, each with the way of the fewest hops. */
export function reach(
  net: Net,
  start: TerminalRef,
  passes: Passes = () => true,
): ReadonlyMap<string, readonly Hop[]> {
  const ways = new Map<string, readonly Hop[]>([[start, []]]);
  const queue: string[] = [start];
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    const way = ways.get(at) ?? [];
    for (const link of net.at(at)) {
      const to = across(link, at);
      if (ways.has(to) || !passes(link, to, at)) continue;
      ways.set(to, [...way, { link, from: at, to }]);
      queue.push(to);
    }
  }
  return ways;
}

/** The way of the fewest hops between two terminals; null when no conductor joins them. */
export const wayTo = (net: Net, from: TerminalRef, to: TerminalRef, passes?: Passes): readonly Hop[] | null =>
  reach(net, from, passes).get(to) ?? null;

/** Wires and parts of a way, each once, in order. */
export const idsOf = (hops: readonly Hop[]): readonly Id[] => [...new Set(hops.map((hop) => hop.link.id))];

/** "feed, feed-fuse, feed-2". */
export const wayText = (hops: readonly Hop[]): string => idsOf(hops).join(', ');
