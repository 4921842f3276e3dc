/** Which chargers a wire or a device feeds, and what they take in the long run. */
import type { Basis, Id, Operation, Placed } from '../../contracts/index.ts';
import { perOperation } from './memo.ts';
import { fedSide, netOf, oneSide, type Net } from './conductors.ts';
import { refOf } from './refs.ts';
import { sourcesOf } from './sources.ts';

export interface Feed {
  readonly charger: Id;
  readonly label: string;
  /** Greatest continuous input current, A; null: no rated current. */
  readonly greatest: Basis | null;
}

export const chargersOf = (op: Operation): readonly Placed[] =>
  [...op.parts.values()].filter((p) => p.ability.converts !== undefined);

/** Chargers whose whole input current passes the wire or the device: cut, it parts their input from every source. */
export function fedThrough(op: Operation, id: Id): readonly Feed[] {
  return feedsOf(op).get(id) ?? [];
}

const feedsOf: (op: Operation) => ReadonlyMap<Id, readonly Feed[]> = perOperation((op) => {
  const feeds = new Map<Id, Feed[]>();
  const sides = { plus: positives(op), minus: negatives(op) };
  for (const part of chargersOf(op)) {
    const c = part.ability.converts;
    if (c === undefined) continue;
    const feed: Feed = { charger: part.id, label: part.label, greatest: c.greatestInput };
    const ends = { plus: refOf(part.id, c.inPlus), minus: refOf(part.id, c.inMinus) };
    enter(feeds, feed, between(netOf(op), ends, sides));
  }
  return feeds;
});

/** Chargers whose whole output current passes the wire or the device: cut, it parts their output from every battery. */
export function givenThrough(op: Operation, id: Id): readonly Feed[] {
  return givenOf(op).get(id) ?? [];
}

const givenOf: (op: Operation) => ReadonlyMap<Id, readonly Feed[]> = perOperation((op) => {
  const given = new Map<Id, Feed[]>();
  const net = netOf(op);
  for (const part of chargersOf(op)) {
    const c = part.ability.converts;
    if (c === undefined) continue;
    const feed: Feed = { charger: part.id, label: part.label, greatest: c.greatestOutput };
    const ends = { plus: refOf(part.id, c.outPlus), minus: refOf(part.id, c.outMinus) };
    enter(given, feed, between(net, ends, charged(op, net, ends.plus)));
  }
  return given;
});

/** Posts of the batteries that an output reaches: its current comes back from their negatives, not from others'. */
function charged(op: Operation, net: Net, outPlus: string): Poles<readonly string[]> {
  const reached = fedSide(net, outPlus);
  const stores = [...op.parts.values()].flatMap(({ id, ability: { stores: s } }) =>
    s === undefined || !reached.has(refOf(id, s.plus))
      ? []
      : [{ plus: refOf(id, s.plus), minus: refOf(id, s.minus) }],
  );
  return { plus: stores.map((s) => s.plus), minus: stores.map((s) => s.minus) };
}

function enter(feeds: Map<Id, Feed[]>, feed: Feed, ids: readonly Id[]): void {
  for (const id of ids) {
    const known = feeds.get(id);
    if (known === undefined) feeds.set(id, [feed]);
    else if (!known.includes(feed)) known.push(feed);
  }
}

interface Poles<T> {
  readonly plus: T;
  readonly minus: T;
}

/** What stands alone between a charger's two terminals and the batteries, on both sides. */
const between = (net: Net, ends: Poles<string>, goals: Poles<readonly string[]>): readonly Id[] => [
  ...bridges(net, ends.plus, goals.plus, false),
  ...bridges(net, ends.minus, goals.minus, true),
];

/** Wires and devices without which no way leads from the terminal to any of the goals, on its own side. */
function bridges(net: Net, start: string, goals: readonly string[], onReturn: boolean): readonly Id[] {
  const meets = (reached: ReadonlySet<string>): boolean =>
    goals.some((goal) => reached.has(goal) && goal !== start);
  if (!meets(oneSide(net, start, onReturn))) return [];
  const candidates = net.links.filter(
    (l) => l.type === 'wire' || l.type === 'device' || l.type === 'contact',
  );
  const ids = [...new Set(candidates.map((l) => l.id))];
  return ids.filter((id) => !meets(oneSide(net, start, onReturn, id)));
}

/** Terminals from which a charger's input can be fed: batteries and generators. */
const positives = (op: Operation): readonly string[] =>
  sourcesOf(op)
    .filter((s) => s.stiff || op.parts.get(s.part)?.ability.generates !== undefined)
    .map((s) => s.terminal);

/**
 * In which sense the input (or output) current of a charger passes a wire or device that it all passes: 1 from its `from` to
 * its `to`, -1 the other way.
 */
export function sense(op: Operation, id: Id, charger: Id, of: 'input' | 'output'): 1 | -1 {
  const net = netOf(op);
  const c = op.parts.get(charger)?.ability.converts;
  const link = net.links.find((l) => l.id === id);
  if (c === undefined || link === undefined) return 1;
  const onReturn = net.isReturn(link.a);
  const [plus, minus] = of === 'input' ? [c.inPlus, c.inMinus] : [c.outPlus, c.outMinus];
  const start = refOf(charger, onReturn ? minus : plus);
  const reached = oneSide(net, start, onReturn, id);
  // Input flows into the charger on the positive side and out of it on the return; output the other way.
  const inwards = onReturn === (of === 'output');
  return reached.has(link.b) === inwards ? 1 : -1;
}

/** The batteries' negatives that the input current returns to: of the side whose positive feeds it. */
function negatives(op: Operation): readonly string[] {
  const fed = new Set<Id>();
  const net = netOf(op);
  for (const part of chargersOf(op)) {
    const c = part.ability.converts;
    if (c === undefined) continue;
    const reached = fedSide(net, refOf(part.id, c.inPlus));
    for (const s of sourcesOf(op)) if (reached.has(s.terminal)) fed.add(s.part);
  }
  return [...op.parts.values()].flatMap((p) => {
    const minus = p.ability.stores?.minus;
    return minus !== undefined && fed.has(p.id) ? [refOf(p.id, minus)] : [];
  });
}

/** Chargers of whose feed the wire or device is one of several ways: cut, both its ends still reach the charger's input. */
export function sharedBy(op: Operation, id: Id): readonly Id[] {
  const net = netOf(op);
  const links = net.links.filter((l) => l.id === id);
  return chargersOf(op)
    .filter((part) => {
      const c = part.ability.converts;
      if (c === undefined) return false;
      return [c.inPlus, c.inMinus].some((terminal) => {
        const start = refOf(part.id, terminal);
        const onReturn = net.isReturn(start);
        const reached = oneSide(net, start, onReturn, id);
        return links.some((l) => reached.has(l.a) && reached.has(l.b));
      });
    })
    .map((part) => part.id);
}
