/** The sustained current that protective devices and self-limiting sources allow into a wire: a greatest flow. */
import type { Basis, Id, LaidWire, Need, Operation } from '../../contracts/index.ts';
import { FlowNet, type FlowLink } from '../../devices/max-flow.ts';
import { exposuresOf } from './exposure.ts';
import { distinctNeeds, partNeed } from './figures-needed.ts';
import { perOperation } from './memo.ts';
import { netOf, type Link } from './conductors.ts';
import { mostFrom, sourcesOf, type Source } from './sources.ts';

/** What limits a flow. */
export interface FlowLimit {
  readonly label: string;
  readonly amps: number;
  readonly basis: Basis;
  readonly part: Id;
}

export interface Sustained {
  /** A; Infinity when a device of unknown rating or a source of unknown limit stands in the way. */
  readonly amps: number;
  readonly limits: readonly FlowLimit[];
  readonly missing: readonly Need[];
}

interface Row {
  readonly link: FlowLink;
  readonly limit: FlowLimit | null;
  readonly missing: Need | null;
}

const START = '^sources';

/**
 * For each end of the wire what the devices upstream let in there with the wire cut at its other end; the greater of the two.
 * Batteries that reach the wire before any device are left out: the reach of protection judges those. null: nothing feeds it.
 */
export function sustainedInto(op: Operation, wire: LaidWire): Sustained | null {
  const known = sustained(op);
  let flow = known.get(wire.id);
  if (flow === undefined) {
    flow = into(op, wire);
    known.set(wire.id, flow);
  }
  return flow;
}

const sustained: (op: Operation) => Map<Id, Sustained | null> = perOperation(() => new Map());

function into(op: Operation, wire: LaidWire): Sustained | null {
  const all = allOf(op);
  const left = leftOut(op, wire.id);
  const ends = thrown(all.throws).flatMap((open) => {
    const without = open.length === 0 ? left : new Set([...left, ...open]);
    return [wire.from, wire.to].map((end) => flowInto(all, end, without));
  });
  const best = ends.reduce((a, b) => (b.amps > a.amps ? b : a));
  return best.amps > 0 ? best : null;
}

/** More change-over contacts than these count as closed both ways: each doubles the questions. */
const MOST_THROWN = 4;

/** The rows that stand open in each position of all change-over contacts: one of the contacts at a common terminal is closed. */
function thrown(contacts: Rows['throws']): readonly (readonly number[])[] {
  return contacts
    .slice(0, MOST_THROWN)
    .reduce<readonly (readonly number[])[]>(
      (before, rows) =>
        before.flatMap((open) => rows.map((closed) => [...open, ...rows.filter((row) => row !== closed)])),
      [[]],
    );
}

interface Rows {
  readonly rows: readonly Row[];
  /** Rows of the contacts at each common terminal of change-over contacts. */
  readonly throws: readonly (readonly number[])[];
  /** Rows of each wire and of each source. */
  readonly byWire: ReadonlyMap<Id, readonly number[]>;
  readonly bySource: ReadonlyMap<Id, readonly number[]>;
  readonly net: FlowNet;
}

/** All links and sources on the side that is fed. */
const allOf: (op: Operation) => Rows = perOperation((op) => {
  const net = netOf(op);
  const rows: Row[] = [];
  const [byWire, bySource] = [new Map<Id, number[]>(), new Map<Id, number[]>()];
  const throwsAt: Thrown[] = [];
  const add = (row: Row, to: Map<Id, number[]>, id: Id): void => {
    to.set(id, [...(to.get(id) ?? []), rows.length]);
    rows.push(row);
  };
  for (const link of net.links) {
    if (net.isReturn(link.a) || net.isReturn(link.b)) continue;
    if (link.type === 'wire') add(linkRow(op, link), byWire, link.id);
    else {
      if (link.changeOver) throwsAt.push({ link, row: rows.length });
      rows.push(linkRow(op, link));
    }
  }
  for (const { from, to } of net.valves) {
    const link = { a: from, b: to, capacity: Infinity, oneWay: true };
    if (!net.isReturn(from) && !net.isReturn(to)) rows.push({ link, limit: null, missing: null });
  }
  for (const source of sourcesOf(op)) {
    if (!source.atPosts && !net.isReturn(source.terminal)) add(sourceRow(source), bySource, source.part);
  }
  const throws = byCommon(throwsAt);
  return { rows, throws, byWire, bySource, net: new FlowNet(rows.map((row) => row.link)) };
});

/** A contact of a change-over part, and its row. */
interface Thrown {
  readonly link: Link;
  readonly row: number;
}

/** Rows of the contacts that share a terminal, where at least two do. */
function byCommon(contacts: readonly Thrown[]): readonly (readonly number[])[] {
  const at = new Map<string, number[]>();
  for (const { link, row } of contacts)
    for (const node of [link.a, link.b]) at.set(node, [...(at.get(node) ?? []), row]);
  return [...at.values()].filter((rows) => rows.length > 1);
}

/** The wire itself, and the batteries that reach it before any device. */
function leftOut(op: Operation, wire: Id): ReadonlySet<number> {
  const { byWire, bySource } = allOf(op);
  const bare = exposuresOf(op).filter((e) => e.wire === wire && e.source.stiff);
  return new Set([
    ...(byWire.get(wire) ?? []),
    ...bare.flatMap(({ source }) => bySource.get(source.part) ?? []),
  ]);
}

function linkRow(op: Operation, link: Link): Row {
  const ends = { a: link.a, b: link.b };
  const protects = link.type === 'device' ? op.parts.get(link.id)?.ability.protects : undefined;
  if (protects === undefined) return { link: { ...ends, capacity: Infinity }, limit: null, missing: null };
  const rating = protects.rating;
  if (rating === null)
    return {
      link: { ...ends, capacity: Infinity },
      limit: null,
      missing: partNeed(link.id, 'rating', 'what it allows into the wires behind it is not known'),
    };
  const limit = { label: link.id, amps: rating.sourced.value, basis: rating, part: link.id };
  return { link: { ...ends, capacity: rating.sourced.value }, limit, missing: null };
}

function sourceRow(source: Source): Row {
  const basis = source.limit ?? source.upstreamFuse;
  const link = {
    a: START,
    b: source.terminal,
    capacity: source.stiff ? Infinity : mostFrom(source),
    oneWay: true,
  };
  if (source.stiff || basis === null)
    return { link, limit: null, missing: source.stiff ? null : source.missing };
  return {
    link,
    limit: { label: source.part, amps: basis.sourced.value, basis, part: source.part },
    missing: null,
  };
}

function flowInto({ rows, net }: Rows, end: string, without: ReadonlySet<number>): Sustained {
  const flow = net.flow(START, end, without);
  if (!Number.isFinite(flow.total)) {
    const missing = blamed({ rows, net }, end, without);
    return { amps: Infinity, limits: [], missing: distinctNeeds(missing) };
  }
  const limits = flow.limiting.map((i) => rows[i]?.limit ?? null).filter((l) => l !== null);
  return { amps: flow.total, limits, missing: [] };
}

/** The unknown devices and sources without which the flow would be limited: those that lie on an unlimited way. */
function blamed(
  { rows, net }: Pick<Rows, 'rows' | 'net'>,
  end: string,
  without: ReadonlySet<number>,
): readonly Need[] {
  const unknown = rows.flatMap((row, i) => (row.missing === null || without.has(i) ? [] : [i]));
  const counts = unknown.filter((one) => {
    const shut = new Set([...without, ...unknown.filter((other) => other !== one)]);
    return !Number.isFinite(net.flow(START, end, shut).total);
  });
  return (counts.length > 0 ? counts : unknown).flatMap((i) => rows[i]?.missing ?? []);
}
