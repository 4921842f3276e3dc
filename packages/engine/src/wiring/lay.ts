/** Wires as laid: way, length, resistance, insulation, air; derived from the build, never written back to it. */
import type {
  Basis,
  Build,
  Given,
  Id,
  LaidWire,
  Route,
  Segment,
  Sourced,
  TerminalRef,
  Wire,
} from '../contracts/index.ts';
import type { Values } from '../devices/values.ts';
import type { Size } from '../quantity/size.ts';
import { airAt } from './ambient.ts';
import { material } from './material.ts';
import { shortestWay, wayThrough, type Ground, type Way } from './ways.ts';

/** Cut length added at each end of a wire whose length is found along routes, m. */
const ALLOWANCE: Sourced = {
  value: 0.15,
  unit: 'm',
  prov: 'practice',
  band: [0.1, 0.2],
  source: 'common practice, no source',
};

/** Resistance of a crimped and bolted joint, Ω; the band is twice and half. */
const JOINT: Sourced = {
  value: 0.05e-3,
  unit: 'Ω',
  prov: 'memory',
  band: [0.025e-3, 0.1e-3],
  source: 'good bolted lug joint, to be measured',
};

/** A wire of which only the length is known lies free up to this length, m; longer it may lie in a loom. */
const FREE_UP_TO = 0.3;

/** All wires of a build as laid, in the order of the document. */
export function layWires(build: Build, values: Values): ReadonlyMap<Id, LaidWire> {
  const ground = groundOf(build, values);
  return new Map([...build.wires].map(([id, wire]) => [id, layWire(build, values, wire, ground)]));
}

interface Laying extends Ground {
  readonly lengths: readonly (Basis | null)[];
  readonly nominal: readonly (number | null)[];
}

function groundOf(build: Build, values: Values): Laying {
  const lengths = build.routes.map((route, i) =>
    values.resolve(`routes.${i}.length`, route.length, null, {
      label: `length of the route ${route.from} - ${route.to}`,
      how: 'tape along the way',
      effort: 'tape',
      slack: 'up',
    }),
  );
  const nominal = build.routes.map((route) => nominalOf(route.length));
  return {
    routes: build.routes,
    lengths,
    nominal,
    // Ways are chosen at nominal lengths and temperatures, so that no pushed band moves a wire.
    length: (i) => nominal[i] ?? null,
    heat: (i) => Math.max(...endsOf(build.routes[i]).map((place) => nominalHeat(build, place))),
  };
}

const nominalOf = (given: Given | null | undefined): number | null =>
  given === undefined || given === null || given === 'unknown' ? null : given.value;

const endsOf = (route: Route | undefined): readonly Id[] =>
  route === undefined ? [] : [route.from, route.to];

function nominalHeat(build: Build, place: Id): number {
  const found = build.places.get(place);
  return nominalOf(found?.hottest) ?? (found?.engineSpace === true ? 80 : 45);
}

function layWire(build: Build, values: Values, wire: Wire, ground: Laying): LaidWire {
  const places = [placeOf(build, wire.from), placeOf(build, wire.to)] as const;
  const typed = nominalOf(wire.length) !== null;
  const way = knownWay(build, ground, wire, places, typed);
  const length = typed ? typedLength(values, wire) : routedLength(build, values, wire, way, ground);
  const along = way === null ? unique(places) : way.places;
  const size = wire.size === 'auto' || wire.size === 'unknown' ? undefined : wire.size;
  const airs = (along.length > 0 ? along : [null]).map((place) => ({
    hottest: airAt(build, values, place, 'hottest'),
    coldest: airAt(build, values, place, 'coldest'),
  }));
  return {
    id: wire.id,
    from: wire.from,
    to: wire.to,
    length,
    lengthFrom: typed ? 'typed' : 'routes',
    places: along,
    segments: segmentsOf(build, values, wire, way, along, length, ground),
    areaMm2: size?.areaMm2 ?? null,
    sizeText: sizeText(wire, size),
    ...material(values, wire, size, length),
    joints: [joint(values, wire, 'from'), joint(values, wire, 'to')],
    sheathed: wire.sheathed,
    hottest: extreme(
      airs.map((air) => air.hottest),
      (a, b) => a > b,
    ),
    coldest: extreme(
      airs.map((air) => air.coldest),
      (a, b) => a < b,
    ),
  };
}

const sizeText = (wire: Wire, size: Size | undefined): string =>
  size?.name ?? (wire.size === 'auto' ? 'auto' : 'unknown');

function placeOf(build: Build, terminal: TerminalRef): Id | null {
  const dot = terminal.indexOf('.');
  return build.parts.get(dot < 0 ? terminal : terminal.slice(0, dot))?.at ?? null;
}

function unique(places: readonly (Id | null)[]): readonly Id[] {
  return [...new Set(places)].filter((place) => place !== null);
}

/** Ways hang on nominal lengths and temperatures only: they are the same under every assumption. */
const ways = new WeakMap<Build, Map<Wire, Way | null>>();

function knownWay(
  build: Build,
  ground: Ground,
  wire: Wire,
  places: readonly [Id | null, Id | null],
  typed: boolean,
): Way | null {
  let known = ways.get(build);
  if (known === undefined) {
    known = new Map();
    ways.set(build, known);
  }
  let way = known.get(wire);
  if (way === undefined) {
    way = wayOf(ground, wire, places, typed);
    known.set(wire, way);
  }
  return way;
}

function wayOf(
  ground: Ground,
  wire: Wire,
  [from, to]: readonly [Id | null, Id | null],
  typed: boolean,
): Way | null {
  if (wire.via !== undefined && wire.via.length > 0) return wayThrough(ground, from, wire.via, to);
  return typed || from === null || to === null ? null : shortestWay(ground, from, to);
}

function typedLength(values: Values, wire: Wire): Basis | null {
  return values.resolve(`wires.${wire.id}.length`, wire.length, null, askLength(wire));
}

const askLength = (wire: Wire) =>
  ({ label: `length of ${wire.id}`, how: 'tape along the wire', effort: 'tape', slack: 'up' }) as const;

/** Length along the routes with the allowance at both ends; null where no way leads or a length of it is not known. */
function routedLength(
  build: Build,
  values: Values,
  wire: Wire,
  way: Way | null,
  ground: Laying,
): Basis | null {
  if (way === null) return null;
  const legs = way.routes.map((i) => ground.lengths[i] ?? null);
  if (legs.includes(null)) return null;
  const allowance = values.resolve('settings.allowance', build.settings.allowance, ALLOWANCE, {
    label: 'allowance at each end of a wire',
    how: 'tape on a made-up wire',
    effort: 'tape',
    slack: 'up',
  });
  const parts = [...legs, allowance, allowance].filter((basis) => basis !== null);
  return summed(values, wire, way, ground, parts, nominalOf(build.settings.allowance));
}

function summed(
  values: Values,
  wire: Wire,
  way: Way,
  ground: Laying,
  parts: readonly Basis[],
  allowance: number | null,
): Basis {
  const path = `wires.${wire.id}.length`;
  const pinned = values.assumption.pinned.has(path);
  const routes = way.routes.reduce((sum, i) => sum + (ground.nominal[i] ?? 0), 0);
  const nominal = routes + 2 * (allowance ?? ALLOWANCE.value);
  const banded = !pinned && parts.some((part) => part.sourced.band !== undefined);
  const end = (side: 0 | 1): number =>
    parts.reduce((sum, part) => sum + (part.sourced.band?.[side] ?? part.sourced.value), 0);
  return {
    path,
    label: `length of ${wire.id}`,
    how: 'tape along the wire',
    effort: 'tape',
    assumed: !pinned && parts.some((part) => part.assumed),
    sourced: {
      value: pinned ? nominal : parts.reduce((sum, part) => sum + part.sourced.value, 0),
      unit: 'm',
      prov: pinned ? 'given' : 'computed',
      source: `along ${way.places.join(' - ')}, with the allowance at both ends`,
      ...(banded ? { band: [end(0), end(1)] as const } : {}),
    },
  };
}

function segmentsOf(
  build: Build,
  values: Values,
  wire: Wire,
  way: Way | null,
  along: readonly Id[],
  length: Basis | null,
  ground: Laying,
): readonly Segment[] {
  if (way === null || way.routes.length === 0) return [alone(build, values, wire, along, length)];
  return way.routes.flatMap((i) => {
    const route = build.routes[i];
    if (route === undefined) return [];
    const metres = ground.lengths[i]?.sourced.value ?? length?.sourced.value ?? UNKNOWN_ROUTE;
    return [
      {
        route: i,
        in: route.in,
        length: metres,
        ...surroundings(build, values, endsOf(route)),
        insulatedWall: wall(values, route, i),
      },
    ];
  });
}

/** A route of unknown length counts as long enough to bundle. */
const UNKNOWN_ROUTE = 1;

function wall(values: Values, route: Route, i: number): number {
  const ask = {
    label: `wall insulation along the route ${route.from} - ${route.to}`,
    how: 'tape, longest unbroken stretch',
    effort: 'tape',
    slack: 'up',
  } as const;
  return values.resolve(`routes.${i}.insulated-wall`, route.insulatedWall, null, ask)?.sourced.value ?? 0;
}

/** A wire of which the way is not known: alone, in a loom unless it is short, at the hotter of its ends. */
function alone(
  build: Build,
  values: Values,
  wire: Wire,
  along: readonly Id[],
  length: Basis | null,
): Segment {
  // At the nominal length: a pushed band lays no wire into a loom.
  const nominal = nominalOf(wire.length) ?? 2 * (nominalOf(build.settings.allowance) ?? ALLOWANCE.value);
  return {
    route: null,
    in: length !== null && nominal <= FREE_UP_TO + 1e-9 ? 'free' : 'loom',
    length: length?.sourced.value ?? 0,
    ...surroundings(build, values, along),
    insulatedWall: 0,
  };
}

/** Of several places the hottest air; an engine space where one of them is. */
function surroundings(
  build: Build,
  values: Values,
  places: readonly Id[],
): Pick<Segment, 'hottest' | 'engineSpace'> {
  const airs = (places.length > 0 ? places : [null]).map((place) => airAt(build, values, place, 'hottest'));
  return {
    hottest: extreme(airs, (a, b) => a > b),
    engineSpace: places.some((place) => build.places.get(place)?.engineSpace === true),
  };
}

function extreme(bases: readonly Basis[], over: (a: number, b: number) => boolean): Basis {
  const [first, ...others] = bases;
  if (first === undefined) throw new Error('a wire lies somewhere');
  return others.reduce(
    (best, basis) => (over(basis.sourced.value, best.sourced.value) ? basis : best),
    first,
  );
}

function joint(values: Values, wire: Wire, end: 'from' | 'to'): Basis {
  const basis = values.resolve(`wires.${wire.id}.joints.${end}`, wire.joints?.[end], JOINT, {
    label: `joint of ${wire.id} at ${wire[end]}`,
    how: 'measure: volts across the joint, amperes through it',
    effort: 'meter',
    slack: 'up',
  });
  if (basis === null) throw new Error('a joint always has a default');
  return basis;
}
