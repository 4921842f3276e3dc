/**
 * Ways along conductors, from a terminal to all that it is joined to, with the hops in between: what current can follow.
 * Beyond the walks of protection it passes shunts and the negative that a converter's input and output share.
 */
import type { Id, Operation, TerminalRef } from '../../contracts/index.ts';
import {
  across,
  netOf as conductorsOf,
  type Flow,
  type Link,
  type Net as Conductors,
  type Valve,
} from './conductors.ts';
import { perKey, perName, perOperation, shared } from './memo.ts';
import { refOf } from './refs.ts';

export { partOf, refOf, terminalOf } from './refs.ts';
export { sectionNode, type Flow, type Link } from './conductors.ts';

export interface Net {
  at(node: string): readonly Link[];
  /** What lets current pass one way only, along a feed or along a return: not what lies across both (over a coil). */
  readonly valves: readonly Valve[];
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
  const signature = more.map(({ a, b, id }) => `${a} ${b} ${id}`).join('\n');
  return extended(conductors)(signature, () => extend(conductors, more));
});

const extended = perKey(() => shared<Net>());

/** The conductors with these links beside them where none joins the same already. */
function extend(conductors: Conductors, more: readonly Link[]): Net {
  const known = (link: Link): boolean =>
    conductors.at(link.a).some((l) => l.id === link.id && across(l, link.a) === link.b);
  const by = new Map<string, Link[]>();
  for (const link of more.filter((l) => !known(l))) {
    for (const node of [link.a, link.b]) by.set(node, [...(by.get(node) ?? []), link]);
  }
  return {
    valves: conductors.valves.filter((v) => conductors.isReturn(v.from) === conductors.isReturn(v.to)),
    at: (node) => {
      const added = by.get(node);
      return added === undefined ? conductors.at(node) : [...conductors.at(node), ...added];
    },
  };
}

/** Whether a walk may go along a link, from `at` to `to`. */
export type Passes = (link: Link, to: string, at: string) => boolean;

type Ways = ReadonlyMap<string, readonly Hop[]>;

/** All nodes joined to a terminal along links that `passes` lets through, each with the way of the fewest hops. */
export function reach(net: Net, start: TerminalRef, passes?: Passes): Ways {
  if (passes !== undefined) return waysFrom(net, start, passes);
  return everyWay(net, start, () => waysFrom(net, start, () => true));
}

const everyWay = perName<Ways>();

function waysFrom(net: Net, start: TerminalRef, passes: Passes): Ways {
  const ways = new Map<string, readonly Hop[]>([[start, []]]);
  for (const [at, way] of ways) {
    for (const link of net.at(at)) {
      const to = across(link, at);
      if (!ways.has(to) && passes(link, to, at)) ways.set(to, [...way, { link, from: at, to }]);
    }
  }
  return ways;
}

/** As `reach`, and past what lets current pass that way only, the fewest of those first. */
export function reachPast(net: Net, start: TerminalRef, flow: Flow, passes?: Passes): Ways {
  if (net.valves.length === 0) return reach(net, start, passes);
  if (passes !== undefined) return waysPast(net, start, flow, passes);
  return everyWayPast(net, `${start} ${flow}`, () => waysPast(net, start, flow));
}

const everyWayPast = perName<Ways>();

function waysPast(net: Net, start: TerminalRef, flow: Flow, passes?: Passes): Ways {
  const near = reach(net, start, passes);
  const ways = new Map(near);
  const ends = net.valves.map(({ from, to, id }) =>
    flow === 'with' ? { from, to, id } : { from: to, to: from, id },
  );
  for (;;) {
    const next = ends.flatMap((v) => {
      const way = ways.get(v.from);
      return way === undefined || ways.has(v.to) ? [] : [{ ...v, way: [...way, passed(v)] }];
    });
    if (next.length === 0) return ways;
    for (const { to, way } of next)
      for (const [node, hops] of reach(net, to, passes))
        if (!ways.has(node)) ways.set(node, [...way, ...hops]);
  }
}

const passed = ({ from, to, id }: Valve): Hop => ({
  link: { a: from, b: to, type: 'valve', id, changeOver: false },
  from,
  to,
});

/** What lets current pass one way only, along a way, in order. */
export const valvesOn = (hops: readonly Hop[]): readonly Id[] =>
  hops.filter((hop) => hop.link.type === 'valve').map((hop) => hop.link.id);

/** The way of the fewest hops between two terminals; null when no conductor joins them. */
export const wayTo = (net: Net, from: TerminalRef, to: TerminalRef, passes?: Passes): readonly Hop[] | null =>
  reach(net, from, passes).get(to) ?? null;

/** Wires and parts of a way, each once, in order. */
export const idsOf = (hops: readonly Hop[]): readonly Id[] => [...new Set(hops.map((hop) => hop.link.id))];

/** "feed, feed-fuse, feed-2". */
export const wayText = (hops: readonly Hop[]): string => idsOf(hops).join(', ');
