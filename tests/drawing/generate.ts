/**
 * Seeded build documents shaped like real installations: a vehicle battery with its feed, chargers, a house bank behind shunt and
 * isolator, busbars, loads behind their fuses, signals over relays and switches, returns by wire and by the body.
 */
import { Random } from '../oracles/random.ts';

export interface Made {
  readonly text: string;
  readonly parts: number;
  readonly wires: number;
}

export interface Shape {
  /** Parts aimed at, 10 to 60. */
  readonly parts: number;
  readonly places: number;
}

const PLACES = [
  'Engine bay',
  'Fuse board, glovebox',
  'Entrance step-well',
  'Overhead console',
  'Under the passenger seat',
  'Bench cupboard, rear',
  'Sample locker',
  'Tail box',
];
const COLOURS = ['RD', 'BK', 'BU', 'GN', 'WH', 'GY', 'red', 'GNYE', ''];
const LOADS = [
  'Reading light',
  'Roof fan',
  'Rinse pump',
  'Sample fridge',
  'Desk lights',
  'Outlet',
  'Dehumidifier',
  'Heater fan',
  'Radio',
  'Awning light',
];
const SIZES = ['1', '1.5', '2.5', '4', '6', '10', '16', '25', '35', '50'];

class Writer {
  readonly places: string[] = [];
  readonly routes: string[] = [];
  readonly parts: string[] = [];
  readonly wires: string[] = [];
  readonly taps = new Map<string, number>();
  readonly random: Random;

  constructor(random: Random) {
    this.random = random;
  }

  part(id: string, kind: string, at: string, rest = ''): string {
    this.parts.push(`  ${id}: { kind: ${kind}, at: ${at}${rest === '' ? '' : `, ${rest}`} }`);
    return id;
  }

  wire(from: string, to: string, size: string): void {
    const { random } = this;
    const colour = random.pick(COLOURS);
    const length = random.chance(0.3) ? '' : `, length: ${random.whole(1, 60) / 10} m`;
    const look = colour === '' ? '' : `, colour: ${colour}`;
    const text = random.chance(0.05) ? 'unknown' : `${size} mm2`;
    this.wires.push(
      `  w${this.wires.length + 1}-${from.split('.')[0]}: { from: ${from}, to: ${to}, size: ${text}, insulation: pvc-105${length}${look} }`,
    );
  }

  /** The next free tap of a bar. */
  tap(bar: string): string {
    const next = (this.taps.get(bar) ?? 0) + 1;
    this.taps.set(bar, next);
    return `${bar}.${next}`;
  }
}

/** A build document; the same seed gives the same text. */
export function makeBuild(seed: number, shape: Shape): Made {
  const random = new Random(seed);
  const w = new Writer(random);
  const places = placesFor(w, shape.places);
  const front = places[0] ?? 'p0';
  const rear = places[Math.max(1, places.length - 2)] ?? front;
  const bars = backbone(w, places, front, rear);
  for (let i = 0; w.parts.length < shape.parts - 2; i += 1) {
    if (random.chance(0.15)) signal(w, places, bars, i);
    else load(w, places, bars, i);
  }
  return {
    text: `loomwright: 1
title: Generated ${seed}
practice: ${random.pick(['europe', 'north-america'])}
systems: { vehicle: 12 V, house: 12 V }
vehicle: { supply: alternator, length: 6 m }
places:
${w.places.join('\n')}
routes:
${w.routes.join('\n')}
parts:
${w.parts.join('\n')}
wires:
${w.wires.join('\n')}
`,
    parts: w.parts.length,
    wires: w.wires.length,
  };
}

function placesFor(w: Writer, count: number): readonly string[] {
  const { random } = w;
  const ids = Array.from({ length: count }, (_, i) => `p${i}`);
  ids.forEach((id, i) => {
    const station = random.chance(0.8) ? `, station: ${((i + 0.5) * 5.6) / count} m` : '';
    const level = random.pick(['', ', level: floor', ', level: upper', ', level: roof']);
    w.places.push(`  ${id}: { label: "${PLACES[i % PLACES.length] ?? id}"${station}${level} }`);
    const before = ids[i - 1];
    if (before !== undefined)
      w.routes.push(
        `  - { from: ${before}, to: ${id}, length: ${random.whole(5, 30) / 10} m, in: ${random.pick(['free', 'conduit', 'loom'])} }`,
      );
    const earlier = ids[i - 2];
    if (earlier !== undefined && random.chance(0.3))
      w.routes.push(`  - { from: ${earlier}, to: ${id}, length: ${random.whole(10, 40) / 10} m, in: free }`);
  });
  return ids;
}

interface Bars {
  readonly plus: string;
  readonly minus: string;
  readonly ground: string;
  readonly charger: string;
}

function backbone(w: Writer, places: readonly string[], front: string, rear: string): Bars {
  const { random } = w;
  const thick = random.pick(SIZES.slice(6));
  w.part(
    'vehicle-battery',
    'battery',
    front,
    'role: vehicle, chemistry: agm, capacity: 95 Ah, label: Vehicle battery',
  );
  if (random.chance(0.5)) w.part('alternator', 'alternator', front, 'plate: 60/120 A 13.5 V');
  w.parts.push('  body: { kind: body-section, medium: steel }');
  w.part('ground', 'chassis-point', front, 'section: body, label: Body at the inner wing, stud: M8');
  w.part('feed', random.pick(['fuse', 'breaker']), front, 'rating: 60 A, label: Feed protection');
  w.part('charger', 'dc-charger', rear, 'current: 40 A, enable: signal, negative: common, label: DC charger');
  w.part('plus', 'busbar', rear, 'rating: 250 A, label: Positive busbar');
  w.part('minus', 'busbar', rear, 'rating: 250 A, label: Negative busbar');
  w.part('bank', 'battery', rear, 'role: house, chemistry: lifepo4, capacity: 200 Ah, label: House battery');
  w.part('bank-fuse', 'fuse', rear, 'family: class-t, rating: 200 A, label: House fuse');
  w.part('shunt', 'shunt', rear, 'rating: 500 A, label: Monitor shunt');
  w.wire('vehicle-battery.+', 'feed.line', thick);
  w.wire('feed.load', 'charger.in+', thick);
  w.wire('charger.in-', 'ground.stud', thick);
  w.wire('vehicle-battery.-', 'ground.stud', '35');
  if (random.chance(0.6)) {
    w.part('out-fuse', 'fuse', rear, 'rating: 60 A, label: Charger fuse');
    w.wire('charger.out+', 'out-fuse.load', thick);
    w.wire('out-fuse.line', w.tap('plus'), thick);
  } else w.wire('charger.out+', w.tap('plus'), thick);
  w.wire('charger.out-', w.tap('minus'), thick);
  w.wire('bank.+', 'bank-fuse.line', thick);
  if (random.chance(0.6)) {
    w.part('isolator', 'isolator', rear, 'rating: 275 A, label: House isolator');
    w.wire('bank-fuse.load', 'isolator.in', thick);
    w.wire('isolator.out', w.tap('plus'), thick);
  } else w.wire('bank-fuse.load', w.tap('plus'), thick);
  w.wire('bank.-', 'shunt.battery', thick);
  w.wire('shunt.system', w.tap('minus'), thick);
  const bars = { plus: 'plus', minus: 'minus', ground: 'ground', charger: 'charger' };
  enable(w, places, bars);
  return bars;
}

function enable(w: Writer, places: readonly string[], bars: Bars): void {
  const { random } = w;
  const at = random.pick(places);
  w.part(
    'run',
    'supply-point',
    at,
    'live: [driving, idling], dead: others, measured: no, limit: 1 A, label: Run supply',
  );
  if (random.chance(0.5)) {
    w.part('relay', 'relay', at, 'coil: 85 Ω, contacts: make, rating: 20 A, label: Run relay');
    w.part('dash', 'chassis-point', at, 'section: body, label: Dash bracket');
    w.part('tap-fuse', 'fuse', at, 'rating: 3 A, label: Signal fuse');
    w.wire('run.out', 'relay.86', '1');
    w.wire('relay.85', 'dash.stud', '1');
    w.wire('feed.load', 'tap-fuse.line', '1');
    w.wire('tap-fuse.load', 'relay.30', '1');
    w.part('hold', 'switch', random.pick(places), 'operated-by: owner, rating: 3 A, label: Charge switch');
    w.wire('relay.87', 'hold.in', '1');
    w.wire('hold.out', `${bars.charger}.enable`, '1');
  } else w.wire('run.out', `${bars.charger}.enable`, '1');
}

function load(w: Writer, places: readonly string[], bars: Bars, i: number): void {
  const { random } = w;
  const at = random.pick(places);
  const size = random.pick(SIZES.slice(0, 6));
  const name = LOADS[i % LOADS.length] ?? 'Load';
  const chassis = random.chance(0.15);
  const rest = random.pick([
    'current: 2 A, inrush: lamp',
    'current: 5 A, inrush: motor',
    'power: 60 W',
    'resistance: 2 Ω',
  ]);
  const id = w.part(
    `load-${i}`,
    'load',
    at,
    `${rest}, label: "${name} ${i + 1}"${chassis ? ', return: chassis, section: body' : ''}`,
  );
  const fuse = random.chance(0.8)
    ? w.part(
        `fuse-${i}`,
        'fuse',
        'p0' === at ? at : random.pick([at, places[Math.max(1, places.length - 2)] ?? at]),
        `rating: ${random.pick([5, 10, 15, 30])} A, label: "${name} fuse"`,
      )
    : null;
  const sw = random.chance(0.2)
    ? w.part(`switch-${i}`, 'switch', random.pick(places), `rating: 10 A, label: "${name} switch"`)
    : null;
  const stops = [
    w.tap(bars.plus),
    ...(fuse === null ? [] : [`${fuse}.line`, `${fuse}.load`]),
    ...(sw === null ? [] : [`${sw}.in`, `${sw}.out`]),
    `${id}.+`,
  ];
  for (let k = 0; k + 1 < stops.length; k += 2) w.wire(stops[k] ?? '', stops[k + 1] ?? '', size);
  if (!chassis) w.wire(`${id}.-`, random.chance(0.7) ? w.tap(bars.minus) : `${bars.ground}.stud`, size);
}

/** A second relay, a stud or a joint in between, a change-over switch. */
function signal(w: Writer, places: readonly string[], bars: Bars, i: number): void {
  const { random } = w;
  const at = random.pick(places);
  if (random.chance(0.5)) {
    const relay = w.part(
      `relay-${i}`,
      'relay',
      at,
      `coil: 85 Ω, contacts: ${random.pick(['make', 'break', 'change-over'])}, rating: 30 A, label: "Relay ${i}"`,
    );
    const lamp = w.part(`lamp-${i}`, 'load', random.pick(places), `current: 4 A, label: "Relay load ${i}"`);
    const contacts = w.parts.at(-2) ?? '';
    w.wire(w.tap(bars.plus), `${relay}.30`, '2.5');
    w.wire(`${relay}.${contacts.includes('contacts: break') ? '87a' : '87'}`, `${lamp}.+`, '2.5');
    w.wire(`${lamp}.-`, w.tap(bars.minus), '2.5');
    w.wire('run.out', `${relay}.86`, '1');
    w.wire(`${relay}.85`, `${bars.ground}.stud`, '1');
    return;
  }
  const joint = w.part(`joint-${i}`, 'joint', at, `label: "Plug ${i}"`);
  const lamp = w.part(
    `lamp-${i}`,
    'load',
    random.pick(places),
    `current: 1 A, inrush: lamp, label: "Sign ${i}"`,
  );
  w.wire(w.tap(bars.plus), `${joint}.a`, '1');
  w.wire(`${joint}.b`, `${lamp}.+`, '1');
  w.wire(`${lamp}.-`, w.tap(bars.minus), '1');
}
