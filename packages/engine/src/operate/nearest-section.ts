/** Where a wire that touches the body touches it. */
import type { Build, Id, LaidWire, Placed } from '../contracts/index.ts';

/** The conducting section with a chassis point nearest to the wire's ends along the vehicle, else the first; null without one. */
export function nearestSection(
  build: Build,
  parts: ReadonlyMap<Id, Placed>,
  find: (node: string) => number,
  wire: LaidWire,
): { readonly node: number; readonly spread: number } | null {
  const sections = [...parts.values()].filter((p) => (p.ability.section?.spread ?? null) !== null);
  const near = sections
    .map((s) => ({ s, away: distanceTo(build, parts, s.id, wire) }))
    .toSorted((a, b) => a.away - b.away)[0]?.s;
  const node = near === undefined ? -1 : find(`^section:${near.id}`);
  return near === undefined || node < 0
    ? null
    : { node, spread: near.ability.section?.spread?.sourced.value ?? 0 };
}

/** Metres along the vehicle between a wire's ends and a section's chassis points, the least. */
function distanceTo(build: Build, parts: ReadonlyMap<Id, Placed>, section: Id, wire: LaidWire): number {
  const stationOf = (place: Id | null): number | null => {
    const station = place === null ? undefined : build.places.get(place)?.station;
    return station === undefined || station === 'unknown' ? null : station.value;
  };
  const points = [...parts.values()]
    .filter((p) => p.ability.grounds?.section === section)
    .map((p) => stationOf(p.at));
  const ends = wire.places.map(stationOf);
  let best = Infinity;
  for (const p of points)
    for (const e of ends) if (p !== null && e !== null) best = Math.min(best, Math.abs(p - e));
  return best;
}
