/**
 * Which end of a wire is drawn west and which east. Between places the forward end leaves east; inside a place current runs from
 * west to east, except that a chain of parts in line is turned where its end leaves towards the nose.
 */
import type { Id } from '../../contracts/index.ts';
import type { SubjectEnd, SubjectWire } from '../subject.ts';

/** True: drawn from `from` (west) to `to` (east). */
export type Orientation = ReadonlyMap<Id, boolean>;

/** Both ends of the current path that a terminal lies on in a part with two wires; null for anything else. */
export type InLine = (part: Id) => boolean;

interface Ends {
  readonly wire: SubjectWire;
  readonly part: Id;
}

export function orient(
  wires: readonly SubjectWire[],
  placeOf: (part: Id) => number,
  inLine: InLine,
): Orientation {
  const forward = new Map<Id, boolean>();
  const fixed: SubjectWire[] = [];
  for (const wire of wires) {
    const apart = placeOf(wire.from.part) - placeOf(wire.to.part);
    forward.set(wire.id, apart === 0 ? byDepth(wire) : apart < 0);
    if (apart !== 0) fixed.push(wire);
  }
  const at = wiresByPart(wires);
  const done = turnChains(at, fixed, forward, inLine);
  const runs: Run[] = [];
  for (const wire of wires) {
    if (done.has(wire.id)) continue;
    const chain = chainOf(wire, at, inLine);
    const agreed = chain.every((link) => !done.has(link.wire.id));
    if (agreed) agree(chain, forward);
    for (const link of chain) done.add(link.wire.id);
    runs.push(runOf(chain, forward, agreed));
  }
  const stiff = fixedRuns(wires, runs, placeOf, forward);
  withoutRings([...stiff, ...runs], forward);
  return forward;
}

type ByPart = ReadonlyMap<Id, readonly SubjectWire[]>;

function wiresByPart(wires: readonly SubjectWire[]): ByPart {
  const at = new Map<Id, SubjectWire[]>();
  for (const wire of wires) {
    for (const part of [wire.from.part, wire.to.part]) at.set(part, [...(at.get(part) ?? []), wire]);
  }
  return at;
}

const keyOf = (end: SubjectEnd): string => `${end.part}.${end.terminal}`;

function byDepth({ from, to, depth }: SubjectWire): boolean {
  if (depth.from !== depth.to) return depth.from < depth.to;
  return keyOf(from) < keyOf(to);
}

/** From each wire between places inwards along parts in line: what leaves west has its other wire east. Gives the wires settled. */
function turnChains(
  at: ByPart,
  fixed: readonly SubjectWire[],
  forward: Map<Id, boolean>,
  inLine: InLine,
): Set<Id> {
  const done = new Set(fixed.map((wire) => wire.id));
  const open: Ends[] = fixed.flatMap((wire) => [
    { wire, part: wire.from.part },
    { wire, part: wire.to.part },
  ]);
  for (let here = open.shift(); here !== undefined; here = open.shift()) {
    const { wire, part } = here;
    if (!inLine(part)) continue;
    const other = (at.get(part) ?? []).find((each) => each.id !== wire.id);
    if (other === undefined || done.has(other.id)) continue;
    const leavesEast = forward.get(wire.id) === (wire.from.part === part);
    // It leaves east with this wire, so the other one arrives from the west, and the other way round.
    forward.set(other.id, (other.to.part === part) === leavesEast);
    done.add(other.id);
    open.push({ wire: other, part: other.from.part === part ? other.to.part : other.from.part });
  }
  return done;
}

/** A wire with the way in which a walk along its chain passes it. */
interface Link {
  readonly wire: SubjectWire;
  /** The walk goes from its `from` to its `to`. */
  readonly along: boolean;
}

/** The whole run of wires through parts in line that a wire belongs to, from one end to the other. */
function chainOf(wire: SubjectWire, at: ByPart, inLine: InLine): readonly Link[] {
  const ahead = onward({ wire, along: true }, at, inLine);
  const behind = onward({ wire, along: false }, at, inLine);
  return [
    ...behind.toReversed().map((link) => ({ ...link, along: !link.along })),
    { wire, along: true },
    ...ahead,
  ];
}

function onward(start: Link, at: ByPart, inLine: InLine): readonly Link[] {
  const links: Link[] = [];
  const seen = new Set([start.wire.id]);
  for (let here: Link = start; ;) {
    const part = (here.along ? here.wire.to : here.wire.from).part;
    const next = inLine(part) ? (at.get(part) ?? []).find((each) => !seen.has(each.id)) : undefined;
    if (next === undefined) return links;
    here = { wire: next, along: next.from.part === part };
    seen.add(next.id);
    links.push(here);
  }
}

/** Inside one place a chain runs one way: from the end that is nearer to a source. */
function agree(chain: readonly Link[], forward: Map<Id, boolean>): void {
  const [first, last] = [chain[0], chain.at(-1)];
  if (first === undefined || last === undefined) return;
  const start = first.along ? first.wire.depth.from : first.wire.depth.to;
  const end = last.along ? last.wire.depth.to : last.wire.depth.from;
  const same = chain.every(({ wire, along }) => (forward.get(wire.id) === true) === along);
  const ahead = start === end ? same || forward.get(first.wire.id) === first.along : start < end;
  for (const { wire, along } of chain) forward.set(wire.id, along === ahead);
}

/** A chain as one step from its west end to its east end. */
interface Run {
  readonly west: Id;
  readonly east: Id;
  readonly wires: readonly SubjectWire[];
  /** It may be turned as a whole. */
  readonly free: boolean;
}

function runOf(chain: readonly Link[], forward: ReadonlyMap<Id, boolean>, free: boolean): Run {
  const [first, last] = [chain[0], chain.at(-1)];
  const start = first === undefined ? '' : (first.along ? first.wire.from : first.wire.to).part;
  const end = last === undefined ? '' : (last.along ? last.wire.to : last.wire.from).part;
  const ahead = first === undefined || forward.get(first.wire.id) === first.along;
  return {
    west: ahead ? start : end,
    east: ahead ? end : start,
    wires: chain.map((link) => link.wire),
    free,
  };
}

/** Wires inside a place that a chain from another place has settled. */
function fixedRuns(
  wires: readonly SubjectWire[],
  runs: readonly Run[],
  placeOf: (part: Id) => number,
  forward: ReadonlyMap<Id, boolean>,
): readonly Run[] {
  const running = new Set(runs.flatMap((run) => run.wires.map((wire) => wire.id)));
  return wires
    .filter((wire) => !running.has(wire.id) && placeOf(wire.from.part) === placeOf(wire.to.part))
    .map((wire) => runOf([{ wire, along: true }], forward, false));
}

/**
 * A ring of runs inside a place (charger to relay to charger) would be drawn as a loop around both: the run that closes it is
 * turned, so that the ring lies between two parts. Ways that more runs take are settled first.
 */
function withoutRings(runs: readonly Run[], forward: Map<Id, boolean>): void {
  const count = new Map<string, number>();
  const key = (run: Run): string => `${run.west}\n${run.east}`;
  for (const run of runs) count.set(key(run), (count.get(key(run)) ?? 0) + 1);
  const weight = (run: Run): number => (run.free ? 0 : 1000) + (count.get(key(run)) ?? 0);
  const first = (run: Run): string => run.wires.map((wire) => wire.id).toSorted()[0] ?? '';
  const after = new Map<Id, Id[]>();
  const order = runs.toSorted((a, b) => weight(b) - weight(a) || (first(a) < first(b) ? -1 : 1));
  for (const run of order) {
    const turned = run.free && run.west !== run.east && leadsTo(after, run.east, run.west);
    if (turned) for (const wire of run.wires) forward.set(wire.id, forward.get(wire.id) !== true);
    const [west, east] = turned ? [run.east, run.west] : [run.west, run.east];
    after.set(west, [...(after.get(west) ?? []), east]);
  }
}

function leadsTo(after: ReadonlyMap<Id, readonly Id[]>, from: Id, to: Id): boolean {
  const seen = new Set([from]);
  const open = [from];
  for (let here = open.pop(); here !== undefined; here = open.pop()) {
    if (here === to) return true;
    for (const next of after.get(here) ?? []) {
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(next);
    }
  }
  return false;
}
