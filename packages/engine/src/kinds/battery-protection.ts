/** A battery protection: opens between the battery and what hangs on it by the battery's volts, and blocks charging in frost. */
import type {
  Basis,
  FieldTable,
  Kind,
  Memory,
  MemoryRule,
  Surroundings,
  ValueReader,
} from '../contracts/index.ts';
import type { Threshold } from '../quantity/index.ts';
import { contact, isClosed, standbyElement } from './circuit.ts';
import { standbyOf, statedRating } from './common.ts';
import { contactField } from './contacts.ts';
import { ask, memory, practice } from './figures.ts';
import { thresholdShape } from './phrases.ts';
import { field, quantity, signed, systemField } from './shapes.ts';
import { contactGlyphOf, plateOr, row } from './symbols.ts';

const fields: FieldTable = {
  system: systemField(),
  'opens-below': field(
    thresholdShape,
    'Battery voltage below which it opens, V, and for how long: `11.5 V after 10 s`; never when not given.',
  ),
  'opens-above': field(
    thresholdShape,
    'Battery voltage above which it opens, V, and for how long: `15.0 V after 1 s`; never when not given.',
  ),
  'charge-blocked-below': signed(
    'temperature',
    'Temperature of its place below which it lets no current into the battery, °C; never when not given.',
  ),
  reconnects: field(
    thresholdShape,
    'Battery voltage at which it closes again after it opened below, V, and for how long: `13.0 V after 60 s`.',
  ),
  rating: quantity('current', 'Rated continuous current, A.', { wanted: true }),
  contact: contactField(0.0005, 'a battery protection'),
};

const CLOSED = 0;
const LOW = 1;
const HIGH = 2;

/** An electronic comparison takes a moment where no delay is stated, ms. */
const AT_ONCE_MS = 100;
/** Delay of reconnecting where none is stated, s. */
const RECONNECTS_AFTER = practice(60, 's', 'common practice, no source', [1, 180]);

const statedAt = (read: ValueReader, name: string): Threshold | null => {
  const raw = read.raw(name);
  return typeof raw === 'object' && raw !== null && 'voltage' in raw ? (raw as Threshold) : null;
};

const milliseconds = (seconds: Basis | null): number =>
  seconds === null ? AT_ONCE_MS : Math.max(AT_ONCE_MS, Math.round(seconds.sourced.value * 1000));

interface Limit {
  readonly volts: number;
  readonly delayMs: number;
}

const statedVolts = (read: ValueReader, name: 'opens-below' | 'opens-above'): Basis | null =>
  read.resolve(
    name,
    statedAt(read, name)?.voltage ?? null,
    null,
    ask('voltage at which the battery protection opens'),
  );

/** A limit that it opens at; null: it does not. */
function opensAt(read: ValueReader, name: 'opens-below' | 'opens-above'): Limit | null {
  const volts = statedVolts(read, name);
  const delay = read.resolve(`${name}.delay`, statedAt(read, name)?.delay ?? null, null, ask('its delay'));
  return volts === null ? null : { volts: volts.sourced.value, delayMs: milliseconds(delay) };
}

/** Where it closes again after it opened below. */
function reconnects(read: ValueReader): Limit {
  const stated = statedAt(read, 'reconnects');
  const scale = read.about.nominal / 12;
  const usual = memory(13 * scale, 'V', 'usual battery protection', [12.4 * scale, 13.4 * scale]);
  const asked = ask('voltage at which the battery protection closes again');
  const volts = read.resolve('reconnects', stated?.voltage ?? null, usual, asked);
  const delay = read.resolve(
    'reconnects.delay',
    stated?.delay ?? null,
    RECONNECTS_AFTER,
    ask('delay of the battery protection before it closes again'),
  );
  return { volts: volts?.sourced.value ?? 13 * scale, delayMs: milliseconds(delay) };
}

function belowRules(low: Limit, high: Limit | null, back: Limit): readonly MemoryRule[] {
  return [
    {
      from: CLOSED,
      to: LOW,
      delayMs: low.delayMs,
      says: `battery under ${low.volts} V`,
      when: (see) => see.volts('battery', '-') < low.volts,
    },
    {
      from: LOW,
      to: CLOSED,
      delayMs: back.delayMs,
      says: `battery at or over ${back.volts} V`,
      // Not below its own opening voltage, whatever was stated.
      when: (see) => {
        const volts = see.volts('battery', '-');
        return volts >= Math.max(back.volts, low.volts) && (high === null || volts <= high.volts);
      },
    },
  ];
}

const aboveRules = (high: Limit, back: Limit): readonly MemoryRule[] => [
  {
    from: CLOSED,
    to: HIGH,
    delayMs: high.delayMs,
    says: `battery over ${high.volts} V`,
    when: (see) => see.volts('battery', '-') > high.volts,
  },
  {
    from: HIGH,
    to: CLOSED,
    delayMs: back.delayMs,
    says: `battery down to ${high.volts} V`,
    when: (see) => see.volts('battery', '-') <= high.volts,
  },
];

/** Without its negative it measures nothing and stays as it is. */
function remembers(at: Surroundings): Memory | null {
  const [low, high] = [opensAt(at.read, 'opens-below'), opensAt(at.read, 'opens-above')];
  if ((low === null && high === null) || !at.wired('-')) return null;
  const back = reconnects(at.read);
  return {
    values: ['closed', 'opened by low voltage', 'opened by high voltage'],
    start: CLOSED,
    on: [CLOSED],
    rules: [
      ...(low === null ? [] : belowRules(low, high, back)),
      ...(high === null ? [] : aboveRules(high, back)),
    ],
  };
}

function chargeBlocked(at: Surroundings): boolean {
  const below = at.read.quantity('charge-blocked-below');
  return at.mode === 'service' && at.wired('-') && below !== null && at.air < below.sourced.value;
}

export const batteryProtection: Kind = {
  name: 'battery-protection',
  title: 'battery protection',
  letter: 'F',
  fields,
  terminals: () => ({ type: 'named', names: ['battery', 'load', '-'] }),
  abilities: (read) => {
    const ohms = read.quantity('contact');
    return {
      switches: {
        operatedBy: 'signal',
        contacts: [{ from: 'battery', to: 'load', element: 0 }],
        normal: 'closed',
        // One printed current, for whatever hangs on the battery.
        rating: {
          resistive: read.quantity('rating'),
          inductive: read.quantity('rating'),
          lamp: read.quantity('rating'),
        },
        leastCurrent: null,
        storedOpen: read.choice('stored') === 'open',
        isolates: false,
        coil: null,
      },
      conducts: [['battery', 'load']],
      joints: ohms === null ? [] : [{ element: 0, label: 'contact of the battery protection', ohms }],
      guards: {
        battery: 'battery',
        reference: '-',
        chargeBelow: read.quantity('charge-blocked-below'),
        above: statedVolts(read, 'opens-above'),
        below: statedVolts(read, 'opens-below'),
      },
      // Whether it switches by a contact or by semiconductors is seldom printed: counted as a contact.
      sparks: true,
      across: [['battery', '-']],
      dcRating: statedRating(read),
      ...standbyOf(read, 'battery', '-'),
    };
  },
  symbol: (read) => ({
    shape: 'box',
    terminals: ['battery', 'load', '-'],
    glyph: contactGlyphOf(true),
    rows: [row('battery', 'load', contactGlyphOf(true))],
    plate: plateOr(read, 'A', 'rating'),
  }),
  elements: (at) => {
    // In a fault it counts as closed, so that whatever can be reached is.
    const closed = isClosed(at) && (at.mode !== 'service' || at.memory === CLOSED);
    const blocked = closed && chargeBlocked(at);
    const ohms = at.read.number('contact', 0.0005);
    return [
      contact('battery', 'load', closed && !blocked, ohms),
      // In frost: out of the battery as through the contact, into it nothing.
      {
        type: 'pieces',
        a: 'battery',
        b: 'load',
        points: [[0, 0]],
        below: 0,
        above: blocked ? 1 / Math.max(ohms, 1e-5) : 0,
      },
      ...standbyElement(at, 'battery', '-'),
    ];
  },
  memory: remembers,
  example: `loomwright: 1
title: A lithium battery behind its protection
practice: europe
systems: { house: 12 V }
places:
  locker: { label: Rear locker, hottest: 45 °C, coldest: -8 °C }
parts:
  house-battery: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 100 Ah }
  main-fuse: { kind: fuse, at: locker, family: class-t, rating: 60 A, interrupts: 20 kA }
  guard: { kind: battery-protection, at: locker, opens-below: 11.5 V after 10 s, opens-above: 15.0 V after 1 s, charge-blocked-below: 2 °C, reconnects: 13.0 V after 60 s, rating: 100 A }
  lamp: { kind: load, at: locker, current: 2 A, on: always }
wires:
  feed: { from: house-battery.+, to: main-fuse.line, size: 16 mm2, insulation: pvc-105, length: 12 cm }
  feed-2: { from: main-fuse.load, to: guard.battery, size: 16 mm2, insulation: pvc-105, length: 20 cm }
  lamp-feed: { from: guard.load, to: lamp.+, size: 16 mm2, insulation: pvc-105, length: 1 m }
  lamp-return: { from: lamp.-, to: house-battery.-, size: 16 mm2, insulation: pvc-105, length: 1 m }
  guard-return: { from: guard.-, to: house-battery.-, size: 1.5 mm2, insulation: pvc-105, length: 15 cm }
`,
};
