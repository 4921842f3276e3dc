/** Documents of the worked cases. */
import { checks } from '../registry.ts';
import { pairExample } from '../support/examples-energy.ts';
import { liveBeyondExample } from '../support/examples-negative.ts';
import { van } from '../support/examples.ts';

/** The checks of this half: function, supply, batteries, negative. */
export const own = checks.filter((c) =>
  [
    'hunting',
    'chatter',
    'input-window',
    'drop',
    'output-drop',
    'enable',
    'enable-volts',
    'back-feed',
    'still-live',
    'no-start',
    'drain',
    'surplus',
    'converter-limit',
    'supply-point-limit',
    'charge-sum',
    'cold-charge',
    'circular-charging',
    'battery-over-volts',
    'midpoint',
    'shunt-share',
    'sensor',
    'return-medium',
    'isolation',
    'charger-negative',
    'battery-opens',
  ].includes(c.id),
);

const BARE = 'joints: { from: 0 mΩ, to: 0 mΩ }';
const bare = (from: string, to: string, size: string, length: string): string =>
  `{ from: ${from}, to: ${to}, size: ${size}, insulation: pvc-105, length: ${length}, ${BARE} }`;

const TOP = { settings: '{ resistance-at: 20 °C }' };

/** Feed and return of 7 m with 5 mΩ of breaker and joints; posts held by an alternator that is large enough. */
export function thinRun(size: string, posts: string, lowInput = 'stops'): string {
  const held = `{ posts: { min: ${posts}, typical: ${posts}, max: ${posts} }, output: 200 A, load: 10 A }`;
  const thresholds = lowInput === 'stops' ? 'stops: 12.8 V after 3 s, ' : 'stops: 11 V after 3 s, ';
  return van('Seven metres', {
    top: TOP,
    survey: { idling: held, driving: held },
    parts: {
      charger: `{ kind: dc-charger, at: locker, current: 30 A, voltage: { absorption: 14.2 V }, enable: voltage, starts: 13.3 V after 30 s, ${thresholds}low-input: ${lowInput}, negative: common, efficiency: 0.88 }`,
      joints: '{ kind: joint, at: bonnet, resistance: 5 mΩ }',
    },
    wires: {
      feed: bare('vehicle-battery.+', 'joints.a', size, '1 mm'),
      'feed-2': bare('joints.b', 'charger.in+', size, '7 m'),
      return: bare('charger.in-', 'vehicle-battery.-', size, '7 m'),
    },
    without: ['feed-fuse'],
  });
}

/**
 * Battery negative to the body point by 0.5 mΩ, and by shunt and bond 1.6 mΩ (each end of a wire counts 10 µΩ at least); the
 * charger's return on that point.
 */
export const bypassed = van('A second way to the battery negative', {
  top: TOP,
  survey: { driving: '{ posts: { min: 14.2 V, typical: 14.2 V, max: 14.2 V }, output: 200 A, lasts: 3 h }' },
  parts: {
    body: '{ kind: body-section, medium: steel }',
    point: '{ kind: chassis-point, at: locker, section: body }',
    past: '{ kind: joint, at: locker, resistance: 0.48 mΩ }',
    bond: '{ kind: joint, at: locker, resistance: 1.47 mΩ }',
    shunt: '{ kind: shunt, at: locker, rating: 300 A, resistance: 0.1 mΩ }',
  },
  wires: {
    'past-1': bare('house-battery.-', 'past.a', '50 mm2', '1 mm'),
    'past-2': bare('past.b', 'point.stud', '50 mm2', '1 mm'),
    'bank-neg': bare('house-battery.-', 'shunt.battery', '50 mm2', '1 mm'),
    'bond-1': bare('shunt.system', 'bond.a', '50 mm2', '1 mm'),
    'bond-2': bare('bond.b', 'point.stud', '50 mm2', '1 mm'),
    'out-neg': '{ from: charger.out-, to: point.stud, size: 16 mm2, insulation: pvc-105, length: 50 cm }',
  },
});

/** 25 mm² each way over 4.5 m, 1.5 mΩ of device and 1.2 mΩ of joints. */
export const reference = van('The van that must pass', {
  top: TOP,
  survey: {
    idling:
      '{ posts: { min: 12.5 V, typical: 13.9 V, max: 14.3 V }, output: 150 A, load: 28 A, lasts: 30 min }',
    driving: '{ posts: { min: 12.5 V, typical: 14.2 V, max: 14.4 V }, output: 150 A, load: 30 A }',
  },
  parts: {
    'feed-fuse': '{ kind: joint, at: bonnet, resistance: 2.7 mΩ }',
  },
  wires: {
    feed: bare('vehicle-battery.+', 'feed-fuse.a', '25 mm2', '15 cm'),
    'feed-2': bare('feed-fuse.b', 'charger.in+', '25 mm2', '4.35 m'),
    return: bare('charger.in-', 'vehicle-battery.-', '25 mm2', '4.5 m'),
    'out-neg': '{ from: charger.out-, to: shunt.system, size: 25 mm2, insulation: pvc-105, length: 50 cm }',
  },
});

const SENSED = (at: string): string =>
  `{ kind: dc-charger, at: locker, current: 30 A, enable: voltage, starts: ${at}, stops: 12.0 V after 5 s, low-input: stops, negative: common, efficiency: 0.88 }`;

/** The first starts sooner and pulls the common feed under the second's start threshold. */
export const twoOnOne = van('Two chargers on one feed', {
  survey: {
    idling: '{ posts: { min: 13.9 V, typical: 13.9 V, max: 13.9 V }, output: 200 A, load: 10 A }',
    driving: '{ posts: { min: 13.9 V, typical: 13.9 V, max: 13.9 V }, output: 200 A, load: 10 A }',
  },
  parts: { charger: SENSED('13.3 V after 5 s'), second: SENSED('13.3 V after 30 s') },
  wires: {
    'feed-2': '{ from: feed-fuse.load, to: charger.in+, size: 10 mm2, insulation: pvc-105, length: 6 m }',
    return: '{ from: charger.in-, to: vehicle-battery.-, size: 10 mm2, insulation: pvc-105, length: 6 m }',
    'second-in': '{ from: charger.in+, to: second.in+, size: 10 mm2, insulation: pvc-105, length: 30 cm }',
    'second-back': '{ from: second.in-, to: charger.in-, size: 10 mm2, insulation: pvc-105, length: 30 cm }',
    'second-out':
      '{ from: second.out+, to: house-fuse.load, size: 16 mm2, insulation: pvc-105, length: 50 cm }',
    'second-neg': '{ from: second.out-, to: shunt.system, size: 16 mm2, insulation: pvc-105, length: 50 cm }',
  },
});

/** The sound van with some fields of its charger changed. */
export function charge(fields: Readonly<Record<string, string>>): string {
  const all = { current: '30 A', enable: 'signal', 'low-input': 'stops', negative: 'common', ...fields };
  const text = Object.entries(all).map(([k, v]) => `${k}: ${v}`);
  return van('A charger of which not all is known', {
    parts: { charger: `{ kind: dc-charger, at: locker, ${text.join(', ')} }` },
  });
}

/** A whole van with a relay for the run signal; `output`: what idling gives. */
export const beekeeper = (output: string): string => `loomwright: 1
title: Job 114, beekeeper's van
practice: europe                          # or north-america
systems: { vehicle: 12 V, house: 12 V }
vehicle: { supply: alternator, variable-voltage: no, automatic-stop: no, length: 5.1 m }
climate: { coldest: -12 °C, hottest: 38 °C }
stock: { sizes: [16 mm2, 25 mm2, 35 mm2, 50 mm2] }
places:                                   # nose to tail
  bonnet:   { label: Under the bonnet, station: 0.6 m, hottest: 80 °C, engine-space: yes }
  footwell: { label: Passenger footwell, station: 1.5 m }
  bulkhead: { label: Load bulkhead, station: 2.1 m, hottest: 45 °C }
  locker:   { label: Locker ahead of the right rear wheel, station: 3.9 m, hottest: 45 °C, coldest: 5 °C }
routes:
  - { from: bonnet, to: bulkhead, length: 1.5 m, in: free }
  - { from: footwell, to: bulkhead, length: 1.1 m, in: conduit }
  - { from: bulkhead, to: locker, length: 2.1 m, in: conduit }
survey:
  idling:  { posts: { min: 13.6 V, typical: 13.9 V, max: 14.3 V }, output: ${output}, load: 28 A }
  driving: { posts: { min: 13.8 V, typical: 14.2 V, max: 14.4 V } }
parts:
  vehicle-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah, cranking: unknown }
  alternator:      { kind: alternator, at: bonnet, plate: 70/150 A 13.5 V }     # unwired: at the vehicle battery's posts
  feed-fuse:       { kind: fuse, at: bonnet, family: bolt-down, rating: 80 A, interrupts: 6 kA, curve: [{ at: 110 %, opens: never..14400 s }, { at: 200 %, opens: 1..15 s }, { at: 350 %, opens: 0.3..5 s }, { at: 600 %, opens: 0.1..1 s }] }
  isolator:        { kind: isolator, at: bulkhead, rating: 150 A }
  charger:         { kind: dc-charger, at: locker, current: 40 A, enable: signal, low-input: stops, negative: common }
  house-fuse:      { kind: fuse, at: locker, family: class-t, rating: 60 A, interrupts: 20 kA, clearing: 12000 A²s }
  house-battery:   { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 200 Ah, charge-limit: 100 A }
  shunt:           { kind: shunt, at: locker, rating: 300 A }
  body:            { kind: body-section, medium: steel }
  factory-ground:  { kind: chassis-point, at: bonnet, section: body }
  dash-ground:     { kind: chassis-point, at: footwell, section: body }
  run-plug:        { kind: supply-point, at: footwell, live: [idling, driving], dead: others, measured: no, limit: 0.25 A, self-limiting: yes }
  run-relay:       { kind: relay, at: footwell, coil: 85 Ω, contacts: make, rating: 20 A, suppressed: yes }
  tap-fuse:        { kind: fuse, at: bulkhead, family: blade-f, rating: 3 A }
  hold-switch:     { kind: switch, at: locker, operated-by: owner, rating: 3 A, least-current: 1 mA }
wires:
  feed:     { from: vehicle-battery.+, to: feed-fuse.line, size: 50 mm2, insulation: pvc-105, length: 12 cm }
  feed-2:   { from: feed-fuse.load, to: isolator.in, size: 50 mm2, insulation: pvc-105, via: [bonnet, bulkhead] }
  feed-3:   { from: isolator.out, to: charger.in+, size: 50 mm2, insulation: pvc-105, via: [bulkhead, locker] }
  return:   { from: charger.in-, to: factory-ground.stud, size: 50 mm2, insulation: pvc-105, via: [locker, bulkhead, bonnet] }
  earth:    { from: vehicle-battery.-, to: factory-ground.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }
  tap:      { from: isolator.in, to: tap-fuse.line, size: 1 mm2, length: 10 cm }
  tap-2:    { from: tap-fuse.load, to: run-relay.30, size: 1 mm2, via: [bulkhead, footwell] }
  run:      { from: run-plug.out, to: run-relay.86, size: 1 mm2, length: 20 cm }
  run-neg:  { from: run-relay.85, to: dash-ground.stud, size: 1 mm2, length: 30 cm }
  enable:   { from: run-relay.87, to: hold-switch.in, size: 1 mm2, via: [footwell, bulkhead, locker] }
  enable-2: { from: hold-switch.out, to: charger.enable, size: 1 mm2, length: 40 cm }
  out:      { from: charger.out+, to: house-fuse.load, size: 25 mm2, length: 50 cm }
  bank:     { from: house-fuse.line, to: house-battery.+, size: 25 mm2, length: 15 cm }
  out-neg:  { from: charger.out-, to: shunt.system, size: 25 mm2, length: 50 cm }
  bank-neg: { from: shunt.battery, to: house-battery.-, size: 25 mm2, length: 20 cm }
requires:
  - charges only while the engine runs
  - the owner can stop charging
`;

export const pair = pairExample;

/** A relay joins house and vehicle behind the breaker at the vehicle battery. */
export const joinedBehindBreaker = liveBeyondExample.replace(
  /feed-fuse: \{.*\}/,
  'feed-fuse: { kind: breaker, at: bonnet, rating: 60 A, reset: manual, interrupts: 5 kA }',
);
