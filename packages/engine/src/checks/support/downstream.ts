/** What lies behind a protective device: the wires that it protects, the loads that it feeds, the device before it. */
import type { Id, LaidWire, Operation, Placed } from '../../contracts/index.ts';
import { fedThrough } from './chargers.ts';
import { flood, netOf, type Net, type Valve } from './conductors.ts';
import { perKey, perOperation } from './memo.ts';
import { partOf, refOf } from './refs.ts';
import { sourcesOf, type Source } from './sources.ts';

export const devicesOf = (op: Operation): readonly Placed[] =>
  [...op.parts.values()].filter((p) => p.ability.protects !== undefined);

/** The device's two terminals. */
export function endsOf(part: Placed): readonly [string, string] {
  const p = part.ability.protects;
  return p === undefined ? ['', ''] : [refOf(part.id, p.from), refOf(part.id, p.to)];
}

export interface Side {
  readonly terminal: string;
  /** Nodes on this side, with the device itself cut. */
  readonly nodes: ReadonlySet<string>;
  /** Nodes up to the next devices. */
  readonly near: ReadonlySet<string>;
  /** Nodes on this side, and those behind a diode that passes towards them. */
  readonly onward: ReadonlySet<string>;
  /** What feeds this side, past a diode that passes towards it too. */
  readonly sources: readonly Source[];
}

/** Both sides of each device, the return left out. */
const sidesOf: (op: Operation) => ReadonlyMap<Id, readonly [Side, Side]> = perOperation((op) => {
  const map = new Map<Id, readonly [Side, Side]>();
  for (const part of devicesOf(op)) {
    const [a, b] = endsOf(part);
    map.set(part.id, [side(op, part.id, a), side(op, part.id, b)]);
  }
  return map;
});

type Nodes = Pick<Side, 'nodes' | 'near' | 'onward'> & { readonly feeding: ReadonlySet<string> };

const floods = perKey<Net, Map<string, Nodes>>(() => new Map());

function nodesOf(net: Net, device: Id, terminal: string): Nodes {
  const known = floods(net).get(terminal);
  if (known !== undefined) return known;
  const open = (next: string): boolean => !net.isReturn(next) && partOf(next) !== device;
  const joined = (start: string): ReadonlySet<string> =>
    flood(net.at, start, (link, next) => link.id !== device && open(next));
  const passes = net.valves.filter((v) => open(v.from) && open(v.to));
  const nodes = joined(terminal);
  const found = {
    nodes,
    onward: past(nodes, passes, joined),
    feeding: past(
      nodes,
      passes.map(({ from, to }) => ({ from: to, to: from })),
      joined,
    ),
    near: flood(net.at, terminal, (link, next) => link.type !== 'device' && open(next)),
  };
  floods(net).set(terminal, found);
  return found;
}

/** The nodes, and all that is joined to the far ends of what passes from them. */
function past(
  nodes: ReadonlySet<string>,
  passes: readonly Pick<Valve, 'from' | 'to'>[],
  joined: (start: string) => ReadonlySet<string>,
): ReadonlySet<string> {
  if (passes.length === 0) return nodes;
  const all = new Set(nodes);
  const next = (): string | undefined => passes.find((v) => all.has(v.from) && !all.has(v.to))?.to;
  for (let start = next(); start !== undefined; start = next())
    for (const node of joined(start)) all.add(node);
  return all;
}

function side(op: Operation, device: Id, terminal: string): Side {
  const { nodes, near, onward, feeding } = nodesOf(netOf(op), device, terminal);
  const sources = sourcesOf(op).filter((s) => !s.atPosts && feeding.has(s.terminal));
  return { terminal, nodes, near, onward, sources };
}

export const bothSides = (op: Operation, device: Id): readonly Side[] => sidesOf(op).get(device) ?? [];

/** Sides that a battery does not feed, or all where both are fed: what the device protects. */
export function fedSides(op: Operation, device: Id): readonly Side[] {
  const sides = bothSides(op, device);
  const [a, b] = sides;
  if (a === undefined || b === undefined) return [];
  const behind: Side[] = [];
  if (b.sources.some((s) => s.stiff)) behind.push(a);
  if (a.sources.some((s) => s.stiff)) behind.push(b);
  return behind;
}

/** The side behind the device as seen by the chargers that it feeds; null: it feeds none. */
export function chargerSide(op: Operation, device: Id): Side | null {
  const feeds = fedThrough(op, device);
  if (feeds.length === 0) return null;
  return (
    bothSides(op, device).find((s) =>
      feeds.some((f) => {
        const c = op.parts.get(f.charger)?.ability.converts;
        return c !== undefined && s.onward.has(refOf(f.charger, c.inPlus));
      }),
    ) ?? null
  );
}

/** Wires of a side up to the next device. */
export function wiresNear(op: Operation, near: ReadonlySet<string>): readonly LaidWire[] {
  return [...op.wires.values()].filter((w) => near.has(w.from) && near.has(w.to));
}

/** Loads on a side. */
export function loadsOn(op: Operation, nodes: ReadonlySet<string>): readonly Placed[] {
  return [...op.parts.values()].filter((p) => {
    const c = p.ability.consumes;
    return c !== undefined && nodes.has(refOf(p.id, c.plus));
  });
}
