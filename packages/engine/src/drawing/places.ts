/** Places from nose to tail. */
import type { Build, Given, Place } from '../contracts/index.ts';
import { NO_PLACE, type SubjectPlace } from './subject.ts';

const LEVELS = ['roof', 'upper', 'floor', 'under floor'] as const;

/** Stands between two places whose stations are not known, m. */
const APART = 0.5;

const known = (given: Given | undefined): number | null =>
  given === undefined || given === 'unknown' ? null : given.value;

/**
 * Ordered by station, then from the roof down. A place without a station keeps its place in the document's order, pulled apart
 * evenly between its known neighbours; parts without any place stand behind the tail.
 */
export function placesOf(build: Build, unplaced: boolean): readonly SubjectPlace[] {
  const listed = [...build.places.values()];
  const stations = spread(
    listed.map((place) => known(place.station)),
    known(build.vehicle.length),
  );
  const anyKnown = listed.some((place) => known(place.station) !== null);
  const made = listed.map((place, i) => ({ place, at: stations[i] ?? 0, i }));
  const ordered = made.toSorted((a, b) => a.at - b.at || levelOf(a.place) - levelOf(b.place) || a.i - b.i);
  const places = ordered.map(({ place, at }) => subjectPlace(place, anyKnown ? at : null));
  return unplaced ? [...places, NOWHERE] : places;
}

const NOWHERE: SubjectPlace = {
  id: NO_PLACE,
  label: 'Place not given',
  station: null,
  level: 'floor',
  known: false,
  levelKnown: false,
  engineSpace: false,
};

const levelOf = (place: Place): number => LEVELS.indexOf(place.level ?? 'floor');

function subjectPlace(place: Place, station: number | null): SubjectPlace {
  return {
    id: place.id,
    label: place.label ?? place.id,
    station,
    level: place.level ?? 'floor',
    known: known(place.station) !== null,
    levelKnown: place.level !== undefined,
    engineSpace: place.engineSpace,
  };
}

/** Fills unknown stations evenly between the known ones before and after them in the list. */
function spread(stations: readonly (number | null)[], length: number | null): readonly number[] {
  const filled: number[] = [];
  for (let i = 0; i < stations.length;) {
    const here = stations[i] ?? null;
    if (here !== null) {
      filled.push(here);
      i += 1;
      continue;
    }
    let next = i;
    while (next < stations.length && (stations[next] ?? null) === null) next += 1;
    const before = filled.at(-1) ?? null;
    const after = stations[next] ?? null;
    const gap = next - i + 1;
    const from = before ?? 0;
    const to = after ?? Math.max(length ?? 0, from + APART * gap);
    for (let k = 1; k < gap; k += 1) filled.push(from + ((to - from) * k) / gap);
    i = next;
  }
  return filled;
}
