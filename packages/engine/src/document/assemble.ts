/** From the values of the field tables (names as in documents) to the build (names as in the contracts). */
import type {
  Confirmed,
  Given,
  Id,
  Measured,
  Place,
  PracticeId,
  Requirement,
  Route,
  SetAside,
  Settings,
  Stated,
  StateId,
  Stock,
  SurveyedState,
  Vehicle,
  Wire,
} from '../contracts/index.ts';
import { nowhere } from './ids.ts';

/** A record as read: only what was given. */
export type Values = Readonly<Record<string, unknown>>;

type Present<T> = { [K in keyof T]: Exclude<T[K], undefined> };

/** Leaves out what is undefined, so that absent stays absent. */
function present<T extends object>(value: T): Present<T> {
  return Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined)) as Present<T>;
}

/** A word out of a list, `unknown` counting as not given. */
const word = (value: unknown): string | undefined =>
  typeof value === 'string' && value !== 'unknown' ? value : undefined;
const text = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
const given = (value: unknown): Given | undefined => value as Given | undefined;
const flag = (value: unknown): boolean | undefined => (typeof value === 'boolean' ? value : undefined);
const yes = (value: unknown): boolean => value === true;

export function vehicleOf(values: Values): Vehicle {
  return present({
    supply: values['supply'] as Vehicle['supply'],
    engine: flag(values['engine']),
    variableVoltage: values['variable-voltage'] as Vehicle['variableVoltage'],
    automaticStop: values['automatic-stop'] as Vehicle['automaticStop'],
    plugIn: flag(values['plug-in']),
    length: given(values['length']),
  }) as Vehicle;
}

export function climateOf(values: Values): { readonly coldest?: Given; readonly hottest?: Given } {
  return present({ coldest: given(values['coldest']), hottest: given(values['hottest']) });
}

export function settingsOf(values: Values): Settings {
  return {
    resistanceAt: resistanceAtOf(values['resistance-at']),
    faultContact: given(values['fault-contact']) ?? null,
    meter: given(values['meter']) ?? null,
    allowance: given(values['allowance']) ?? null,
  };
}

function resistanceAtOf(value: unknown): Settings['resistanceAt'] {
  if (typeof value === 'object' && value !== null) return (value as Stated).value;
  return value === 'ambient' ? 'ambient' : 'predicted';
}

export function stockOf(values: Values): Stock {
  return {
    sizes: (values['sizes'] ?? []) as Stock['sizes'],
    fuses: (values['fuses'] ?? []) as Stock['fuses'],
    lugs: (values['lugs'] ?? []) as Stock['lugs'],
  };
}

export function surveyedOf(values: Values): SurveyedState {
  const posts = values['posts'] as Values | undefined;
  return present({
    posts:
      posts &&
      present({ min: given(posts['min']), typical: given(posts['typical']), max: given(posts['max']) }),
    output: given(values['output']),
    load: given(values['load']),
    lasts: given(values['lasts']),
    by: text(values['by']),
    date: text(values['date']),
  }) as SurveyedState;
}

export function surveyOf(values: Values): ReadonlyMap<StateId, SurveyedState> {
  return new Map(
    Object.entries(values).map(([state, of]) => [state as StateId, surveyedOf(of as Values)] as const),
  );
}

export function placeOf(id: Id, values: Values): Place {
  return {
    id,
    ...(present({
      label: text(values['label']),
      station: given(values['station']),
      level: word(values['level']),
      hottest: given(values['hottest']),
      coldest: given(values['coldest']),
    }) as Partial<Place>),
    engineSpace: yes(values['engine-space']),
    enclosed: yes(values['enclosed']),
    wet: yes(values['wet']),
    gasOrFuel: yes(values['gas-or-fuel']),
    living: yes(values['living']),
    crashZone: yes(values['crash-zone']),
  };
}

/** How wires lie where nobody says: with others, which is the warmer case. */
const IN_DEFAULT = 'loom';

export function routeOf(values: Values): Route {
  return {
    from: values['from'] as Id,
    to: values['to'] as Id,
    in: (word(values['in']) ?? IN_DEFAULT) as Route['in'],
    ...present({ length: given(values['length']), insulatedWall: given(values['insulated-wall']) }),
  };
}

export function wireOf(id: Id, values: Values): Wire {
  const joints = values['joints'] as Values | undefined;
  return {
    id,
    from: text(values['from']) ?? nowhere(id, 'from'),
    to: text(values['to']) ?? nowhere(id, 'to'),
    ...(present({
      size: values['size'],
      length: given(values['length']),
      via: values['via'],
      insulation: values['insulation'],
      strand: word(values['strand']),
      colour: text(values['colour']),
      joints: joints && present({ from: given(joints['from']), to: given(joints['to']) }),
      returnWire: text(values['return']),
      torque: given(values['torque']),
      number: text(values['number']),
    }) as Partial<Wire>),
    material: (word(values['material']) ?? 'copper') as Wire['material'],
    sheathed: yes(values['sheathed']),
  };
}

export function asideOf(values: Values): SetAside {
  return {
    finding: values['finding'] as string,
    reason: values['reason'] as string,
    ...present({ by: text(values['by']), date: text(values['date']) }),
  };
}

export function measuredOf(values: Values): Measured {
  return {
    from: values['from'] as string,
    to: values['to'] as string,
    resistance: values['resistance'] as Stated,
    ...present({ by: text(values['by']), date: text(values['date']) }),
  };
}

export function confirmedOf(values: Values): Confirmed {
  return {
    table: (values['table'] ?? values['figure']) as string,
    ...present({
      edition: text(values['edition']),
      by: text(values['by']),
      date: text(values['date']),
    }),
  };
}

export const practiceOf = (value: unknown): PracticeId | undefined => word(value) as PracticeId | undefined;
export const requirementsOf = (value: unknown): readonly Requirement[] =>
  ((value ?? DEFAULT_REQUIREMENTS) as readonly string[]).filter(
    (sentence) => sentence !== 'unknown',
  ) as Requirement[];

/** What holds when a document says nothing. */
const DEFAULT_REQUIREMENTS: readonly Requirement[] = [
  'charges only while the engine runs',
  'the owner can stop charging',
];
