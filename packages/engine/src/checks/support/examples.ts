/** Small vehicles that fail one check and pass it: one sound van, and the single thing that is wrong with it. */

/** Lines of a document by id. */
type Lines = Readonly<Record<string, string>>;

const PARTS: Lines = {
  'vehicle-battery': '{ kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah }',
  alternator: '{ kind: alternator, at: bonnet, plate: 90/150 A 13.5 V }',
  'feed-fuse': '{ kind: fuse, at: bonnet, family: bolt-down, rating: 60 A, interrupts: 6 kA }',
  charger:
    '{ kind: dc-charger, at: locker, current: 30 A, enable: signal, starts: 12.3 V after 15 s, stops: 12.0 V after 5 s, low-input: stops, negative: common, efficiency: 0.88 }',
  'house-fuse':
    '{ kind: fuse, at: locker, family: class-t, rating: 60 A, interrupts: 20 kA, clearing: 12000 A²s }',
  'house-battery':
    '{ kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 200 Ah, charge-limit: 100 A }',
  shunt: '{ kind: shunt, at: locker, rating: 300 A }',
  'run-signal':
    '{ kind: supply-point, at: bonnet, live: [idling, driving], dead: others, measured: yes, limit: 1 A, self-limiting: yes }',
  'owner-switch': '{ kind: switch, at: locker, operated-by: owner, rating: 3 A, least-current: 1 mA }',
};

const WIRES: Lines = {
  feed: '{ from: vehicle-battery.+, to: feed-fuse.line, size: 35 mm2, insulation: pvc-105, length: 15 cm }',
  'feed-2': '{ from: feed-fuse.load, to: charger.in+, size: 35 mm2, insulation: pvc-105, length: 4 m }',
  return: '{ from: charger.in-, to: vehicle-battery.-, size: 35 mm2, insulation: pvc-105, length: 4 m }',
  out: '{ from: charger.out+, to: house-fuse.load, size: 16 mm2, insulation: pvc-105, length: 50 cm }',
  bank: '{ from: house-fuse.line, to: house-battery.+, size: 16 mm2, insulation: pvc-105, length: 15 cm }',
  'out-neg': '{ from: charger.out-, to: shunt.system, size: 16 mm2, insulation: pvc-105, length: 50 cm }',
  'bank-neg':
    '{ from: shunt.battery, to: house-battery.-, size: 16 mm2, insulation: pvc-105, length: 20 cm }',
  run: '{ from: run-signal.out, to: owner-switch.in, size: 1 mm2, insulation: pvc-105, length: 4 m }',
  'run-2': '{ from: owner-switch.out, to: charger.enable, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
};

const TOP: Lines = {
  practice: 'europe',
  systems: '{ vehicle: 12 V, house: 12 V }',
  vehicle: '{ supply: alternator, variable-voltage: no, automatic-stop: no }',
  climate: '{ coldest: -12 °C, hottest: 38 °C }',
};

const PLACES: Lines = {
  bonnet: '{ label: Under the bonnet, hottest: 80 °C, engine-space: yes }',
  locker: '{ label: Locker in the load space, hottest: 45 °C, coldest: 5 °C }',
};

export interface Changes {
  readonly top?: Lines;
  readonly places?: Lines;
  readonly survey?: Lines;
  /** Replaces a part, or adds one. */
  readonly parts?: Lines;
  readonly wires?: Lines;
  readonly without?: readonly string[];
}

const SURVEY: Lines = {
  idling: '{ posts: { min: 13.6 V, typical: 13.9 V, max: 14.3 V }, output: 95 A, load: 28 A }',
  driving: '{ posts: { min: 13.8 V, typical: 14.2 V, max: 14.4 V } }',
};

/** The sound van with some lines put in place of others. */
export function van(title: string, changes: Changes = {}): string {
  const without = new Set(changes.without ?? []);
  const block = (key: string, base: Lines, over: Lines = {}): readonly string[] => {
    const lines = Object.entries({ ...base, ...over }).filter(([id]) => !without.has(id));
    return lines.length === 0 ? [] : [`${key}:`, ...lines.map(([id, text]) => `  ${id}: ${text}`)];
  };
  return [
    'loomwright: 1',
    `title: ${title}`,
    ...Object.entries({ ...TOP, ...changes.top }).map(([key, text]) => `${key}: ${text}`),
    ...block('places', PLACES, changes.places),
    ...block('survey', SURVEY, changes.survey),
    ...block('parts', PARTS, changes.parts),
    ...block('wires', WIRES, changes.wires),
    '',
  ].join('\n');
}

export const settledExample = van('A van that charges as it should');

const THIN = (from: string, to: string): string =>
  `{ from: ${from}, to: ${to}, size: 6 mm2, insulation: pvc-105, length: 7 m }`;

const VOLTAGE_SENSED =
  '{ kind: dc-charger, at: locker, current: 30 A, enable: voltage, starts: 13.3 V after 30 s, stops: 12.8 V after 3 s, low-input: stops, negative: common, efficiency: 0.88 }';

export const huntingExample = van('A charger on seven metres of thin cable', {
  parts: { charger: VOLTAGE_SENSED },
  wires: {
    'feed-2': THIN('feed-fuse.load', 'charger.in+'),
    return: THIN('charger.in-', 'vehicle-battery.-'),
  },
});

export const neverStartsExample = van('A voltage-sensed charger on a variable-voltage vehicle', {
  top: { vehicle: '{ supply: alternator, variable-voltage: yes, automatic-stop: no }' },
  survey: {
    idling: '{ posts: { min: 12.4 V, typical: 12.6 V, max: 12.9 V }, load: 28 A }',
    driving: '{ posts: { min: 12.4 V, typical: 12.6 V, max: 12.9 V } }',
  },
  parts: { charger: VOLTAGE_SENSED },
});

const LAMP = '{ kind: load, at: locker, current: 10 A, class: critical, on: always }';

export const thinLoadExample = van('A critical load on thin wire', {
  parts: { pump: LAMP },
  wires: {
    'pump-plus': '{ from: house-battery.+, to: pump.+, size: 1.5 mm2, insulation: pvc-105, length: 4 m }',
    'pump-minus': '{ from: pump.-, to: shunt.system, size: 1.5 mm2, insulation: pvc-105, length: 4 m }',
  },
});

export const thickLoadExample = van('A critical load on wire that is thick enough', {
  parts: { pump: LAMP },
  wires: {
    'pump-plus': '{ from: house-battery.+, to: pump.+, size: 10 mm2, insulation: pvc-105, length: 4 m }',
    'pump-minus': '{ from: pump.-, to: shunt.system, size: 10 mm2, insulation: pvc-105, length: 4 m }',
  },
});

export const highSignalExample = van('A 24 V signal on a 12 V input', {
  parts: {
    'run-signal':
      '{ kind: supply-point, at: bonnet, live: [idling, driving], dead: others, volts: 28.2 V, measured: yes, limit: 1 A, self-limiting: yes }',
  },
});

export const keyOnExample = van('A signal that is live with the key', {
  parts: {
    charger:
      '{ kind: dc-charger, at: locker, current: 50 A, enable: signal, starts: 11.5 V after 15 s, stops: 10.6 V after 5 s, low-input: stops, negative: common, efficiency: 0.88 }',
    'vehicle-battery': '{ kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 60 Ah }',
    'run-signal':
      '{ kind: supply-point, at: bonnet, live: [ignition-on, idling, driving], dead: others, measured: yes, limit: 1 A, self-limiting: yes }',
  },
});

export const backFedExample = van('An override switch that feeds the run signal from the house', {
  parts: { override: '{ kind: switch, at: locker, operated-by: owner, rating: 3 A, normal: open }' },
  wires: {
    'override-plus':
      '{ from: house-battery.+, to: override.in, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
    'override-out':
      '{ from: override.out, to: charger.enable, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
  },
});

export const drainedExample = van('A van laid up for the winter with a charger that stays awake', {
  survey: { stored: '{ lasts: 20 d, load: 30 mA }' },
  parts: {
    charger:
      '{ kind: dc-charger, at: locker, current: 30 A, enable: signal, low-input: stops, negative: common, efficiency: 0.88, standby: 50 mA }',
  },
});

export const idleOverloadExample = van('A charger that is larger than what idling leaves', {
  survey: {
    idling: '{ posts: { min: 13.6 V, typical: 13.9 V, max: 14.3 V }, output: 60 A, load: 45 A, lasts: 3 h }',
  },
});
