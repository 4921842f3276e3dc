/** Key, engine, drive, lead: what a person turns at a vehicle, and the state that follows from it. */
import type { StateId } from '../contracts/index.ts';

export type KeyAt = 'off' | 'on' | 'crank';
export type EngineAt = 'stopped' | 'idling' | 'driving' | 'overrun' | 'paused';
export type VehicleAt = 'asleep' | 'awake' | 'falling-asleep';

export interface VehicleHands {
  readonly key: KeyAt;
  readonly engine: EngineAt;
  /** Of a vehicle that may be ready to drive without an engine running. */
  readonly drive: 'off' | 'ready';
  /** Counts while the key is off. */
  readonly vehicle: VehicleAt;
  /** Charging lead. */
  readonly lead: 'out' | 'in';
  /** Put away with its isolators open. */
  readonly stored: boolean;
}

export type HandName = Exclude<keyof VehicleHands, 'stored'>;

/** The hands that a vehicle has, and the positions of each. */
export interface HandChoice {
  readonly hand: HandName;
  readonly positions: readonly string[];
}

const REST: VehicleHands = {
  key: 'off',
  engine: 'stopped',
  drive: 'off',
  vehicle: 'asleep',
  lead: 'out',
  stored: false,
};

const OF_STATE: Readonly<Record<StateId, Partial<VehicleHands>>> = {
  parked: {},
  woken: { vehicle: 'awake' },
  'after-run': { vehicle: 'falling-asleep' },
  'ignition-on': { key: 'on' },
  cranking: { key: 'crank' },
  idling: { key: 'on', engine: 'idling' },
  driving: { key: 'on', engine: 'driving' },
  overrun: { key: 'on', engine: 'overrun' },
  'automatic-stop': { key: 'on', engine: 'paused' },
  ready: { key: 'on', drive: 'ready' },
  'plugged-in': { lead: 'in' },
  stored: { stored: true },
};

/** How the hands stand in a state. */
export const handsOfState = (state: StateId): VehicleHands => ({ ...REST, ...OF_STATE[state] });

const ENGINE: readonly (readonly [EngineAt, StateId])[] = [
  ['idling', 'idling'],
  ['driving', 'driving'],
  ['overrun', 'overrun'],
  ['paused', 'automatic-stop'],
];

/** Only what this vehicle has, by the states that it has. */
export function handChoices(states: ReadonlySet<StateId>): readonly HandChoice[] {
  const engine = ENGINE.flatMap(([at, state]) => (states.has(state) ? [at] : []));
  const choices: readonly (HandChoice | null)[] = [
    { hand: 'key', positions: states.has('cranking') ? ['off', 'on', 'crank'] : ['off', 'on'] },
    engine.length === 0 ? null : { hand: 'engine', positions: ['stopped', ...engine] },
    states.has('ready') ? { hand: 'drive', positions: ['off', 'ready'] } : null,
    {
      hand: 'vehicle',
      positions: [
        'asleep',
        ...(states.has('woken') ? ['awake'] : []),
        ...(states.has('after-run') ? ['falling-asleep'] : []),
      ],
    },
    states.has('plugged-in') ? { hand: 'lead', positions: ['out', 'in'] } : null,
  ];
  return choices.filter((choice) => choice !== null && choice.positions.length > 1) as readonly HandChoice[];
}

const SPOKEN: Readonly<Record<string, string>> = {
  'falling-asleep': 'falling asleep',
  paused: 'stopped by itself',
};

/** A position in words. */
export const positionWords = (position: string): string => SPOKEN[position] ?? position;

export type StateOfHands =
  | { readonly state: StateId }
  /** Why there is none: "drive ready with the key off". */
  | { readonly state: null; readonly says: string };

/** The state that the hands make, or why they make none. */
export function stateOfHands(hands: VehicleHands, states: ReadonlySet<StateId>): StateOfHands {
  const found = hands.key === 'off' ? keyOff(hands) : keyOn(hands);
  if (found.state === null || states.has(found.state)) return found;
  return { state: null, says: `${found.state.replaceAll('-', ' ')} in this vehicle` };
}

const none = (says: string): StateOfHands => ({ state: null, says });

function keyOff({ engine, drive, lead, stored, vehicle }: VehicleHands): StateOfHands {
  if (engine !== 'stopped') return none(`engine ${positionWords(engine)} with the key off`);
  if (drive === 'ready') return none('drive ready with the key off');
  if (lead === 'in') return stored ? none('plugged in with the isolator open') : { state: 'plugged-in' };
  if (vehicle === 'awake') return { state: 'woken' };
  if (vehicle === 'falling-asleep') return { state: 'after-run' };
  return { state: stored ? 'stored' : 'parked' };
}

function keyOn({ key, engine, drive, lead }: VehicleHands): StateOfHands {
  if (lead === 'in') return none(`key ${key === 'crank' ? 'cranking' : 'on'} while plugged in`);
  if (key === 'crank')
    return engine === 'stopped'
      ? { state: 'cranking' }
      : none(`cranking with the engine ${positionWords(engine)}`);
  const running = ENGINE.find(([at]) => at === engine)?.[1];
  if (running !== undefined) return { state: running };
  return { state: drive === 'ready' ? 'ready' : 'ignition-on' };
}

/**
 * One hand turned, and what that moves by itself: the key turned off stops engine and drive, and a vehicle that ran falls
 * asleep; an engine that fires lets the key spring back; the key turned on wakes the vehicle.
 */
export function turned(
  hands: VehicleHands,
  hand: HandName,
  to: string,
  states: ReadonlySet<StateId>,
): VehicleHands {
  const next: VehicleHands = { ...hands, [hand]: to };
  if (hand === 'key' && to === 'off') {
    const ran = hands.key !== 'off' && (hands.engine !== 'stopped' || hands.drive === 'ready');
    const vehicle = ran && states.has('after-run') ? 'falling-asleep' : 'asleep';
    return { ...next, engine: 'stopped', drive: 'off', vehicle };
  }
  if (hand === 'key') return { ...next, vehicle: 'asleep' };
  if (hand === 'engine' && to !== 'stopped' && hands.key === 'crank') return { ...next, key: 'on' };
  return next;
}
