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

export interface Bundles {
  /**
   * Loaded conductors on each segment of each wire, both polarities, for the currents (A, sign does not matter) of one condition.
   * A conductor counts where its current exceeds the greater of 1 A and 10 % of its own table value; the wire asked about always
   * counts. 1 on segments that are free, spaced, off the routes or shorter than 0.6 m.
   */
  count(amps: (wire: Id) => number): BundleCounts;
}

/** Prepares the counting for the wires of a build; `practice` null: only the 1 A rule. */
export function bundles(wires: ReadonlyMap<Id, LaidWire>, practice: Practice | null): Bundles {
  const members = membersOf(wires);
  const thresholds = new Map<Id, readonly number[]>();
  for (const wire of wires.values()) {
    thresholds.set(
      wire.id,
      wire.segments.map((segment) => threshold(wire, segment, practice)),
    );
  }
  return {
    count: (amps) => {
      const loaded = new Map(
        [...members].map(([route, on]) => [route, loadedOn(route, on, wires, thresholds, amps)]),
      );
      return new Map([...wires.values()].map((wire) => [wire.id, countsOf(wire, loaded)]));
    },
  };
}

/** The greater of two counts, segment by segment: over several conditions the greatest rules. */
export function greatestCounts(a: BundleCounts, b: BundleCounts): BundleCounts {
  const merged = new Map(a);
  for (const [id, counts] of b) {
    const known = merged.get(id);
    merged.set(id, known === undefined ? counts : counts.map((n, i) => Math.max(n, known[i] ?? 1)));
  }
  return merged;
}

/** Every wire alone. */
export function aloneCounts(wires: ReadonlyMap<Id, LaidWire>): BundleCounts {
  return new Map([...wires.values()].map((wire) => [wire.id, wire.segments.map(() => 1)]));
}

const bundled = (segment: Segment): boolean =>
  segment.route !== null && TOGETHER.has(segment.in) && segment.length >= BUNDLE_FROM - 1e-9;

function membersOf(wires: ReadonlyMap<Id, LaidWire>): ReadonlyMap<number, readonly Id[]> {
  const members = new Map<number, Id[]>();
  for (const wire of wires.values()) {
    for (const route of new Set(wire.segments.filter(bundled).map((segment) => segment.route ?? -1))) {
      const on = members.get(route) ?? [];
      on.push(wire.id);
      members.set(route, on);
    }
  }
  return members;
}

function threshold(wire: LaidWire, segment: Segment, practice: Practice | null): number {
  const amps = practice === null ? null : tableValue(wire, segment, practice);
  return Math.max(LOADED_LEAST, LOADED_SHARE * (amps ?? 0));
}

function loadedOn(
  route: number,
  on: readonly Id[],
  wires: ReadonlyMap<Id, LaidWire>,
  thresholds: ReadonlyMap<Id, readonly number[]>,
  amps: (wire: Id) => number,
): ReadonlySet<Id> {
  return new Set(
    on.filter((id) => {
      const at = wires.get(id)?.segments.findIndex((segment) => segment.route === route) ?? -1;
      return Math.abs(amps(id)) > (thresholds.get(id)?.[at] ?? LOADED_LEAST);
    }),
  );
}

function countsOf(wire: LaidWire, loaded: ReadonlyMap<number, ReadonlySet<Id>>): readonly number[] {
  return wire.segments.map((segment) => {
    if (!bundled(segment)) return 1;
    const on = loaded.get(segment.route ?? -1);
    return (on?.size ?? 0) + (on?.has(wire.id) === true ? 0 : 1);
  });
}
