/** Parts with their kinds' answers; the parts every vehicle has are added where the document has none. */
import type {
  Basis,
  Build,
  FieldTable,
  Id,
  Kind,
  Part,
  Placed,
  Registry,
  StateId,
  TerminalRef,
  VehicleFacts,
} from '../contracts/index.ts';
import type { Values } from '../devices/values.ts';
import { fieldContext } from '../kinds/context.ts';

export interface PlacedParts {
  readonly parts: ReadonlyMap<Id, Placed>;
  readonly vehicle: VehicleFacts;
  /** + and - of the vehicle battery (or series stack). */
  readonly posts: { readonly plus: TerminalRef; readonly minus: TerminalRef } | null;
  /** Terminals with at least one wire. */
  readonly wired: ReadonlyMap<TerminalRef, readonly Id[]>;
}

export function placeParts(
  build: Build,
  registry: Registry,
  values: Values,
  factsOf: (hasBattery: boolean) => VehicleFacts,
): PlacedParts {
  const parts = new Map<Id, Placed>();
  for (const part of build.parts.values()) parts.set(part.id, place(part, build, registry, values, false));
  const stacked = [...parts.values()].filter((p) => p.ability.stores?.role === 'vehicle');
  const vehicle = factsOf(stacked.length > 0);
  const present = new Set([...parts.values()].map((p) => p.kind));
  for (const kind of registry.kinds.values()) {
    if (kind.implied?.(vehicle) !== true || present.has(kind)) continue;
    const id = freeName(kind, parts);
    parts.set(id, place({ id, kind: kind.name, fields: {} }, build, registry, values, true));
  }
  return { parts, vehicle, posts: postsOf(stacked, build), wired: wiredTerminals(build) };
}

const tables = new WeakMap<FieldTable, WeakMap<Kind, FieldTable>>();

/** All fields of a kind's parts; put together once. */
function fieldsOf({ common }: Registry, kind: Kind): FieldTable {
  let known = tables.get(common);
  if (known === undefined) {
    known = new WeakMap();
    tables.set(common, known);
  }
  let table = known.get(kind);
  if (table === undefined) {
    table = { ...common, ...kind.fields };
    known.set(kind, table);
  }
  return table;
}

function place(part: Part, build: Build, registry: Registry, values: Values, implied: boolean): Placed {
  const kind = registry.kinds.get(part.kind);
  if (kind === undefined) throw new Error(`the reader lets no unknown kind through: ${part.kind}`);
  const label = typeof part.fields['label'] === 'string' ? part.fields['label'] : part.id;
  const read = values.reader(
    `parts.${part.id}`,
    part.id,
    fieldsOf(registry, kind),
    part.fields,
    fieldContext(part, build, registry.kinds),
  );
  return { id: part.id, kind, at: part.at ?? null, implied, read, ability: kind.abilities(read), label };
}

function freeName(kind: Kind, parts: ReadonlyMap<Id, Placed>): Id {
  const plain = kind.name;
  return parts.has(plain) ? `vehicle-${plain}` : plain;
}

const wired = new WeakMap<Build, ReadonlyMap<TerminalRef, readonly Id[]>>();

/** The same under every assumption. */
function wiredTerminals(build: Build): ReadonlyMap<TerminalRef, readonly Id[]> {
  const known = wired.get(build);
  if (known !== undefined) return known;
  const map = new Map<TerminalRef, Id[]>();
  for (const wire of build.wires.values()) {
    for (const end of [wire.from, wire.to]) {
      const list = map.get(end);
      if (list === undefined) map.set(end, [wire.id]);
      else list.push(wire.id);
    }
  }
  wired.set(build, map);
  return map;
}

const plus = (p: Placed): TerminalRef => `${p.id}.${p.ability.stores?.plus ?? '+'}`;
const minus = (p: Placed): TerminalRef => `${p.id}.${p.ability.stores?.minus ?? '-'}`;

/** Of several vehicle batteries in series: the lowest - and the highest +. */
function postsOf(batteries: readonly Placed[], build: Build): PlacedParts['posts'] {
  const first = batteries[0];
  if (first === undefined) return null;
  const joined = (a: TerminalRef, b: TerminalRef): boolean =>
    [...build.wires.values()].some((w) => (w.from === a && w.to === b) || (w.from === b && w.to === a));
  const lowest = batteries.find((p) => !batteries.some((q) => q !== p && joined(minus(p), plus(q)))) ?? first;
  const highest =
    batteries.find((p) => !batteries.some((q) => q !== p && joined(plus(p), minus(q)))) ?? first;
  return { plus: plus(highest), minus: minus(lowest) };
}

/** A supply point that the document calls neither live nor dead in a state. */
export function unknownAt(p: Placed, state: StateId): boolean {
  const s = p.ability.signals;
  if (s === undefined) return false;
  return !s.live.has(state) && s.dead !== 'others' && !s.dead.has(state);
}

/** Shorthand for values that are certain to exist. */
export function certain(basis: Basis | null, what: string): Basis {
  if (basis === null) throw new Error(`no value and no default: ${what}`);
  return basis;
}
