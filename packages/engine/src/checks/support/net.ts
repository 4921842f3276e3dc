/** Ways through the net of conductors: from a terminal to all that it is joined to, with the hops in between. */
import type { Id, Operation, TerminalRef } from '../../contracts/index.ts';
import { across, netOf as conductorsOf, type Link, type Net as Conductors } from './conductors.ts';

export { partOf } from './refs.ts';
export { sectionNode, type Link } from './conductors.ts';

export interface Net extends Conductors {
  /** Name of the node that a terminal is. */
  name(terminal: TerminalRef): string;
}

/** One step along a way. */
export interface Hop {
  readonly link: Link;
  readonly from: string;
  readonly to: string;
}

export const netOf = (op: Operation): Net => ({ ...conductorsOf(op), name: (terminal) => terminal });

/** All nodes joined to a terminal along links that `through` lets pass, each with the way of the fewest hops. */
export function reach(
  net: Net,
  start: TerminalRef,
  through: (link: Link, to: string, at: string) => boolean = () => true,
): ReadonlyMap<TerminalRef, readonly Hop[]> {
  const ways = new Map<string, readonly Hop[]>([[start, []]]);
  const queue: string[] = [start];
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    for (const link of net.at(at)) {
      const to = across(link, at);
      if (ways.has(to) || !through(link, to, at)) continue;
      ways.set(to, [...(ways.get(at) ?? []), { link, from: at, to }]);
      queue.push(to);
    }
  }
  return ways;
}

/** Wires and parts of a way, each once, in order. */
export const idsOf = (hops: readonly Hop[]): readonly Id[] => [...new Set(hops.map((hop) => hop.link.id))];

/** "feed, feed-fuse, feed-2". */
export const wayText = (hops: readonly Hop[]): string => idsOf(hops).join(', ');
