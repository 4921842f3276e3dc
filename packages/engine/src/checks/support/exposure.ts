/**
 * Conductors that a source reaches before any protective device: the walk of the reach rule. The distance runs along the
 * conductors from the source's terminal to the far end of the wire (studs, bars, isolators and relays do not stop the walk).
 */
import type { Basis, Id, LaidWire, Operation, Practice, TerminalRef } from '../../contracts/index.ts';
import { againstAmpacity, type AmpacityVerdict } from './ampacity.ts';
import { perOperation, perPractice } from './memo.ts';
import { across, feeding, netOf, type Link, type Net } from './conductors.ts';
import { otherEnd, partOf, placedAt } from './refs.ts';
import { sourcesOf, type Source } from './sources.ts';
import { atMost } from './short-text.ts';

export interface Exposure {
  readonly wire: Id;
  readonly source: Source;
  /** End by which it is reached. */
  readonly near: TerminalRef;
  readonly far: TerminalRef;
  /** m from the source's terminal to the far end of the wire. */
  readonly distance: number;
  /** Wires on the way, this one last. */
  readonly way: readonly Id[];
}

/** All that a source reaches before any protective device. */
interface Walk {
  readonly source: Source;
  readonly reached: ReadonlyMap<string, Here>;
}

/** In the order of the sources; sources at the vehicle battery's posts are spoken for by it. */
const walksOf: (op: Operation) => readonly Walk[] = perOperation((op) => {
  const net = netOf(op);
  return sourcesOf(op)
    .filter((s) => !s.atPosts && !net.isReturn(s.terminal))
    .map((source) => ({ source, reached: walk(op, net, source) }));
});

/** Wires reached from each source, in the order of the sources. */
export const exposuresOf: (op: Operation) => readonly Exposure[] = perOperation((op) =>
  walksOf(op).flatMap(({ source, reached }) => exposed(op, netOf(op), source, reached)),
);

/** A source that gives no more than a wire carries: its own limit, or that of the fuse before its terminal. */
export interface OwnLimit {
  readonly basis: Basis;
  readonly verdict: AmpacityVerdict;
}

/** null: the source may burn the wire, so the wire needs a device. */
export function ownLimit(op: Operation, wire: LaidWire, source: Source): OwnLimit | null {
  const basis = source.limit ?? source.upstreamFuse;
  if (source.stiff || basis === null) return null;
  const known = limitsOf(op);
  const key = `${wire.id} ${source.terminal}`;
  let own = known.get(key);
  if (own === undefined) {
    const verdict = againstAmpacity(op, wire, basis.sourced.value);
    own = verdict.holds === true ? { basis, verdict } : null;
    known.set(key, own);
  }
  return own;
}

const limitsOf: (op: Operation) => Map<string, OwnLimit | null> = perOperation(() => new Map());

interface Here {
  readonly node: string;
  readonly distance: number;
  readonly way: readonly Id[];
}

export const lengthOf = (op: Operation, wire: Id): number => op.wires.get(wire)?.length?.sourced.value ?? 0;

/** Nearest first (Dijkstra). */
function walk(op: Operation, net: Net, source: Source): ReadonlyMap<string, Here> {
  const done = new Map<string, Here>();
  const open: Here[] = [{ node: source.terminal, distance: 0, way: [] }];
  for (let here = takeNearest(open); here !== undefined; here = takeNearest(open)) {
    if (done.has(here.node)) continue;
    done.set(here.node, here);
    for (const link of net.at(here.node)) {
      const next = step(op, net, here, link);
      if (next !== null && !done.has(next.node)) open.push(next);
    }
    const passed = net.valves.filter((v) => v.from === here.node && !net.isReturn(v.to));
    open.push(...passed.map((v) => ({ ...here, node: v.to })));
  }
  return done;
}

function takeNearest(open: Here[]): Here | undefined {
  let best = 0;
  open.forEach((here, i) => {
    if (here.distance < (open[best]?.distance ?? Number.POSITIVE_INFINITY)) best = i;
  });
  return open.splice(best, 1)[0];
}

function step(op: Operation, net: Net, here: Here, link: Link): Here | null {
  if (link.type === 'device') return null;
  const node = across(link, here.node);
  if (net.isReturn(node)) return null;
  if (link.type !== 'wire') return { node, distance: here.distance, way: here.way };
  return { node, distance: here.distance + lengthOf(op, link.id), way: [...here.way, link.id] };
}

/** Every wire met is recorded from the nearer of its ends. */
function exposed(
  op: Operation,
  net: Net,
  source: Source,
  done: ReadonlyMap<string, Here>,
): readonly Exposure[] {
  const found: Exposure[] = [];
  for (const wire of op.wires.values()) {
    if (net.isReturn(wire.from) || net.isReturn(wire.to)) continue;
    const from = done.get(wire.from);
    const to = done.get(wire.to);
    const near = nearer(from, to);
    if (near === undefined) continue;
    found.push({
      wire: wire.id,
      source,
      near: near.node,
      far: otherEnd(wire, near.node),
      distance: near.distance + lengthOf(op, wire.id),
      way: [...near.way, wire.id],
    });
  }
  return found;
}

function nearer(a: Here | undefined, b: Here | undefined): Here | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  return a.distance <= b.distance ? a : b;
}

/** How far a device may be, and on which figure that rests. */
export interface Allowed {
  readonly basis: Basis;
  readonly covered: boolean;
}

/** The distances that a practice allows for a way along these wires, best founded first. */
export function allowedFor(op: Operation, practice: Practice, way: readonly Id[]): readonly Allowed[] {
  const covered = way.every((id) => isCovered(op, op.wires.get(id)));
  const first = op.figure(covered ? practice.reach.sheathed : practice.reach.plain);
  const doubtful = practice.reach.doubtful === null ? null : op.figure(practice.reach.doubtful);
  const rows: Allowed[] = [{ basis: first, covered }];
  if (doubtful !== null && doubtful.sourced.value > first.sourced.value)
    rows.push({ basis: doubtful, covered: false });
  return rows;
}

function isCovered(op: Operation, wire: LaidWire | undefined): boolean {
  if (wire === undefined) return false;
  if (wire.sheathed) return true;
  return wire.places.length > 0 && wire.places.every((id) => op.build.places.get(id)?.enclosed === true);
}

/** The basis by which a distance is allowed; null: it is not. */
export function allowing(rows: readonly Allowed[], distance: number): Allowed | null {
  return rows.find((row) => atMost(distance, row.basis.sourced.value)) ?? null;
}

export interface Tap {
  readonly wire: Id;
  /** Where it leaves the larger conductor, stud or bar. */
  readonly near: TerminalRef;
  /** Its own device. */
  readonly device: Id;
  readonly distance: number;
  readonly leaves: string;
}

/**
 * Wires that leave a stud, a bar or a larger conductor and end at their own device, at any distance; only where the point that
 * they leave lies behind a protective device as seen from every source that reaches it. A source that limits itself to what
 * the conductors up to that point carry counts as protected.
 */
export const tapCandidates: (op: Operation) => readonly Tap[] = perOperation((op) => {
  const net = netOf(op);
  const taps: Tap[] = [];
  for (const wire of op.wires.values()) {
    if (wire.length === null || net.isReturn(wire.from) || net.isReturn(wire.to)) continue;
    const ends = [wire.to, wire.from].map((far) => tapAt(op, wire, otherEnd(wire, far), far, wire.length));
    const tap = ends.find((t) => t !== null) ?? null;
    if (tap !== null) taps.push(tap);
  }
  return taps;
});

/** A source whose own limit every wire on its way carries for good is to them what a device is. */
function reachesBare(op: Operation, { source, reached }: Walk, node: string): boolean {
  const here = reached.get(node);
  if (here === undefined) return false;
  if (source.stiff || (source.limit ?? source.upstreamFuse) === null) return true;
  return here.way.some((id) => {
    const wire = op.wires.get(id);
    return wire === undefined || ownLimit(op, wire, source) === null;
  });
}

function tapAt(
  op: Operation,
  wire: LaidWire,
  near: TerminalRef,
  far: TerminalRef,
  length: Basis | null,
): Tap | null {
  if (length === null || placedAt(op, far)?.ability.protects === undefined) return null;
  const leaves = tapPoint(op, wire, near);
  const bare = walksOf(op).some((w) => reachesBare(op, w, near));
  return leaves === null || bare || !isFedFrom(op, wire, near, far)
    ? null
    : { wire: wire.id, near, device: partOf(far), distance: length.sourced.value, leaves };
}

/** What flows into the wire comes in at `near`: behind a device that feeds it from its far end it is no tap. */
function isFedFrom(op: Operation, wire: LaidWire, near: TerminalRef, far: TerminalRef): boolean {
  const here = sourcesBehind(op, wire, near);
  return here.some(isStiff) || (here.length > 0 && !sourcesBehind(op, wire, far).some(isStiff));
}

/** Sources on one side of the wire, past devices and contacts. */
function sourcesBehind(op: Operation, wire: LaidWire, end: TerminalRef): readonly Source[] {
  const reached = feeding(netOf(op), end, wire.id);
  return sourcesOf(op).filter((s) => !s.atPosts && reached.has(s.terminal));
}

const isStiff = (source: Source): boolean => source.stiff;

/** Taps whose own device is within the permitted distance. */
export const tapsOf: (op: Operation, practice: Practice) => ReadonlyMap<Id, Tap> = perPractice(
  (op, practice) =>
    new Map(
      tapCandidates(op)
        .filter((tap) => allowing(allowedFor(op, practice, [tap.wire]), tap.distance) !== null)
        .map((tap) => [tap.wire, tap]),
    ),
);

/** What the wire leaves at this end, in words; null: it is no tap there. */
function tapPoint(op: Operation, wire: LaidWire, near: TerminalRef): string | null {
  const part = placedAt(op, near);
  if (part === null) return null;
  // The terminal of another device is a stud too.
  if (part.kind.terminals(part.read).type === 'numbered' || part.ability.protects !== undefined)
    return part.label;
  const larger = op
    .wiresAt(near)
    .map((id) => op.wires.get(id))
    .find(
      (w) =>
        w !== undefined &&
        w.id !== wire.id &&
        (w.areaMm2 ?? Number.POSITIVE_INFINITY) > (wire.areaMm2 ?? Number.POSITIVE_INFINITY),
    );
  return larger === undefined ? null : `${larger.id} at ${part.label}`;
}

/**
 * Wires whose distance is their verdict: exempt from rating, clearing and the rating window. Reached unprotected only within
 * the permitted distance, or a tap.
 */
export const exemptWires: (op: Operation, practice: Practice) => ReadonlySet<Id> = perPractice(
  (op, practice) => {
    const exempt = new Set<Id>(tapsOf(op, practice).keys());
    const stiff = exposuresOf(op).filter((e) => e.source.stiff);
    for (const wire of new Set(stiff.map((e) => e.wire))) {
      const all = stiff.filter((e) => e.wire === wire);
      const within = all.every((e) => allowing(allowedFor(op, practice, e.way), e.distance) !== null);
      const known = all.every((e) => e.way.every((id) => op.wires.get(id)?.length !== null));
      if (within && known) exempt.add(wire);
    }
    return exempt;
  },
);
