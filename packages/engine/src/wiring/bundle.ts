/** How many loaded conductors lie together: counted per stretch of route in one condition. */
import type { Id, LaidWire, Practice, Segment } from '../contracts/index.ts';
import { tableValue } from './ampacity.ts';

/** Stretches shorter than this warm each other too little to count, m; from memory. */
export const BUNDLE_FROM = 0.6;

/** Below this share of its own table value a conductor adds no heat that counts. */
const LOADED_SHARE = 0.1;
/** A */
const LOADED_LEAST = 1;

const TOGETHER: ReadonlySet<Segment['in']> = new Set(['conduit', 'loom', 'bundle']);

/** Counts per wire, one per segment of its way. */
export type BundleCounts = ReadonlyMap<Id, readonly number[]>;

/** The same in the order of the wires. */
export type CountsInOrder = readonly (readonly number[])[];

export interface Bundles {
  /**
   * Loaded conductors on each segment of each wire, both polarities, for the currents (A, sign does not matter) of one condition.
   * A conductor counts where its current exceeds the greater of 1 A and 10 % of its own table value; the wire asked about always
   * counts. 1 on segments that are free, spaced, off the routes or shorter than 0.6 m.
   */
  count(amps: (wire: Id) => number): BundleCounts;
  /** The same for currents in the order of the wires. */
  countAll(amps: Float64Array): CountsInOrder;
  /** The greatest count of each segment over the currents of several conditions, each in the order of the wires. */
  greatest(conditions: readonly Float64Array[]): CountsInOrder;
  /** Places in the order of the wires that lie with others somewhere. */
  readonly bundled: readonly number[];
  /**
   * The counts of each bundled wire as one number, alike where the counts are alike, into the places of `bundled`; -1 for a
   * way of more segments than a number holds.
   */
  codes(amps: Float64Array, into: Float64Array): void;
  /** The counts of one wire, by its place in the order, for the currents that `codes` was asked for last. */
  countsOf(wire: number): readonly number[];
}

/** One route: the wires on it by their place in the order, and the current from which each counts. */
interface Together {
  readonly wires: Int32Array;
  readonly thresholds: Float64Array;
}

/** Where a wire is bundled: for each segment the route's place in the list, -1 where it lies alone. */
interface Way {
  readonly routes: readonly number[];
  readonly alone: readonly number[];
}

/** Prepares the counting for the wires of a build; `practice` null: only the 1 A rule. */
export function bundles(wires: ReadonlyMap<Id, LaidWire>, practice: Practice | null): Bundles {
  const order = [...wires.values()];
  const { routes, placeOf } = routesOf(order, practice);
  const ways = order.map((wire): Way => {
    const on = wire.segments.map((s) => (bundled(s) ? (placeOf.get(s.route ?? -1) ?? -1) : -1));
    return { routes: on, alone: wire.segments.map(() => 1) };
  });
  const counted = routes.map(() => 0);
  const loaded = routes.map(() => new Uint8Array(order.length));
  const mark = (amps: Float64Array): void => {
    for (let r = 0; r < routes.length; r++) counted[r] = markLoaded(routes[r]!, amps, loaded[r]!);
  };
  const bundledWires = ways.flatMap((way, i) => (way.routes.every((r) => r < 0) ? [] : [i]));
  const countAll = (amps: Float64Array): CountsInOrder => {
    mark(amps);
    return ways.map((way, i) => countsOn(way, i, counted, loaded));
  };
  const raise = (most: number[], wire: number): void => {
    const on = ways[wire]?.routes ?? [];
    for (let n = 0; n < on.length; n++) {
      const r = on[n] ?? -1;
      if (r < 0) continue;
      const count = (counted[r] ?? 0) + (loaded[r]?.[wire] === 1 ? 0 : 1);
      if (count > (most[n] ?? 1)) most[n] = count;
    }
  };
  return {
    countAll,
    greatest: (conditions) => {
      const most = ways.map((way) => [...way.alone]);
      for (const amps of conditions) {
        mark(amps);
        for (const wire of bundledWires) raise(most[wire] ?? [], wire);
      }
      return most;
    },
    bundled: bundledWires,
    codes: (amps, into) => {
      mark(amps);
      for (let k = 0; k < bundledWires.length; k++) {
        const wire = bundledWires[k]!;
        into[k] = codeOn(ways[wire]!.routes, wire, counted, loaded);
      }
    },
    countsOf: (wire) => {
      const way = ways[wire];
      return way === undefined ? [] : countsOn(way, wire, counted, loaded);
    },
    count: (amps) => {
      const counts = countAll(Float64Array.from(order, (wire) => amps(wire.id)));
      return new Map(order.map((wire, i) => [wire.id, counts[i] ?? []]));
    },
  };
}

function countsOn(
  way: Way,
  wire: number,
  counted: readonly number[],
  loaded: readonly Uint8Array[],
): readonly number[] {
  if (way.routes.every((r) => r < 0)) return way.alone;
  return way.routes.map((r) => (r < 0 ? 1 : (counted[r] ?? 0) + (loaded[r]?.[wire] === 1 ? 0 : 1)));
}

/** Counts below this fit a number, up to so many segments. */
const CODE_BASE = 128;
const CODE_SEGMENTS = 7;

function codeOn(
  routes: readonly number[],
  wire: number,
  counted: readonly number[],
  loaded: readonly Uint8Array[],
): number {
  if (routes.length > CODE_SEGMENTS) return -1;
  let code = 0;
  for (const r of routes) {
    const count = r < 0 ? 1 : (counted[r] ?? 0) + (loaded[r]?.[wire] === 1 ? 0 : 1);
    if (count >= CODE_BASE) return -1;
    code = code * CODE_BASE + count;
  }
  return code;
}

/** Marks the wires of a route that carry enough to count; returns how many. */
function markLoaded(route: Together, amps: Float64Array, loaded: Uint8Array): number {
  const { wires, thresholds } = route;
  let count = 0;
  for (let i = 0; i < wires.length; i++) {
    const wire = wires[i]!;
    const is = Math.abs(amps[wire]!) > thresholds[i]!;
    loaded[wire] = is ? 1 : 0;
    if (is) count += 1;
  }
  return count;
}

const bundled = (segment: Segment): boolean =>
  segment.route !== null && TOGETHER.has(segment.in) && segment.length >= BUNDLE_FROM - 1e-9;

function routesOf(
  order: readonly LaidWire[],
  practice: Practice | null,
): { readonly routes: readonly Together[]; readonly placeOf: ReadonlyMap<number, number> } {
  const members = new Map<number, { wire: number; threshold: number }[]>();
  order.forEach((wire, i) => {
    for (const route of new Set(wire.segments.filter(bundled).map((segment) => segment.route ?? -1))) {
      const segment = wire.segments.find((s) => s.route === route);
      const on = members.get(route) ?? [];
      on.push({
        wire: i,
        threshold: segment === undefined ? LOADED_LEAST : threshold(wire, segment, practice),
      });
      members.set(route, on);
    }
  });
  const routes = [...members.values()].map((on) => ({
    wires: Int32Array.from(on, (m) => m.wire),
    thresholds: Float64Array.from(on, (m) => m.threshold),
  }));
  return { routes, placeOf: new Map([...members.keys()].map((route, place) => [route, place])) };
}

function threshold(wire: LaidWire, segment: Segment, practice: Practice | null): number {
  const amps = practice === null ? null : tableValue(wire, segment, practice);
  return Math.max(LOADED_LEAST, LOADED_SHARE * (amps ?? 0));
}
