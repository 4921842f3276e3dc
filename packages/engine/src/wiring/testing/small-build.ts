/** Builds for the tests of this room: places, routes, parts and wires written short. */
import type { Build, Given, Id, Part, Place, Route, Wire } from '../../contracts/index.ts';
import { parseSize } from '../../quantity/index.ts';

export const given = (value: number, band?: readonly [number, number]): Given => ({
  value,
  text: String(value),
  ...(band === undefined ? {} : { band }),
});

export const place = (id: Id, over: Partial<Place> = {}): Place => ({
  id,
  engineSpace: false,
  enclosed: false,
  wet: false,
  gasOrFuel: false,
  living: false,
  crashZone: false,
  ...over,
});

export const route = (from: Id, to: Id, metres: number | null, over: Partial<Route> = {}): Route => ({
  from,
  to,
  in: 'free',
  ...(metres === null ? {} : { length: given(metres) }),
  ...over,
});

/** A wire between two terminals, its size as typed. */
export function wire(id: Id, from: string, to: string, size: string, over: Partial<Wire> = {}): Wire {
  const found = parseSize(size);
  if (!found.ok) throw new Error(found.message);
  return { id, from, to, size: found.size, material: 'copper', sheathed: false, ...over };
}

export interface Small {
  readonly places?: readonly Place[];
  readonly routes?: readonly Route[];
  /** Part -> place. */
  readonly at?: Readonly<Record<Id, Id>>;
  readonly wires?: readonly Wire[];
  readonly over?: Partial<Build>;
}

export function smallBuild({ places = [], routes = [], at = {}, wires = [], over = {} }: Small): Build {
  const parts = Object.entries(at).map(([id, where]): [Id, Part] => [
    id,
    { id, kind: 'stud', at: where, fields: {} },
  ]);
  return {
    format: 1,
    title: 'test',
    systems: { vehicle: 12, house: 12 },
    vehicle: {},
    units: 'metric',
    climate: {},
    settings: { resistanceAt: 'predicted', faultContact: null, meter: null, allowance: null },
    survey: new Map(),
    places: new Map(places.map((p) => [p.id, p])),
    routes,
    parts: new Map(parts),
    wires: new Map(wires.map((w) => [w.id, w])),
    requires: [],
    aside: [],
    measured: [],
    confirmed: [],
    stock: { sizes: [], fuses: [], lugs: [] },
    ...over,
  };
}
