/**
 * The build as a net of conductors: what a walk from a source can follow. Nodes are terminals, the centres of bars and studs,
 * and body sections; links are wires, joined terminals, contacts, protective devices and the body.
 */
import type { Id, Operation, Placed, TerminalRef } from '../../contracts/index.ts';
import { perKey, perName, perOperation, shared } from './memo.ts';
import { partOf, refOf } from './refs.ts';

/** `valve` stands in ways only, where one passes what lets current pass one way; the net has no such link. */
export type LinkType = 'wire' | 'joined' | 'contact' | 'device' | 'body' | 'valve';

export interface Link {
  readonly a: string;
  readonly b: string;
  readonly type: LinkType;
  /** The wire, or the part whose inside it is. */
  readonly id: Id;
  /** A contact that shares a terminal with another contact of the part: only one of them is closed. */
  readonly changeOver: boolean;
}

/** What lets current pass from `from` to `to` only (a diode): no link, as walks go both ways. */
export interface Valve {
  readonly from: string;
  readonly to: string;
  readonly id: Id;
}

export interface Net {
  readonly links: readonly Link[];
  readonly valves: readonly Valve[];
  readonly nodes: readonly string[];
  readonly at: (node: string) => readonly Link[];
  /** Joined, without passing a source, load, coil or converter, to a negative post that no other battery lifts. */
  readonly isReturn: (node: string) => boolean;
}

export const across = (link: Link, node: string): string => (link.a === node ? link.b : link.a);

/** Node of a body section. */
export const sectionNode = (section: Id): string => `^section:${section}`;

export const netOf: (op: Operation) => Net = perOperation((op) => {
  const links = [...wireLinks(op), ...[...op.parts.values()].flatMap((part) => insideLinks(op, part))];
  const valves = valvesOf(op);
  return sharedNet(signatureOf(op, links, valves), () => makeNet(op, links, valves));
});

const valvesOf = (op: Operation): readonly Valve[] =>
  [...op.parts.values()].flatMap(({ id, ability: { oneWay } }) =>
    oneWay === undefined ? [] : [{ from: refOf(id, oneWay[0]), to: refOf(id, oneWay[1]), id }],
  );

/** Everything that a net is made of. */
function signatureOf(op: Operation, links: readonly Link[], valves: readonly Valve[]): string {
  const batteries = [...op.parts.values()].flatMap(({ id, ability: { stores } }) =>
    stores === undefined ? [] : [`${refOf(id, stores.plus)} ${refOf(id, stores.minus)}`],
  );
  const joins = links.map(({ a, b, type, id, changeOver }) => `${a} ${b} ${type} ${id} ${changeOver}`);
  const passed = valves.map(({ from, to }) => `${from} > ${to}`);
  return [op.posts?.minus ?? '', ...batteries, '', ...passed, '', ...joins].join('\n');
}

/** Builds that differ in figures only have one net, and so have the three assumptions of a build. */
const sharedNet = shared<Net>();

function makeNet(op: Operation, links: readonly Link[], valves: readonly Valve[]): Net {
  const by = new Map<string, Link[]>();
  for (const link of links) {
    for (const node of [link.a, link.b]) {
      const known = by.get(node);
      if (known === undefined) by.set(node, [link]);
      else known.push(link);
    }
  }
  const at = (node: string): readonly Link[] => by.get(node) ?? [];
  const returns = returnNodes(op, at);
  return { links, valves, nodes: [...by.keys()], at, isReturn: (node) => returns.has(node) };
}

function wireLinks(op: Operation): readonly Link[] {
  return [...op.wires.values()].map((w) => ({
    a: w.from,
    b: w.to,
    type: 'wire',
    id: w.id,
    changeOver: false,
  }));
}

function insideLinks(op: Operation, part: Placed): readonly Link[] {
  return [
    ...deviceLinks(part),
    ...contactLinks(part),
    ...joinedLinks(op, part),
    ...bodyLinks(op, part),
    ...unwiredLinks(op, part),
  ];
}

const link = (part: Placed, a: string, b: string, type: LinkType, changeOver = false): Link => ({
  a,
  b,
  type,
  id: part.id,
  changeOver,
});

function deviceLinks(part: Placed): readonly Link[] {
  const p = part.ability.protects;
  return p === undefined ? [] : [link(part, refOf(part.id, p.from), refOf(part.id, p.to), 'device')];
}

/** True for the pair of terminals that the protective device stands between. */
function guarded(part: Placed, a: string, b: string): boolean {
  const p = part.ability.protects;
  return p !== undefined && ((p.from === a && p.to === b) || (p.from === b && p.to === a));
}

function contactLinks(part: Placed): readonly Link[] {
  const contacts = part.ability.switches?.contacts ?? [];
  return contacts
    .filter((c) => !guarded(part, c.from, c.to))
    .map((c) => {
      const shared = contacts.some((o) => o !== c && [o.from, o.to].some((t) => t === c.from || t === c.to));
      return link(part, refOf(part.id, c.from), refOf(part.id, c.to), 'contact', shared);
    });
}

function joinedLinks(op: Operation, part: Placed): readonly Link[] {
  const contacts = part.ability.switches?.contacts ?? [];
  const isContact = (a: string, b: string): boolean =>
    contacts.some((c) => (c.from === a && c.to === b) || (c.from === b && c.to === a));
  const pairs = (part.ability.conducts ?? []).filter(([a, b]) => !guarded(part, a, b) && !isContact(a, b));
  const senses = part.ability.senses;
  const shown: (readonly [string, string])[] = [...pairs];
  if (
    senses !== undefined &&
    !pairs.some(([a, b]) => [a, b].includes(senses.post) && [a, b].includes(senses.chassis))
  )
    shown.push([senses.post, senses.chassis]);
  const links = shown.map(([a, b]) => link(part, refOf(part.id, a), refOf(part.id, b), 'joined'));
  return [...links, ...barLinks(op, part)];
}

/** A bar or stud with any number of terminals is one conductor. */
function barLinks(op: Operation, part: Placed): readonly Link[] {
  if (part.kind.terminals(part.read).type !== 'numbered') return [];
  return [...(wiredEnds(op).get(part.id) ?? [])].map((end) => link(part, end, `${part.id}.*`, 'joined'));
}

/** Terminals of each part that have wires, in the order of the wires. */
const wiredEnds: (op: Operation) => ReadonlyMap<Id, ReadonlySet<TerminalRef>> = perOperation((op) => {
  const ends = new Map<Id, Set<TerminalRef>>();
  for (const w of op.wires.values()) {
    for (const end of [w.from, w.to]) {
      const part = partOf(end);
      const known = ends.get(part);
      if (known === undefined) ends.set(part, new Set([end]));
      else known.add(end);
    }
  }
  return ends;
});

function bodyLinks(op: Operation, part: Placed): readonly Link[] {
  const { grounds, bonds } = part.ability;
  const links: Link[] = [];
  if (grounds !== undefined && conductive(op, grounds.section))
    links.push(link(part, refOf(part.id, grounds.terminal), sectionNode(grounds.section), 'body'));
  if (bonds !== undefined) links.push(link(part, sectionNode(bonds.from), sectionNode(bonds.to), 'body'));
  return links;
}

/** Composite joins nothing. */
const conductive = (op: Operation, section: Id): boolean =>
  op.parts.get(section)?.ability.section?.medium !== 'composite';

function unwiredLinks(op: Operation, part: Placed): readonly Link[] {
  const wired = (terminal: string): boolean => op.wiresAt(refOf(part.id, terminal)).length > 0;
  const links: Link[] = [];
  for (const [terminal, other] of Object.entries(part.kind.unwired ?? {})) {
    if (!wired(terminal)) links.push(link(part, refOf(part.id, terminal), refOf(part.id, other), 'joined'));
  }
  const at = part.kind.atPostsWhenUnwired;
  if (at !== undefined && op.posts !== null && !wired(at.plus) && !wired(at.minus)) {
    links.push(link(part, refOf(part.id, at.plus), op.posts.plus, 'joined'));
    links.push(link(part, refOf(part.id, at.minus), op.posts.minus, 'joined'));
  }
  return links;
}

/** True when the part has no wire of its own and sits between the vehicle battery's posts. */
export function sitsAtPosts(op: Operation, part: Placed): boolean {
  const at = part.kind.atPostsWhenUnwired;
  if (at === undefined || op.posts === null) return false;
  return (
    op.wiresAt(refOf(part.id, at.plus)).length === 0 && op.wiresAt(refOf(part.id, at.minus)).length === 0
  );
}

/** Links of a wire or of a part's inside, in their order. */
export const linksOf = (net: Net, id: Id): readonly Link[] => linksById(net).get(id) ?? [];

const linksById = perKey((net: Net): ReadonlyMap<Id, readonly Link[]> => {
  const by = new Map<Id, Link[]>();
  for (const l of net.links) {
    const known = by.get(l.id);
    if (known === undefined) by.set(l.id, [l]);
    else known.push(l);
  }
  return by;
});

type At = (node: string) => readonly Link[];

/** All nodes reached from `start` along the links that `through` lets pass. */
export function flood(
  at: At,
  start: string,
  through: (link: Link, next: string) => boolean,
): ReadonlySet<string> {
  // A set is walked in the order in which it was filled: it is its own queue.
  const reached = new Set([start]);
  for (const node of reached) {
    for (const link of at(node)) {
      const next = across(link, node);
      if (!reached.has(next) && through(link, next)) reached.add(next);
    }
  }
  return reached;
}

const sides = perKey<Net, Map<string, ReadonlySet<string>>>(() => new Map());

/** All that is joined to a node on the side of the returns, or on the other, without the wire or part that is cut. */
export function oneSide(
  net: Net,
  start: string,
  onReturn: boolean,
  cut: Id | null = null,
): ReadonlySet<string> {
  const known = sides(net);
  const key = `${start} ${onReturn} ${cut ?? ''}`;
  let reached = known.get(key);
  if (reached === undefined) {
    reached = flood(net.at, start, (link, next) => link.id !== cut && net.isReturn(next) === onReturn);
    known.set(key, reached);
  }
  return reached;
}

/** On the side that is fed. */
export const fedSide = (net: Net, start: string, cut: Id | null = null): ReadonlySet<string> =>
  oneSide(net, start, false, cut);

/** With the current: where it can flow to. Against it: where it can come from. */
export type Flow = 'with' | 'against';

/** As `oneSide`, and past what lets current pass that way only. */
export function sidePast(
  net: Net,
  start: string,
  onReturn: boolean,
  flow: Flow,
  cut: Id | null = null,
): ReadonlySet<string> {
  if (net.valves.length === 0) return oneSide(net, start, onReturn, cut);
  const key = `${start} ${onReturn} ${flow} ${cut ?? ''}`;
  return sidesPast(net, key, () => walkedPast(net, start, onReturn, flow, cut));
}

const sidesPast = perName<ReadonlySet<string>>();

function walkedPast(
  net: Net,
  start: string,
  onReturn: boolean,
  flow: Flow,
  cut: Id | null,
): ReadonlySet<string> {
  const passed = net.valves.map(({ from, to }) =>
    flow === 'with' ? { near: from, far: to } : { near: to, far: from },
  );
  const reached = new Set<string>();
  const open = [start];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (reached.has(next)) continue;
    for (const node of oneSide(net, next, onReturn, cut)) reached.add(node);
    open.push(
      ...passed.flatMap(({ near, far }) =>
        reached.has(near) && net.isReturn(far) === onReturn ? [far] : [],
      ),
    );
  }
  return reached;
}

/** What can feed an end with the wire cut: as `fedSide`, and from behind what lets current pass towards it only. */
export const feeding = (net: Net, end: string, cut: Id | null = null): ReadonlySet<string> =>
  sidePast(net, end, false, 'against', cut);

function returnNodes(op: Operation, at: At): ReadonlySet<string> {
  // A change-over contact may join plus to one throw and the body to the other: it proves nothing about the return.
  const settled = returnsAlong(op, at, (link) => !link.changeOver);
  const plus = [...op.parts.values()].flatMap((p) => {
    const s = p.ability.stores;
    return s === undefined || lifted(op, p, at) ? [] : [refOf(p.id, s.plus)];
  });
  if (!plus.some((node) => settled.has(node))) return settled;
  // A contact that can short a battery: leave all contacts out rather than call its plus a return.
  return returnsAlong(op, at, (link) => link.type !== 'contact');
}

/** The battery's negative hangs on another battery's positive, or its positive on another's negative (a series stack). */
function lifted(op: Operation, part: Placed, at: At): boolean {
  const s = part.ability.stores;
  if (s === undefined) return false;
  const joins = (start: string, pole: 'plus' | 'minus'): boolean => {
    const reached = flood(at, start, (link) => !link.changeOver && link.type !== 'body');
    return [...op.parts.values()].some(
      (o) => o !== part && o.ability.stores !== undefined && reached.has(refOf(o.id, o.ability.stores[pole])),
    );
  };
  return joins(refOf(part.id, s.minus), 'plus') || joins(refOf(part.id, s.plus), 'minus');
}

function returnsAlong(op: Operation, at: At, through: (link: Link) => boolean): ReadonlySet<string> {
  const all = new Set<string>();
  const batteries = [...op.parts.values()].filter((p) => p.ability.stores !== undefined);
  const pluses = batteries.map((p) => ({ id: p.id, node: refOf(p.id, p.ability.stores?.plus ?? '+') }));
  for (const battery of batteries) {
    const reached = flood(at, refOf(battery.id, battery.ability.stores?.minus ?? '-'), through);
    const hung = pluses.some((p) => p.id !== battery.id && reached.has(p.node));
    if (!hung) for (const node of reached) all.add(node);
  }
  if (all.size === 0 && op.posts !== null)
    for (const node of flood(at, op.posts.minus, through)) all.add(node);
  return all;
}

/** Which batteries stand in series with each other: groups of ids, in the order of the document. */
export const stacksOf: (op: Operation) => readonly (readonly Id[])[] = perOperation((op) => {
  const net = netOf(op);
  const batteries = [...op.parts.values()].filter((p) => p.ability.stores !== undefined);
  const groups: Id[][] = [];
  for (const battery of batteries) {
    const minus = refOf(battery.id, battery.ability.stores?.minus ?? '-');
    const reached = net.isReturn(minus)
      ? new Set<string>()
      : flood(net.at, minus, (link, next) => !net.isReturn(next) && link.type !== 'body');
    const plus = refOf(battery.id, battery.ability.stores?.plus ?? '+');
    const mate = groups.find((group) =>
      group.some((id) => {
        const other = op.parts.get(id)?.ability.stores;
        if (other === undefined) return false;
        const otherMinus = refOf(id, other.minus);
        const up = net.isReturn(otherMinus)
          ? new Set<string>()
          : flood(net.at, otherMinus, (link, next) => !net.isReturn(next) && link.type !== 'body');
        return reached.has(refOf(id, other.plus)) || up.has(plus);
      }),
    );
    if (mate === undefined) groups.push([battery.id]);
    else mate.push(battery.id);
  }
  return groups;
});
