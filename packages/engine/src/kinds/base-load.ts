/** What the vehicle itself draws: the survey's figure, else this part's, else the default of the state. */
import type { Basis, FieldTable, Kind, StateFacts, ValueReader } from '../contracts/index.ts';
import { STATE_IDS } from '../contracts/index.ts';
import { constantCurrent, ownOrPost } from './circuit.ts';
import { ask, asGiven, isStated, member } from './figures.ts';
import { anyOf, field, quantityShape, systemField } from './shapes.ts';
import { consumerGlyph } from './symbols.ts';

const fields: FieldTable = {
  system: systemField(),
  current: field(
    anyOf(
      'a current such as 30 A, or currents by state: `{ parked: 30 mA, driving: 25 A }`',
      quantityShape('current', { min: 0 }),
      {
        shape: 'map',
        keys: STATE_IDS,
        of: quantityShape('current', { min: 0 }),
      },
    ),
    "The vehicle's own current, A: one figure for all states, or one by state.",
    { slack: 'up', how: 'measure with a clamp on the battery lead', effort: 'engine' },
  ),
};

/** The current of a state, with what it rests on. */
function currentOf(read: ValueReader, state: StateFacts): Basis {
  if (state.surveyedLoad !== null) return state.surveyedLoad;
  const raw = read.raw('current');
  const single = isStated(raw);
  const stated = asGiven(single ? raw : member(raw, state.id));
  const path = single ? 'current' : `current.${state.id}`;
  const label = `vehicle's own load while ${state.label}`;
  const own = isStated(stated)
    ? read.resolve(path, stated, null, ask(label, 'up', 'engine', 'measure with a clamp on the battery lead'))
    : null;
  return own ?? read.use(state.ownLoad);
}

export const baseLoad: Kind = {
  name: 'base-load',
  title: "vehicle's own load",
  letter: 'E',
  home: 'vehicle',
  fields,
  terminals: () => ({ type: 'named', names: ['+', '-'] }),
  atPostsWhenUnwired: { plus: '+', minus: '-' },
  implied: (vehicle) => vehicle.hasVehicleBattery,
  abilities: (read) => ({
    vehicleLoad: (state) => currentOf(read, state),
    consumes: {
      plus: '+',
      minus: '-',
      section: null,
      class: 'none',
      inrush: 1,
      inrushSeconds: 0,
      character: 'resistive',
      schedule: 'always',
      atLeast: null,
      amps: null,
      ofVehicle: true,
    },
    across: [['+', '-']],
  }),
  symbol: () => ({ shape: 'round', terminals: ['+', '-'], glyph: consumerGlyph }),
  elements: (at) => [
    constantCurrent(
      ownOrPost(at, '+'),
      ownOrPost(at, '-'),
      at.mode === 'service' && !at.opened ? currentOf(at.read, at.state).sourced.value : 0,
    ),
  ],
  example: `loomwright: 1
title: A vehicle whose own load was measured
practice: europe
systems: { vehicle: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  vehicle: { kind: base-load, at: bonnet, current: { parked: 25 mA, idling: 22 A, driving: 26 A } }
`,
};
