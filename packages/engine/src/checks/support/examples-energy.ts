/** Small vehicles for the checks on sources, batteries and what hangs on the vehicle. */
import { van } from './examples.ts';

export const overdrawnExample = van('A large relay on a small signal', {
  parts: {
    'run-signal':
      '{ kind: supply-point, at: bonnet, live: [idling, driving], dead: others, measured: yes, limit: 0.25 A }',
    'big-relay': '{ kind: relay, at: bonnet, coil: 7 Ω, contacts: make, rating: 70 A, suppressed: yes }',
  },
  wires: {
    'coil-plus':
      '{ from: run-signal.out, to: big-relay.86, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
    'coil-minus':
      '{ from: big-relay.85, to: vehicle-battery.-, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
  },
});

const READY = {
  survey: { ready: '{ posts: { min: 13.8 V, typical: 14.2 V, max: 14.4 V }, load: 30 A }' },
  without: ['alternator', 'idling', 'driving'],
};

const READY_SIGNAL =
  '{ kind: supply-point, at: bonnet, live: [ready], dead: others, measured: yes, limit: 1 A, self-limiting: yes }';

const supplyConverter = (limits: string): string =>
  `{ kind: vehicle-converter, at: bonnet, ${limits}, above: folds-back, set-point: 14.2 V }`;

export const converterOverExample = van('A charger beyond what may be added to a hybrid', {
  ...READY,
  top: { vehicle: '{ supply: converter }' },
  parts: {
    'supply-converter': supplyConverter('limit: 120 A, added-limit: 25 A'),
    'run-signal': READY_SIGNAL,
  },
});

export const converterHeldExample = van('A charger inside what may be added to a hybrid', {
  ...READY,
  top: { vehicle: '{ supply: converter }' },
  parts: {
    'supply-converter': supplyConverter('limit: 120 A, added-limit: 60 A'),
    'run-signal': READY_SIGNAL,
  },
});

export const tooMuchChargeExample = van('A charger that gives more than the battery may take', {
  parts: {
    'house-battery':
      '{ kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 40 Ah, charge-limit: 20 A }',
  },
});

export const frostExample = van('A lithium battery in an unheated locker', {
  places: { locker: '{ label: Locker outside, hottest: 45 °C, coldest: -12 °C }' },
});

/** Two 12 V batteries in series feed a 24 V vehicle. */
const PAIR = {
  top: { systems: '{ vehicle: 24 V, house: 12 V }' },
  survey: {
    idling: '{ posts: { min: 27.2 V, typical: 27.8 V, max: 28.4 V }, output: 60 A, load: 15 A }',
    driving: '{ posts: { min: 27.6 V, typical: 28.2 V, max: 28.6 V }, load: 15 A }',
  },
  parts: {
    'vehicle-battery':
      '{ kind: battery, at: bonnet, role: vehicle, nominal: 12 V, chemistry: flooded, capacity: 180 Ah }',
    'lower-battery':
      '{ kind: battery, at: bonnet, role: vehicle, nominal: 12 V, chemistry: flooded, capacity: 180 Ah }',
    alternator: '{ kind: alternator, at: bonnet, plate: 50/80 A 28 V }',
    charger:
      '{ kind: dc-charger, at: locker, current: 20 A, enable: signal, starts: 24.6 V after 15 s, stops: 24.0 V after 5 s, low-input: stops, negative: common, efficiency: 0.88 }',
  },
  wires: {
    bridge:
      '{ from: vehicle-battery.-, to: lower-battery.+, size: 35 mm2, insulation: pvc-105, length: 20 cm }',
    return: '{ from: charger.in-, to: lower-battery.-, size: 35 mm2, insulation: pvc-105, length: 4 m }',
  },
};

export const pairExample = van('A charger across both batteries of a truck', PAIR);

export const halfLoadedExample = van('A radio on the lower battery of a truck', {
  ...PAIR,
  parts: { ...PAIR.parts, radio: '{ kind: load, at: bonnet, system: house, current: 15 A, on: always }' },
  wires: {
    ...PAIR.wires,
    'radio-plus': '{ from: lower-battery.+, to: radio.+, size: 4 mm2, insulation: pvc-105, length: 2 m }',
    'radio-minus': '{ from: radio.-, to: lower-battery.-, size: 4 mm2, insulation: pvc-105, length: 2 m }',
  },
});

export const circularExample = van(
  'A maintainer that lifts the vehicle battery for a voltage-sensed charger',
  {
    parts: {
      charger:
        '{ kind: dc-charger, at: locker, current: 30 A, enable: voltage, starts: 13.3 V after 15 s, stops: 12.8 V after 5 s, low-input: stops, negative: common, efficiency: 0.88 }',
      maintainer:
        '{ kind: dc-charger, at: locker, input-system: house, output-system: vehicle, current: 5 A, voltage: { absorption: 13.8 V }, enable: voltage, starts: 13.0 V after 15 s, stops: 12.5 V after 5 s, low-input: stops, negative: common, efficiency: 0.88 }',
    },
    wires: {
      'up-plus':
        '{ from: house-battery.+, to: maintainer.in+, size: 4 mm2, insulation: pvc-105, length: 40 cm }',
      'up-minus':
        '{ from: maintainer.in-, to: shunt.system, size: 4 mm2, insulation: pvc-105, length: 40 cm }',
      'up-out':
        '{ from: maintainer.out+, to: vehicle-battery.+, size: 4 mm2, insulation: pvc-105, length: 4 m }',
    },
  },
);

export const thinOutputExample = van('A charger four metres from its battery on thin cable', {
  wires: {
    out: '{ from: charger.out+, to: house-fuse.load, size: 6 mm2, insulation: pvc-105, length: 4 m }',
    'out-neg': '{ from: charger.out-, to: shunt.system, size: 6 mm2, insulation: pvc-105, length: 4 m }',
  },
});

/** A relay joins a lithium battery that opens above 15.6 V to the vehicle's supply. */
const joined = (title: string, variable: boolean): string =>
  van(title, {
    top: {
      vehicle: `{ supply: alternator, variable-voltage: ${variable ? 'yes' : 'no'}, automatic-stop: no }`,
    },
    ...(variable ? { survey: { overrun: '{ posts: { min: 15 V, typical: 15.4 V, max: 15.9 V } }' } } : {}),
    parts: {
      'house-battery':
        '{ kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 200 Ah, charge-limit: 200 A, opens: { both: above 15.6 V } }',
      joiner: '{ kind: relay, at: locker, coil: 85 Ω, contacts: make, rating: 100 A, suppressed: yes }',
      'run-signal':
        '{ kind: supply-point, at: bonnet, live: [idling, driving, overrun], dead: others, measured: yes, limit: 1 A, self-limiting: yes }',
    },
    wires: {
      'feed-2': '{ from: feed-fuse.load, to: joiner.30, size: 35 mm2, insulation: pvc-105, length: 4 m }',
      out: '{ from: joiner.87, to: house-fuse.load, size: 35 mm2, insulation: pvc-105, length: 50 cm }',
      'out-neg':
        '{ from: shunt.system, to: vehicle-battery.-, size: 35 mm2, insulation: pvc-105, length: 4 m }',
      run: '{ from: run-signal.out, to: owner-switch.in, size: 1 mm2, insulation: pvc-105, length: 4 m }',
      'run-2': '{ from: owner-switch.out, to: joiner.86, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
      'coil-return': '{ from: joiner.85, to: shunt.system, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
    },
    without: ['charger', 'return'],
  });

export const overrunExample = joined('A relay join to a vehicle that recovers energy', true);
export const joinedLowExample = joined('A relay join to a vehicle of fixed voltage', false);
