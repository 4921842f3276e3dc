/** The sustained current that protective devices and self-limiting sources allow into a wire: a greatest flow. */
import type { Basis, Id, LaidWire, Need, Operation } from '../../contracts/index.ts';
import { maxFlow, type FlowLink } from '../../devices/max-flow.ts';
import { exposuresOf } from './exposure.ts';
import { distinctNeeds, partNeed } from './figures-needed.ts';
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
  const rows = rowsFor(op, wire.id);
  const ends = [wire.from, wire.to].map((end) => flowInto(rows, end));
  const best = ends.reduce((a, b) => (b.amps > a.amps ? b : a));
  return best.amps > 0 ? best : null;
}

function rowsFor(op: Operation, wire: Id): readonly Row[] {
  const net = netOf(op);
  const bare = new Set(
    exposuresOf(op)
      .filter((e) => e.wire === wire && e.source.stiff)
      .map((e) => e.source.part),
  );
  const rows: Row[] = [];
  for (const link of net.links) {
    if ((link.type === 'wire' && link.id === wire) || net.isReturn(link.a) || net.isReturn(link.b)) continue;
    rows.push(linkRow(op, link));
  }
  for (const source of sourcesOf(op)) {
    if (!source.atPosts && !bare.has(source.part) && !net.isReturn(source.terminal))
      rows.push(sourceRow(source));
  }
  return rows;
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

function flowInto(rows: readonly Row[], end: string): Sustained {
  const flow = maxFlow(
    rows.map((row) => row.link),
    START,
    end,
  );
  if (!Number.isFinite(flow.total))
    return { amps: Infinity, limits: [], missing: distinctNeeds(blamed(rows, end)) };
  const limits = flow.limiting.map((i) => rows[i]?.limit ?? null).filter((l) => l !== null);
  return { amps: flow.total, limits, missing: [] };
}

/** The unknown devices and sources without which the flow would be limited: those that lie on an unlimited way. */
function blamed(rows: readonly Row[], end: string): readonly Need[] {
  const unknown = rows.filter((row) => row.missing !== null);
  const counts = unknown.filter((row) => {
    const shut = rows.map((other) =>
      unknown.includes(other) && other !== row ? { ...other.link, capacity: 0 } : other.link,
    );
    return !Number.isFinite(maxFlow(shut, START, end).total);
  });
  return (counts.length > 0 ? counts : unknown).map((row) => row.missing).filter((n) => n !== null);
}
