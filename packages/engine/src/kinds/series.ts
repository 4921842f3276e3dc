/** Batteries in series: which share of their system's volts each of them is. */
import type { Build, Id, Part, Registry, TerminalRef } from '../contracts/index.ts';

type Drawn = Pick<Build, 'parts' | 'wires'>;

type Kinds = Registry['kinds'];

interface Counted {
  readonly wires: Drawn['wires'];
  readonly kinds: Kinds;
  readonly counts: ReadonlyMap<Id, number>;
}

/** Numbers of batteries in series by part, worked out once for a build. */
const known = new WeakMap<Drawn['parts'], Counted>();

/**
 * How many batteries of its own system stand in series with the battery, itself counted: 1 when it stands alone or beside
 * others. Wires lead on, and so do kinds that say it of themselves; a supply, a charger or a load ends the way.
 */
export function inSeries(part: Part, build: Drawn, kinds: Kinds): number {
  let counted = known.get(build.parts);
  if (counted?.wires !== build.wires || counted.kinds !== kinds) {
    counted = { wires: build.wires, kinds, counts: countAll(build, kinds) };
    known.set(build.parts, counted);
  }
  return counted.counts.get(part.id) ?? 1;
}

function countAll(build: Drawn, kinds: Kinds): ReadonlyMap<Id, number> {
  const batteries = [...build.parts.values()].filter((p) => p.kind === 'battery');
  if (batteries.length < 2) return new Map();
  const nodeOf = joined(build, kinds);
  const above = (lower: Part): readonly Part[] =>
    batteries.filter(
      (upper) =>
        upper !== lower &&
        systemOf(upper) === systemOf(lower) &&
        nodeOf(`${lower.id}.+`) === nodeOf(`${upper.id}.-`),
    );
  const below = (upper: Part): readonly Part[] => batteries.filter((lower) => above(lower).includes(upper));
  return new Map(
    batteries.map((b) => [b.id, 1 + deepest(b, above, new Set()) + deepest(b, below, new Set())]),
  );
}

/** Length of the longest chain onwards; a ring of batteries (nonsense) ends it. */
function deepest(from: Part, next: (part: Part) => readonly Part[], passed: ReadonlySet<Id>): number {
  if (passed.has(from.id)) return 0;
  const here = new Set([...passed, from.id]);
  return next(from).reduce(
    (most, part) => Math.max(most, here.has(part.id) ? 0 : 1 + deepest(part, next, here)),
    0,
  );
}

const systemOf = (battery: Part): unknown => battery.fields['system'] ?? battery.fields['role'];

/** The node that a terminal belongs to, by the name of one of its terminals. */
function joined(build: Drawn, kinds: Kinds): (terminal: TerminalRef) => TerminalRef {
  const up = new Map<TerminalRef, TerminalRef>();
  const root = (terminal: TerminalRef): TerminalRef => {
    let at = terminal;
    for (let next = up.get(at); next !== undefined; next = up.get(at)) at = next;
    return at;
  };
  const join = (a: TerminalRef, b: TerminalRef): void => {
    const [rootA, rootB] = [root(a), root(b)];
    if (rootA !== rootB) up.set(rootA, rootB);
  };
  for (const wire of build.wires.values()) {
    join(wire.from, wire.to);
    for (const end of [wire.from, wire.to]) {
      const id = end.slice(0, end.indexOf('.'));
      if (kinds.get(build.parts.get(id)?.kind ?? '')?.leadsOn === true) join(end, id);
    }
  }
  return root;
}
