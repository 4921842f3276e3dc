/** The states this vehicle can be in, and what each means for the circuit. */
import type {
  Build,
  Given,
  Sourced,
  StateFacts,
  StateId,
  Supply,
  SurveyedState,
  VehicleFacts,
} from '../contracts/index.ts';
import { STATE_IDS } from '../contracts/index.ts';
import type { Values } from '../devices/values.ts';

/** What does not depend on the vehicle. Loads are from memory, with the band x0.6 to x1.7. */
interface StateRow {
  readonly label: string;
  readonly ignition: boolean;
  readonly speed: 'idle' | 'road' | null;
  readonly seconds: number;
  readonly amps: number;
  readonly comesFrom: readonly StateId[];
}

const MINUTE = 60;
const HOUR = 3600;
const DAY = 86_400;

const ROWS: Readonly<Record<StateId, StateRow>> = {
  parked: {
    label: 'parked',
    ignition: false,
    speed: null,
    seconds: 12 * HOUR,
    amps: 0.03,
    comesFrom: ['after-run', 'woken'],
  },
  woken: {
    label: 'woken',
    ignition: false,
    speed: null,
    seconds: 10 * MINUTE,
    amps: 5,
    comesFrom: ['parked'],
  },
  'after-run': {
    label: 'after-run',
    ignition: false,
    speed: null,
    seconds: 10 * MINUTE,
    amps: 5,
    comesFrom: ['idling', 'driving', 'ready'],
  },
  'ignition-on': {
    label: 'ignition on',
    ignition: true,
    speed: null,
    seconds: 20 * MINUTE,
    amps: 10,
    comesFrom: ['parked', 'woken'],
  },
  cranking: {
    label: 'cranking',
    ignition: true,
    speed: null,
    seconds: 3,
    amps: 5,
    comesFrom: ['ignition-on', 'automatic-stop'],
  },
  idling: {
    label: 'idling',
    ignition: true,
    speed: 'idle',
    seconds: 30 * MINUTE,
    amps: 30,
    comesFrom: ['cranking', 'driving'],
  },
  driving: {
    label: 'driving',
    ignition: true,
    speed: 'road',
    seconds: HOUR,
    amps: 30,
    comesFrom: ['idling', 'overrun'],
  },
  overrun: { label: 'overrun', ignition: true, speed: 'road', seconds: 20, amps: 30, comesFrom: ['driving'] },
  'automatic-stop': {
    label: 'automatic stop',
    ignition: true,
    speed: null,
    seconds: MINUTE,
    amps: 20,
    comesFrom: ['idling', 'driving'],
  },
  ready: { label: 'ready', ignition: true, speed: null, seconds: HOUR, amps: 25, comesFrom: ['ignition-on'] },
  'plugged-in': {
    label: 'plugged in',
    ignition: false,
    speed: null,
    seconds: 8 * HOUR,
    amps: 10,
    comesFrom: ['parked'],
  },
  stored: {
    label: 'stored',
    ignition: false,
    speed: null,
    seconds: 60 * DAY,
    amps: 0.03,
    comesFrom: ['parked'],
  },
};

const FED: ReadonlySet<StateId> = new Set(['idling', 'driving', 'overrun', 'ready', 'plugged-in']);

/** Which supply, and whether there is an engine to crank. */
export function vehicleFacts(build: Build, hasVehicleBattery: boolean): VehicleFacts {
  const supply = build.vehicle.supply ?? 'alternator';
  return { supply, engine: build.vehicle.engine ?? supply !== 'converter', hasVehicleBattery };
}

/**
 * True when the running voltage is taken as variable: said so, not known, a sensor sits on the negative post, or the
 * survey shows it (below 13.0 V or above 14.8 V per 12 V in a running state).
 */
export function variableVoltage(build: Build, hasSensor: boolean): boolean {
  const said = build.vehicle.variableVoltage;
  if (said !== undefined) return said !== false;
  if (hasSensor) return true;
  const blocks = nominalVehicle(build) / 12;
  const steady: readonly StateId[] = ['idling', 'driving'];
  const postsIn = (id: StateId) => build.survey.get(id)?.posts;
  return (
    steady.some((id) => below(postsIn(id)?.min, 13.0 * blocks)) ||
    [...steady, 'overrun' as const].some((id) => above(postsIn(id)?.max, 14.8 * blocks))
  );
}

const below = (given: Given | undefined, limit: number): boolean =>
  given !== undefined && given !== 'unknown' && given.value < limit;
const above = (given: Given | undefined, limit: number): boolean =>
  given !== undefined && given !== 'unknown' && given.value > limit;

/** Nominal volts of the vehicle's net, 12 unless the build says otherwise. */
export function nominalVehicle(build: Build): number {
  return build.systems['vehicle'] ?? 12;
}

/** Nominal volts of the house net, 12 unless the build says otherwise. */
export function nominalHouse(build: Build): number {
  return build.systems['house'] ?? 12;
}

function exists(id: StateId, build: Build, vehicle: VehicleFacts, variable: boolean): boolean {
  if (!vehicle.hasVehicleBattery) return id === 'parked' || id === 'stored';
  const alternator = vehicle.supply !== 'converter';
  switch (id) {
    case 'cranking':
      return alternator && vehicle.engine;
    case 'idling':
    case 'driving':
      return vehicle.engine;
    case 'overrun':
      return alternator && vehicle.engine && variable;
    case 'automatic-stop':
      return vehicle.engine && (build.vehicle.automaticStop ?? false) !== false;
    case 'ready':
      return vehicle.supply !== 'alternator';
    case 'plugged-in':
      return vehicle.supply !== 'alternator' && (build.vehicle.plugIn ?? false);
    default:
      return true;
  }
}

function supplyOf(id: StateId, vehicle: VehicleFacts): Supply {
  if (id === 'automatic-stop') return vehicle.supply === 'converter' ? 'converter' : 'off';
  if (!FED.has(id)) return 'off';
  if (id === 'ready' || id === 'plugged-in' || vehicle.supply === 'converter') return 'converter';
  return 'alternator';
}

/** Predecessors; where there is no cranking, idling follows from ready. */
function predecessors(id: StateId, present: ReadonlySet<StateId>): readonly StateId[] {
  const listed: readonly StateId[] =
    id === 'idling' && !present.has('cranking') ? ['ready', 'driving'] : ROWS[id].comesFrom;
  return listed.filter((from) => present.has(from));
}

/** The states that this vehicle has, in the fixed order, with their surveyed or default figures. */
export function statesOf(
  build: Build,
  values: Values,
  vehicle: VehicleFacts,
  variable: boolean,
): readonly StateFacts[] {
  const present = new Set(STATE_IDS.filter((id) => exists(id, build, vehicle, variable)));
  return STATE_IDS.filter((id) => present.has(id)).map((id) => factsOf(id, build, values, vehicle, present));
}

function factsOf(
  id: StateId,
  build: Build,
  values: Values,
  vehicle: VehicleFacts,
  present: ReadonlySet<StateId>,
): StateFacts {
  const row = ROWS[id];
  const survey = build.survey.get(id);
  const supply = supplyOf(id, vehicle);
  const surveyed = (field: 'output' | 'load', label: string) =>
    survey?.[field] === undefined
      ? null
      : values.resolve(`survey.${id}.${field}`, survey[field], null, {
          label: `${label} while ${row.label}`,
          how: 'measure with a clamp, everything usual switched on',
          effort: 'engine',
          slack: field === 'load' ? 'up' : 'down',
        });
  return {
    id,
    label: row.label,
    ignition: row.ignition,
    supply,
    speed: supply === 'alternator' ? row.speed : null,
    recovering: id === 'overrun',
    cranking: id === 'cranking',
    stored: id === 'stored',
    running: FED.has(id) || (id === 'automatic-stop' && supply === 'converter'),
    ownLoad: ownLoad(id, row, survey, values, nominalVehicle(build)),
    surveyedLoad: surveyed('load', "vehicle's own load"),
    lasts: lastsOf(id, row, survey, values),
    lastsGiven: survey?.lasts !== undefined && survey.lasts !== 'unknown',
    comesFrom: predecessors(id, present),
    posts: {
      min: postsOf(id, 'min', row, survey, values),
      typical: postsOf(id, 'typical', row, survey, values),
      max: postsOf(id, 'max', row, survey, values),
    },
    output: surveyed('output', 'greatest supply current'),
  };
}

/** The row's amperes are those of a 12 V vehicle; another has the same lamps and fans: the same power. */
function ownLoad(
  id: StateId,
  row: StateRow,
  survey: SurveyedState | undefined,
  values: Values,
  nominal: number,
) {
  const usual = (row.amps * 12) / nominal;
  const fallback: Sourced = {
    value: usual,
    unit: 'A',
    prov: 'memory',
    band: [usual * 0.6, usual * 1.7],
    source:
      nominal === 12 ? "vehicle's own load by state" : "vehicle's own load by state, equal power at 12 V",
  };
  // Whoever uses it says so: where a part states the load, the default is no assumption of this build.
  const basis = values.look(`survey.${id}.load`, survey?.load, fallback, {
    label: `vehicle's own load while ${row.label}`,
    how: 'measure with a clamp on the battery lead',
    effort: row.ignition && row.speed !== null ? 'engine' : 'meter',
    slack: 'up',
  });
  if (basis === null) throw new Error('a default load exists for every state');
  return basis;
}

function lastsOf(id: StateId, row: StateRow, survey: SurveyedState | undefined, values: Values) {
  const basis = values.resolve(
    `survey.${id}.lasts`,
    survey?.lasts,
    { value: row.seconds, unit: 's', prov: 'memory', source: 'usual length of the state' },
    { label: `how long ${row.label} lasts`, how: 'ask the owner', effort: 'read' },
  );
  if (basis === null) throw new Error('a default length exists for every state');
  return basis;
}

function postsOf(
  id: StateId,
  which: 'min' | 'typical' | 'max',
  row: StateRow,
  survey: SurveyedState | undefined,
  values: Values,
) {
  const given = survey?.posts?.[which];
  if (given === undefined) return null;
  return values.resolve(`survey.${id}.posts.${which}`, given, null, {
    label: `${WORDS[which]} volts at the battery posts while ${row.label}`,
    how: 'measure at the posts',
    effort: 'engine',
    slack: 'down',
  });
}

const WORDS = { min: 'least', typical: 'typical', max: 'greatest' } as const;
