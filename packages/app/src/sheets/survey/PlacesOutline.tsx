/** The places where they are in the vehicle, nose left; one that was put by guess has a hollow middle. */
import type { Given, Place } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { useBuild, usePicked } from '../../hooks.ts';
import { pick } from '../../view-store.ts';

const WIDTH = 980;
const FLOOR = 156;
const NOSE = 30;
const TAIL = 948;

const LEVELS: Readonly<Record<string, number>> = { roof: 14, upper: 56, floor: 126, 'under floor': 176 };

export function PlacesOutline(): ReactElement | null {
  const build = useBuild();
  const picked = usePicked();
  if (build === null) return null;
  const spots = spotsOf([...build.places.values()], metres(build.vehicle.length));
  return (
    <figure className="places-outline" aria-label="Where the places are, nose left">
      <svg viewBox={`0 0 ${WIDTH} 204`} aria-hidden="true">
        <g fill="none" stroke="var(--ink-3)" strokeWidth="1.5">
          <path d={`M28 ${FLOOR}v-38q0-26 26-34l96-14 58-50q10-8 30-8h690q22 0 24 24l4 ${FLOOR - 36}`} />
          <path d={`M92 ${FLOOR + 2}a36 36 0 0 0 72 0M748 ${FLOOR + 2}a36 36 0 0 0 72 0`} />
          <path d={`M20 ${FLOOR}H970`} stroke="var(--ink)" strokeWidth="3" />
        </g>
        {spots.map(({ place, x, y, guessed }, index) => (
          <g key={place.id} onClick={() => pick(place.id)}>
            {picked === place.id && <rect x={x - 60} y={y - 14} width="120" height="36" fill="var(--band)" />}
            <circle
              cx={x}
              cy={y}
              r="7"
              fill={guessed ? 'var(--sheet)' : 'var(--ink)'}
              stroke="var(--ink)"
              strokeWidth="2.5"
            />
            <text x={x} y={y + 19} textAnchor="middle" className={guessed ? 'name guessed' : 'name'}>
              {short(place.label ?? place.id)}
            </text>
            <text x={x} y={y - 16} textAnchor="middle" className="number-only">
              {index + 1}
            </text>
          </g>
        ))}
      </svg>
      <figcaption className="small">
        {spots.map(({ place }, index) => (
          <span key={place.id}>
            <b>{index + 1}</b> {place.label ?? place.id}
          </span>
        ))}
      </figcaption>
    </figure>
  );
}

const short = (label: string): string => (label.length <= 20 ? label : `${label.slice(0, 18)}…`);

const metres = (given: Given | undefined): number | null =>
  given === undefined || given === 'unknown' ? null : given.value;

interface Spot {
  readonly place: Place;
  readonly x: number;
  readonly y: number;
  readonly guessed: boolean;
}

/** Stations give the place; those without are spread evenly between their neighbours in the order of the document. */
function spotsOf(places: readonly Place[], length: number | null): readonly Spot[] {
  const stations = places.map((place) => metres(place.station));
  const most = Math.max(0, ...stations.filter((each) => each !== null));
  const whole = length ?? (most > 0 ? most + 0.8 : places.length + 1);
  const filled = stations.map(
    (each, index) =>
      each ?? (places[index]?.engineSpace === true ? 0.06 * whole : between(stations, index, whole)),
  );
  const spots = places.map((place, index) => ({
    place,
    x: NOSE + 40 + ((filled[index] ?? 0) / whole) * (TAIL - NOSE - 80),
    y: LEVELS[place.level ?? 'floor'] ?? 126,
    guessed: stations[index] === null,
  }));
  return apart(spots);
}

function between(stations: readonly (number | null)[], index: number, whole: number): number {
  const before = stations.slice(0, index).findLastIndex((each) => each !== null);
  const after = stations.findIndex((each, at) => at > index && each !== null);
  const [a, b] = [before < 0 ? 0 : (stations[before] ?? 0), after < 0 ? whole : (stations[after] ?? whole)];
  const steps = (after < 0 ? stations.length : after) - before;
  return a + ((b - a) * (index - before)) / steps;
}

/** Names that would stand on each other are lifted apart. */
function apart(spots: readonly Spot[]): readonly Spot[] {
  const put: Spot[] = [];
  for (const spot of spots) {
    let { y } = spot;
    while (put.some((other) => Math.abs(other.x - spot.x) < 118 && Math.abs(other.y - y) < 34)) y -= 34;
    put.push({ ...spot, y: Math.max(14, y) });
  }
  return put;
}
