/** Which chargers a wire or a device feeds, and what they take in the long run. */
import type { Basis, Id, Operation, Placed } from '../../contracts/index.ts';
import { perOperation } from './memo.ts';
import { fedSide, feeding, linksOf, netOf, oneSide, sidePast, type Flow, type Net } from './conductors.ts';
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
    enter(feeds, feed, between(netOf(op), ends, sides, 'input'));
  }
  return feeds;
});

/**
 * Chargers whose whole output current may pass the wire or the device: cut, it parts their output from every battery; behind
 * split diodes, from the batteries of its leg, as these take all of it once the others are full.
 */
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
    for (const banks of charged(op, net, ends.plus)) enter(given, feed, between(net, ends, banks, 'output'));
  }
  return given;
});

/**
 * Posts of the batteries that an output reaches: its current comes back from their negatives, not from others'. Where it reaches
 * them past diodes only, those of each leg.
 */
function charged(op: Operation, net: Net, outPlus: string): readonly Poles<readonly string[]>[] {
  const joined = postsIn(op, fedSide(net, outPlus));
  if (joined.plus.length > 0) return [joined];
  const legs = new Map<string, Poles<readonly string[]>>();
  for (const plus of postsIn(op, sidePast(net, outPlus, false, 'with')).plus) {
    const leg = postsIn(op, fedSide(net, plus));
    legs.set(leg.plus.join(' '), leg);
  }
  return [...legs.values()];
}

function postsIn(op: Operation, reached: ReadonlySet<string>): Poles<readonly string[]> {
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
const between = (
  net: Net,
  ends: Poles<string>,
  goals: Poles<readonly string[]>,
  of: 'input' | 'output',
): readonly Id[] => [
  ...bridges(net, ends.plus, goals.plus, false, of),
  ...bridges(net, ends.minus, goals.minus, true, of),
];

/** Into an input current comes from its plus and leaves by its minus; of an output the other way. */
const flowOf = (of: 'input' | 'output', onReturn: boolean): Flow =>
  (of === 'input') === onReturn ? 'with' : 'against';

/**
 * Wires and devices without which no way leads from the terminal to any of the goals, on its own side. Diodes are passed where
 * no way without them leads to one: beside such a way they carry what they like, and the way may carry all.
 */
function bridges(
  net: Net,
  start: string,
  goals: readonly string[],
  onReturn: boolean,
  of: 'input' | 'output',
): readonly Id[] {
  const meets = (reached: ReadonlySet<string>): boolean =>
    goals.some((goal) => reached.has(goal) && goal !== start);
  const joined = meets(oneSide(net, start, onReturn));
  const side = (cut: Id | null): ReadonlySet<string> =>
    joined ? oneSide(net, start, onReturn, cut) : sidePast(net, start, onReturn, flowOf(of, onReturn), cut);
  if (!meets(side(null))) return [];
  const candidates = net.links.filter(
    (l) => l.type === 'wire' || l.type === 'device' || l.type === 'contact',
  );
  const ids = [...new Set(candidates.map((l) => l.id))];
  return ids.filter((id) => !meets(side(id)));
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
  const link = linksOf(net, id)[0];
  if (c === undefined || link === undefined) return 1;
  const onReturn = net.isReturn(link.a);
  const [plus, minus] = of === 'input' ? [c.inPlus, c.inMinus] : [c.outPlus, c.outMinus];
  const start = refOf(charger, onReturn ? minus : plus);
  const joined = oneSide(net, start, onReturn, id);
  const reached =
    joined.has(link.a) || joined.has(link.b)
      ? joined
      : sidePast(net, start, onReturn, flowOf(of, onReturn), id);
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
    const inPlus = refOf(part.id, c.inPlus);
    const joined = fedSide(net, inPlus);
    const reached = postsIn(op, joined).plus.length > 0 ? joined : feeding(net, inPlus);
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
  const links = linksOf(net, id);
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
