/** Blocks of a made-up build: the vehicle's side, the house, the feed between them, control, loads. */
import { volts, type Sketch } from './sketch.ts';
import type { Fields } from './plain.ts';

export interface Plan {
  /** Number of parts wanted in all. */
  readonly parts: number;
  readonly supply: 'alternator' | 'converter' | 'unknown';
  /** Rated output of the charger. */
  readonly amps: number;
  readonly feedOhms: 'strong' | 'weak';
}

/** Parts that may still be added. */
const room = (s: Sketch, plan: Plan): number => plan.parts - s.count;

const has = (s: Sketch, id: string): boolean => s.parts[id] !== undefined;

const RUNNING: readonly string[] = ['idling', 'driving', 'overrun', 'ready'];

/** A fuse or a breaker. */
function device(s: Sketch, id: string, at: string, amps: number, house: boolean): string {
  const rating = s.rating(amps);
  const dc = s.maybe(60, () => ({ 'dc-rating': `${s.pick([32, 48, 80])} V` }));
  if (s.odds(25)) {
    return s.part(id, 'breaker', at, {
      rating: `${rating} A`,
      reset: s.odds(8) ? 'automatic' : 'manual',
      interrupts: `${s.pick([1.5, 3, 5, 10])} kA`,
      curve: 'generic-thermal',
      ...s.maybe(40, () => ({ 'trip-button': true })),
      ...s.maybe(30, () => ({ 'heat-factor': 0.8 })),
      ...s.maybe(30, () => ({ resistance: s.value(100 / rating, 'mΩ') })),
      ...dc,
    });
  }
  const large = house ? ['class-t', 'bolt-down', 'cube'] : ['bolt-down', 'strip-30', 'cube', 'cartridge'];
  const family = rating <= 30 ? s.pick(['blade-f', 'blade-f', 'blade-c', 'blade-e']) : s.pick(large);
  return s.part(id, 'fuse', at, {
    family,
    rating: `${rating} A`,
    ...s.maybe(50, () => ({ interrupts: `${s.pick([1, 2, 6, 20])} kA` })),
    ...s.maybe(family === 'class-t' ? 70 : 25, () => ({ clearing: `${rating * rating * 3} A²s` })),
    ...s.maybe(25, () => ({ 'cold-resistance': s.value(100 / rating, 'mΩ') })),
    ...dc,
  });
}

/** Starter battery, what feeds it, what hangs on it, and the body. */
export function vehicleSide(s: Sketch, plan: Plan): void {
  const n = s.nominal.vehicle;
  const battery = (): Fields => ({
    role: 'vehicle',
    chemistry: s.pick(['flooded', 'agm', 'agm', 'gel']),
    capacity: `${s.pick([60, 72, 80, 95])} Ah`,
    ...s.maybe(30, () => ({ resistance: s.value(s.between(4, 8), 'mΩ') })),
    ...s.maybe(20, () => ({ cranking: '640 A' })),
    ...s.maybe(15, () => ({ 'fault-resistance': `${s.between(3, 6)} mΩ` })),
  });
  const pair = n === 24 && plan.parts >= 8 && s.odds(40);
  s.part('vehicle-battery', 'battery', 'bonnet', { ...battery(), ...(pair ? { nominal: '12 V' } : {}) });
  if (pair) {
    const { resistance: _, ...same } = s.parts['vehicle-battery'] ?? {};
    s.parts['vehicle-battery-2'] = { ...same };
    s.wire('link', 'vehicle-battery-2.-', 'vehicle-battery.+', 250, 0.2);
  }
  if (plan.parts >= 8) body(s, plan);
  const offered: readonly (readonly [id: string, make: () => void, wanted: boolean])[] = [
    ['alternator', () => alternator(s), plan.supply !== 'converter' && s.odds(60)],
    ['supply-converter', () => converter(s), plan.supply !== 'alternator' && s.odds(80)],
    ['starter', () => starter(s), plan.supply !== 'converter' && s.odds(25)],
    ['vehicle-load', () => baseLoad(s), s.odds(25)],
  ];
  for (const [, make, wanted] of offered) if (wanted && room(s, plan) > 6) make();
}

/** + and - of the vehicle battery, or of the pair. */
const postPlus = (s: Sketch): string =>
  has(s, 'vehicle-battery-2') ? 'vehicle-battery-2.+' : 'vehicle-battery.+';
const postMinus = (s: Sketch): string => (has(s, 'sensor') ? 'sensor.chassis' : 'vehicle-battery.-');

function body(s: Sketch, plan: Plan): void {
  s.part('body', 'body-section', null, { medium: s.pick(['steel', 'steel', 'steel', 'bonded-aluminium']) });
  s.part('front-ground', 'chassis-point', 'bonnet', {
    section: 'body',
    ...s.maybe(30, () => ({ joint: '0.3 mΩ' })),
  });
  if (plan.parts >= 14 && s.odds(40)) {
    s.part('sensor', 'vehicle-sensor', 'bonnet');
    s.wire('sensor-post', 'vehicle-battery.-', 'sensor.post', 200, 0.05);
  }
  s.wire('earth', postMinus(s), 'front-ground.stud', 180, 0.3);
  if (plan.parts >= 18 && s.odds(40)) {
    s.part('box', 'body-section', null, { medium: s.pick(['steel', 'bonded-aluminium', 'composite']) });
    s.part('box-strap', 'strap', null, {
      from: 'body',
      to: 'box',
      ...s.maybe(50, () => ({ resistance: '0.4 mΩ' })),
    });
  }
}

function alternator(s: Sketch): void {
  const rating = s.pick([90, 120, 150]);
  const plated = s.odds(50);
  s.part('alternator', 'alternator', 'bonnet', {
    ...(plated
      ? { plate: `${Math.round(rating * 0.5)}/${rating} A ${volts(13.5, s.nominal.vehicle)}` }
      : s.maybe(70, () => ({ output: s.value(rating, 'A') }))),
    ...s.maybe(25, () => ({ 'set-point': volts(s.between(14.2, 14.6), s.nominal.vehicle) })),
  });
  if (s.odds(50)) {
    s.wire('alternator-plus', 'alternator.+', postPlus(s), 250, 0.9);
    s.wire(
      'alternator-minus',
      'alternator.-',
      has(s, 'front-ground') ? 'front-ground.stud' : 'vehicle-battery.-',
      250,
      0.5,
    );
  }
}

function converter(s: Sketch): void {
  s.part('supply-converter', 'vehicle-converter', 'bonnet', {
    ...s.maybe(70, () => ({ limit: `${s.pick([100, 150, 180])} A` })),
    ...s.maybe(60, () => ({ 'added-limit': `${s.pick([20, 40])} A` })),
    ...s.maybe(60, () => ({ above: s.pick(['folds-back', 'shuts-down']) })),
  });
}

function starter(s: Sketch): void {
  s.part(
    'starter',
    'starter',
    'bonnet',
    s.maybe(60, () => ({ current: s.value(220, 'A') })),
  );
  if (!s.odds(50)) return;
  s.wire('starter-plus', postPlus(s), 'starter.+', 250, 0.8);
  s.wire(
    'starter-minus',
    'starter.-',
    has(s, 'front-ground') ? 'front-ground.stud' : 'vehicle-battery.-',
    250,
    0.4,
  );
}

function baseLoad(s: Sketch): void {
  s.part('vehicle-load', 'base-load', 'bonnet', {
    current: { parked: `${s.pick([20, 30, 45])} mA`, driving: `${s.between(18, 34)} A` },
  });
}

/** House battery or batteries, their device, shunt and bars. Ends are `housePlus` and `houseMinus`. */
export function house(s: Sketch, plan: Plan): void {
  const chemistry = s.pick(['lifepo4', 'lifepo4', 'lifepo4', 'agm', 'gel', 'sodium-ion', 'flooded']);
  const bank = (): Fields => ({
    role: 'house',
    chemistry,
    capacity: `${s.pick([100, 150, 200, 280])} Ah`,
    ...s.maybe(60, () => ({ 'charge-limit': `${s.pick([50, 100, 150])} A` })),
    ...s.maybe(25, () => ({ resistance: s.value(s.between(2, 5), 'mΩ') })),
    ...(chemistry === 'lifepo4' ? s.maybe(40, () => ({ opens: { charge: 'below 0 °C' } })) : {}),
    ...s.maybe(8, () => ({ heater: '60 W' })),
  });
  s.part('house-battery', 'battery', 'locker', bank());
  device(s, 'house-device', 'locker', plan.amps * 1.6, true);
  s.wire('bank', 'house-device.line', 'house-battery.+', plan.amps * 2, 0.15);
  let plus = 'house-device.load';
  let minus = 'house-battery.-';
  if (plan.parts >= 9 && s.odds(70)) {
    s.part('shunt', 'shunt', 'locker', {
      rating: '300 A',
      ...s.maybe(40, () => ({ monitor: { standby: '5 mA' } })),
    });
    s.wire('bank-minus', 'shunt.battery', minus, plan.amps * 2, 0.2);
    minus = 'shunt.system';
  }
  if (plan.parts >= 12 && s.odds(40)) {
    s.part('house-isolator', 'isolator', 'locker', {
      rating: '200 A',
      ...s.maybe(40, () => ({ stored: 'open' })),
    });
    s.wire('bank-isolator', plus, 'house-isolator.in', plan.amps * 2, 0.25);
    plus = 'house-isolator.out';
  }
  if (plan.parts >= 16) [plus, minus] = bars(s, plan, plus, minus);
  if (plan.parts >= 26 && s.odds(40)) secondBank(s, plan, bank());
  ends.set(s, { plus, minus });
}

function bars(s: Sketch, plan: Plan, plus: string, minus: string): readonly [string, string] {
  s.part(
    'positive-bar',
    'busbar',
    'locker',
    s.maybe(50, () => ({ rating: '150 A' })),
  );
  s.part(
    'negative-bar',
    'busbar',
    'locker',
    s.maybe(50, () => ({ rating: '150 A' })),
  );
  s.wire('main', plus, s.tap('positive-bar'), plan.amps * 2, 0.3);
  s.wire('main-minus', s.tap('negative-bar'), minus, plan.amps * 2, 0.3);
  return ['positive-bar', 'negative-bar'];
}

function secondBank(s: Sketch, plan: Plan, fields: Fields): void {
  s.part('house-battery-2', 'battery', 'locker', fields);
  device(s, 'house-device-2', 'locker', plan.amps * 1.6, true);
  s.wire('bank-2', 'house-device-2.line', 'house-battery-2.+', plan.amps * 2, 0.15);
  s.wire('main-2', 'house-device-2.load', s.tap('positive-bar'), plan.amps * 2, 0.4);
  s.wire('bank-2-minus', s.tap('negative-bar'), 'house-battery-2.-', plan.amps * 2, 0.4);
}

const ends = new WeakMap<Sketch, { readonly plus: string; readonly minus: string }>();

/** A house terminal: the next tap of a bar, or the terminal itself. */
function at(s: Sketch, side: 'plus' | 'minus'): string {
  const end = ends.get(s)?.[side] ?? '';
  return end.includes('.') ? end : s.tap(end);
}

function charger(s: Sketch, id: string, plan: Plan, amps: number): string {
  const n = s.nominal.vehicle;
  const mode = plan.parts < 7 ? 'voltage' : s.pick(['voltage', 'signal', 'signal', 'signal-and-voltage']);
  const low = s.pick(['stops', 'stops', 'stops', 'holds', 'reduces']);
  const bySignal = mode === 'signal';
  return s.part(id, 'dc-charger', 'locker', {
    current: s.odds(6) ? 'unknown' : `${amps} A`,
    enable: mode,
    negative: s.odds(75) ? 'common' : 'isolated',
    ...s.maybe(60, () => ({
      voltage: { absorption: volts(14.4, s.nominal.house), float: volts(13.5, s.nominal.house) },
    })),
    ...s.maybe(60, () => ({ starts: `${volts(bySignal ? 12.3 : 13.3, n)} after ${s.pick([5, 15, 60])} s` })),
    ...(low === 'stops'
      ? s.maybe(60, () => ({ stops: `${volts(bySignal ? 12 : 12.8, n)} after ${s.pick([3, 5, 20])} s` }))
      : {}),
    'low-input':
      low === 'holds'
        ? `holds ${volts(12.9, n)}`
        : low === 'reduces'
          ? `reduces from ${volts(13, n)} to ${volts(12, n)}`
          : 'stops',
    ...s.maybe(30, () => ({
      efficiency: s.odds(50)
        ? 0.9
        : [
            [0.1, 0.8],
            [0.5, 0.91],
            [1, 0.88],
          ],
    })),
    ...s.maybe(20, () => ({ 'input-limit': `${Math.ceil(amps * 1.4 * (s.nominal.house / n))} A` })),
    ...s.maybe(20, () => ({ standby: '15 mA' })),
    ...s.maybe(40, () => ({ derates: s.pick(['45 °C', '50 °C']) })),
    ...s.maybe(50, () => ({ 'enable-max': volts(16, n) })),
    ...s.maybe(40, () => ({ 'dc-rating': volts(16, Math.max(n, s.nominal.house)) })),
    ...s.maybe(10, () => ({
      maker: { fuse: `${s.rating(amps * 1.5)} A`, cable: '16 mm2', input: `${amps * 1.3} A` },
    })),
    ...s.maybe(6, () => ({ samples: '5 s every 3 min' })),
  });
}

/** From the vehicle battery through devices to the charger, back by cable or body, and on to the house. */
export function feed(s: Sketch, plan: Plan): void {
  const amps = (plan.amps * 1.25 * s.nominal.house) / s.nominal.vehicle;
  const thick = plan.feedOhms === 'strong' ? 1.6 : 0.8;
  device(s, 'feed-device', 'bonnet', amps * 1.35, false);
  s.wire('feed', postPlus(s), 'feed-device.line', amps * thick, 0.14);
  charger(s, 'charger', plan, plan.amps);
  const inline = inlineParts(s, plan, amps);
  let last = 'feed-device.load';
  inline.forEach(([from, to], i) => {
    s.wire(`feed-${i + 2}`, last, from, amps * thick, s.odds(50) ? null : s.between(0.8, 2));
    last = to;
  });
  s.wire(`feed-${inline.length + 2}`, last, 'charger.in+', amps * thick, s.odds(70) ? null : s.between(2, 5));
  returnPath(s, plan, amps * thick);
  s.wire('out', 'charger.out+', at(s, 'plus'), plan.amps * 1.5, 0.6);
  s.wire('out-minus', 'charger.out-', at(s, 'minus'), plan.amps * 1.5, 0.6);
  if (has(s, 'feed-stud') && has(s, 'positive-bar') && s.odds(50) && room(s, plan) > 6) second(s, plan);
  if (has(s, 'charger') && s.odds(8)) {
    s.parts['charger'] = { ...s.parts['charger'], sense: 'output' };
    s.wire('sense', 'charger.sense+', 'house-battery.+', 1, 0.8);
  }
}

/** Isolator, stud, joint or diode in the feed. */
function inlineParts(s: Sketch, plan: Plan, amps: number): readonly (readonly [string, string])[] {
  const list: (readonly [string, string])[] = [];
  if (room(s, plan) > 5 && s.odds(50)) {
    s.part('feed-isolator', 'isolator', 'bulkhead', { rating: `${s.rating(amps * 1.5)} A` });
    list.push(['feed-isolator.in', 'feed-isolator.out']);
  }
  if (room(s, plan) > 5 && s.odds(35)) {
    s.part('feed-stud', 'stud', 'bulkhead', { limit: 4, ...s.maybe(50, () => ({ material: 'copper' })) });
    list.push([s.tap('feed-stud'), s.tap('feed-stud')]);
  }
  if (room(s, plan) > 5 && s.odds(30)) {
    s.part('feed-plug', 'joint', 'bulkhead', { resistance: s.value(s.between(0.2, 0.8), 'mΩ') });
    list.push(['feed-plug.a', 'feed-plug.b']);
  }
  if (room(s, plan) > 12 && s.odds(6)) {
    s.part('feed-diode', 'diode', 'bulkhead', { rating: '150 A', drop: '0.4 V' });
    list.push(['feed-diode.anode', 'feed-diode.cathode']);
  }
  return list;
}

/** By the body from a chassis point near the charger, else by cable. */
function returnPath(s: Sketch, plan: Plan, amps: number): void {
  const byBody = has(s, 'body') && room(s, plan) > 4 && s.odds(45);
  if (!byBody) {
    s.wire(
      'return',
      'charger.in-',
      has(s, 'front-ground') ? 'front-ground.stud' : 'vehicle-battery.-',
      amps,
      s.odds(70) ? null : s.between(3, 6),
    );
    return;
  }
  const section = has(s, 'box') && s.odds(60) ? 'box' : 'body';
  s.part('rear-ground', 'chassis-point', 'locker', { section });
  s.wire('return', 'charger.in-', 'rear-ground.stud', amps, 0.5);
}

/** A second, smaller charger on the stud of the feed. */
function second(s: Sketch, plan: Plan): void {
  charger(s, 'charger-2', plan, 20);
  device(s, 'charger-2-fuse', 'bulkhead', 40, false);
  s.wire('feed-b', s.tap('feed-stud'), 'charger-2-fuse.line', 40, 0.15);
  s.wire('feed-b-2', 'charger-2-fuse.load', 'charger-2.in+', 40, null);
  s.wire('return-b', 'charger-2.in-', 'charger.in-', 40, 0.3);
  s.wire('out-b', 'charger-2.out+', s.tap('positive-bar'), 40, 0.5);
  s.wire('out-b-minus', 'charger-2.out-', s.tap('negative-bar'), 40, 0.5);
}

/** What enables the chargers: a supply point, perhaps a relay, a diode and the owner's switch. */
export function control(s: Sketch, plan: Plan): void {
  const bySignal = (id: string): boolean =>
    ['signal', 'signal-and-voltage'].some((m) => s.parts[id]?.['enable'] === m);
  const wanting = ['charger', 'charger-2'].filter((id) => bySignal(id) && (id === 'charger' || s.odds(80)));
  if (wanting.length === 0 || room(s, plan) < 1) return;
  const states = RUNNING.filter(() => s.odds(85));
  s.part('run-signal', 'supply-point', 'dash', {
    live: states.length === 0 ? ['driving'] : s.odds(15) ? [...states, { 'after-run': '10 min' }] : states,
    ...(s.odds(85) ? { dead: 'others' } : { dead: ['parked', 'stored'] }),
    measured: s.odds(70),
    ...s.maybe(70, () => ({ limit: `${s.pick([0.25, 1, 5])} A` })),
    ...s.maybe(30, () => ({ 'self-limiting': true })),
    ...s.maybe(40, () => ({ 'upstream-fuse': `${s.pick([3, 5, 10])} A` })),
    ...s.maybe(10, () => ({ 'when-dead': '500 Ω' })),
  });
  let last = 'run-signal.out';
  if (room(s, plan) >= 3 && has(s, 'body') && s.odds(55)) last = relayed(s, last);
  if (room(s, plan) >= 1 && s.odds(20)) {
    s.part('signal-diode', 'diode', 'dash', { rating: '3 A', ...s.maybe(50, () => ({ drop: '0.7 V' })) });
    s.wire('signal-diode-in', last, 'signal-diode.anode', 4, 0.3);
    last = 'signal-diode.cathode';
  }
  if (room(s, plan) >= 1 && s.owners > 0) {
    s.owners -= 1;
    s.part('charge-switch', 'switch', 'dash', {
      'operated-by': 'owner',
      rating: '3 A',
      ...s.maybe(60, () => ({ 'least-current': '1 mA' })),
    });
    s.wire('signal-switch', last, 'charge-switch.in', 4, 0.2);
    last = 'charge-switch.out';
  }
  wanting.forEach((id, i) => s.wire(i === 0 ? 'enable' : 'enable-b', last, `${id}.enable`, 4, null));
}

/** The signal moves a relay that switches a fused tap of the feed. */
function relayed(s: Sketch, signal: string): string {
  const n = s.nominal.vehicle;
  s.part('tap-fuse', 'fuse', 'bulkhead', { family: 'blade-f', rating: `${s.pick([1, 3, 5])} A` });
  s.part('run-relay', 'relay', 'dash', {
    coil: s.odds(80) ? `${85 * (n / 12) ** 2} Ω` : '150 mA',
    contacts: s.odds(80) ? 'make' : 'change-over',
    rating: '20 A',
    ...s.maybe(60, () => ({ suppressed: true })),
  });
  s.part('dash-ground', 'chassis-point', 'dash', { section: 'body' });
  s.wire('tap', 'feed-device.load', 'tap-fuse.line', 6, 0.12);
  s.wire('tap-2', 'tap-fuse.load', 'run-relay.30', 6, null);
  s.wire('run', signal, 'run-relay.86', 4, 0.3);
  s.wire('run-minus', 'run-relay.85', 'dash-ground.stud', 4, 0.3);
  return 'run-relay.87';
}

/** Loads with their fuses and switches until the build has its number of parts. */
export function loads(s: Sketch, plan: Plan): void {
  for (let n = 1; room(s, plan) > 0; n++) {
    const place = s.pick(['galley', 'galley', 'roof', 'locker']);
    const amps = s.pick([0.5, 1, 2, 4, 6, 10]);
    const free = room(s, plan);
    let last = at(s, 'plus');
    if (free >= 2) {
      const fuse = device(s, `load-fuse-${n}`, 'locker', Math.max(amps * 1.6, 3), true);
      s.wire(`load-${n}-a`, last, `${fuse}.line`, amps * 6, 0.15);
      last = `${fuse}.load`;
    }
    if (free >= 3 && (s.owners > 0 ? s.odds(45) : s.odds(15))) {
      const owner = s.owners > 0;
      if (owner) s.owners -= 1;
      s.part(`load-switch-${n}`, 'switch', place, {
        ...(owner ? { 'operated-by': 'owner' } : {}),
        rating: s.odds(50) ? '10 A' : { resistive: '16 A', inductive: '6 A', lamp: '4 A' },
        ...s.maybe(30, () => ({ normal: 'open' })),
      });
      s.wire(`load-${n}-b`, last, `load-switch-${n}.in`, amps * 6, null);
      last = `load-switch-${n}.out`;
    }
    consumer(s, n, place, amps, last);
  }
}

function consumer(s: Sketch, n: number, place: string, amps: number, last: string): void {
  const id = `load-${n}`;
  const form = s.pick(['current', 'power', 'resistance']);
  const nominal = s.nominal.house;
  const section = has(s, 'body') && has(s, 'negative-bar') && s.odds(10);
  s.part(id, 'load', place, {
    ...(form === 'current' ? { current: s.value(amps, 'A') } : {}),
    ...(form === 'power' ? { power: s.value(amps * nominal, 'W') } : {}),
    ...(form === 'resistance' ? { resistance: s.value(nominal / amps, 'Ω') } : {}),
    class: s.pick(['critical', 'other']),
    on: s.pick(['always', 'schedule', 'schedule', ['driving']]),
    ...s.maybe(30, () => ({ inrush: s.pick(['lamp', 'motor', 'x3']) })),
    ...s.maybe(25, () => ({ 'cut-out': volts(10.5, nominal) })),
    ...s.maybe(20, () => ({ 'at-least': volts(11, nominal) })),
    ...(section ? { return: 'chassis', section: 'body' } : {}),
  });
  s.wire(`load-${n}-plus`, last, `${id}.+`, amps * 6, null);
  if (!section) s.wire(`load-${n}-minus`, `${id}.-`, at(s, 'minus'), amps * 6, null);
  else if (s.wires['house-bond'] === undefined && s.parts['rear-ground'] !== undefined)
    s.wire('house-bond', s.tap('negative-bar'), 'rear-ground.stud', 100, 0.4);
}
