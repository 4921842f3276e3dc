/** Air at a place: what the build says, else the published default of such a place. */
import type { Ask, Basis, Build, Id, Place, Sourced } from '../contracts/index.ts';
import type { Values } from '../devices/values.ts';

export type AirKind = 'typical' | 'hottest' | 'coldest';

/** Air of the typical corners, °C. */
const TYPICAL: Sourced = {
  value: 20,
  unit: '°C',
  prov: 'practice',
  source: 'reference temperature of conductors',
};

const CLIMATE_HOTTEST: Sourced = {
  value: 40,
  unit: '°C',
  prov: 'memory',
  band: [35, 45],
  source: 'hot summer day in the shade',
};

const CLIMATE_COLDEST: Sourced = {
  value: -10,
  unit: '°C',
  band: [-25, 5],
  prov: 'memory',
  source: 'cold winter night',
};

type Hot = readonly [value: number, least: number, greatest: number];

/** Hottest air inside a vehicle, °C, with its band; common practice, no source. */
const ENGINE_SPACE: Hot = [80, 70, 90];
const CAB_OR_CUPBOARD: Hot = [45, 40, 55];
const UNDER_FLOOR: Hot = [40, 35, 50];

/**
 * Air at a place, °C, as a basis that can be asked for and pinned. Typical: 20 °C everywhere. Hottest and coldest: the place's
 * own figure, else the greater of the climate's and the default of its kind of space (hottest), the climate's (coldest).
 * `place` null: a part or wire without a place counts as in the cab.
 */
export function airAt(build: Build, values: Values, place: Id | null, kind: AirKind): Basis {
  const known = airsOf(build, values)[kind];
  const air = known.get(place) ?? foundAt(build, values, place, kind);
  known.set(place, air);
  return air;
}

type Airs = Readonly<Record<AirKind, Map<Id | null, Basis>>>;

/** What was found before: many wires pass the same places. */
const airs = new WeakMap<Values, WeakMap<Build, Airs>>();

function airsOf(build: Build, values: Values): Airs {
  let builds = airs.get(values);
  if (builds === undefined) {
    builds = new WeakMap();
    airs.set(values, builds);
  }
  let known = builds.get(build);
  if (known === undefined) {
    known = { typical: new Map(), hottest: new Map(), coldest: new Map() };
    builds.set(build, known);
  }
  return known;
}

function foundAt(build: Build, values: Values, place: Id | null, kind: AirKind): Basis {
  const found = place === null ? undefined : build.places.get(place);
  if (kind === 'typical') return values.figure('default:air/typical', TYPICAL, askAir('typical air', 'read'));
  return kind === 'hottest' ? hottestAt(build, values, found) : coldestAt(build, values, found);
}

function hottestAt(build: Build, values: Values, place: Place | undefined): Basis {
  const climate = must(
    values.resolve(
      'climate.hottest',
      build.climate.hottest,
      CLIMATE_HOTTEST,
      askAir('hottest weather', 'read'),
    ),
  ).sourced.value;
  const path = place === undefined ? 'default:air/hottest' : `places.${place.id}.hottest`;
  const label = place === undefined ? 'hottest air where no place is given' : `hottest air at ${place.id}`;
  return must(values.resolve(path, place?.hottest, hottestOf(place, climate), askAir(label, 'engine')));
}

/** Default of the hottest air: never below the weather. */
function hottestOf(place: Place | undefined, climate: number): Sourced {
  const [value, least, greatest] = spaceOf(place);
  return {
    value: Math.max(value, climate),
    unit: '°C',
    prov: 'practice',
    band: [Math.max(least, climate), Math.max(greatest, climate)],
    source: 'common practice, no source; never below the hottest weather',
  };
}

function spaceOf(place: Place | undefined): Hot {
  if (place?.engineSpace === true) return ENGINE_SPACE;
  return place?.level === 'under floor' ? UNDER_FLOOR : CAB_OR_CUPBOARD;
}

function coldestAt(build: Build, values: Values, place: Place | undefined): Basis {
  if (place?.coldest !== undefined && place.coldest !== 'unknown') {
    const ask = askAir(`coldest air at ${place.id}`, 'read');
    return must(values.resolve(`places.${place.id}.coldest`, place.coldest, null, ask));
  }
  const ask = askAir('coldest weather', 'read');
  return must(values.resolve('climate.coldest', build.climate.coldest, CLIMATE_COLDEST, ask));
}

const askAir = (label: string, effort: Ask['effort']): Ask => ({
  label,
  how:
    effort === 'engine'
      ? 'thermometer at the place after a long drive on a hot day'
      : 'ask where the vehicle is used',
  effort,
  slack: 'up',
});

function must(basis: Basis | null): Basis {
  if (basis === null) throw new Error('an air temperature always has a default');
  return basis;
}
