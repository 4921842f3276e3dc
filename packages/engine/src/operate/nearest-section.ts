/** Where a wire that touches the body touches it. */
import type { Build, Id, LaidWire, Placed } from '../contracts/index.ts';

interface Section {
  readonly node: number;
  readonly spread: number;
}

/** The conducting section with a chassis point nearest to a wire's ends along the vehicle, else the first; null without one. */
export function sectionsNear(
  build: Build,
  parts: ReadonlyMap<Id, Placed>,
  find: (node: string) => number,
): (wire: LaidWire) => Section | null {
  let sections: readonly Stationed[] | null = null;
  return (wire) => {
    sections ??= stationed(build, parts);
    const ends = wire.places.map((place) => stationOf(build, place));
    const near = sections
      .map((section) => ({ section, away: distance(section.points, ends) }))
      .toSorted((a, b) => a.away - b.away)[0]?.section;
    const node = near === undefined ? -1 : find(`^section:${near.id}`);
    return near === undefined || node < 0 ? null : { node, spread: near.spread };
  };
}

/** A section with the stations of its chassis points. */
interface Stationed {
  readonly id: Id;
  readonly spread: number;
  readonly points: readonly (number | null)[];
}

function stationed(build: Build, parts: ReadonlyMap<Id, Placed>): readonly Stationed[] {
  const all = [...parts.values()];
  return all.flatMap((s) => {
    const spread = s.ability.section?.spread ?? null;
    if (spread === null) return [];
    const points = all.filter((p) => p.ability.grounds?.section === s.id);
    return [{ id: s.id, spread: spread.sourced.value, points: points.map((p) => stationOf(build, p.at)) }];
  });
}

function stationOf(build: Build, place: Id | null): number | null {
  const station = place === null ? undefined : build.places.get(place)?.station;
  return station === undefined || station === 'unknown' ? null : station.value;
}

/** Metres along the vehicle, the least. */
function distance(points: readonly (number | null)[], ends: readonly (number | null)[]): number {
  let best = Infinity;
  for (const p of points)
    for (const e of ends) if (p !== null && e !== null) best = Math.min(best, Math.abs(p - e));
  return best;
}
