/** A relay: a coil and the contact that it moves. */
import type { Basis, FieldTable, Kind, Memory, Surroundings, ValueReader } from '../contracts/index.ts';
import { contact, resistor, standbyElement } from './circuit.ts';
import { standbyOf, statedRating } from './common.ts';
import { contactField, leastCurrentField, ratingField, ratingsOf } from './contacts.ts';
import { ask, memory } from './figures.ts';
import { coilShape, type CoilValue } from './phrases.ts';
import { choice, field, flag, quantity, systemField } from './shapes.ts';
import { coilGlyph, contactGlyphOf, plate, row } from './symbols.ts';

const RELEASED = 0;
const PULLED = 1;

/** Delay 0 of a coil, ms. */
const AT_ONCE_MS = 100;

const fields: FieldTable = {
  system: systemField('Name of the system that its coil is made for, one of `systems`.'),
  coil: field(coilShape, 'Its coil: resistance, Ω, or current at nominal volts, A.', {
    wanted: true,
    how: 'measure the resistance between 85 and 86',
    effort: 'meter',
  }),
  pulls: quantity('voltage', 'Coil voltage at which it surely pulls in, V.', {
    label: 'pull-in voltage',
    fallback: (_read, about) =>
      memory((8 * about.nominal) / 12, 'V', 'usual relay, two thirds of its nominal voltage', [
        (6 * about.nominal) / 12,
        (8.5 * about.nominal) / 12,
      ]),
  }),
  drops: quantity('voltage', 'Coil voltage below which it drops out, V.', {
    label: 'drop-out voltage',
    fallback: (_read, about) =>
      memory((3 * about.nominal) / 12, 'V', 'usual relay, a quarter of its nominal voltage', [
        (1.2 * about.nominal) / 12,
        (5 * about.nominal) / 12,
      ]),
  }),
  contacts: choice(['make', 'break', 'change-over'], 'What its contact does when it pulls in.', {
    fallback: () => 'make',
  }),
  rating: ratingField,
  contact: contactField(0.0005, 'a relay'),
  'least-current': leastCurrentField,
  suppressed: flag('Whether a resistor or diode quenches its coil.', false),
};

interface Way {
  readonly to: string;
  readonly when: number;
}

const MAKE: Way = { to: '87', when: PULLED };
const BREAK: Way = { to: '87a', when: RELEASED };

function waysOf(read: ValueReader): readonly Way[] {
  const contacts = read.choice('contacts');
  if (contacts === 'break') return [BREAK];
  return contacts === 'change-over' ? [MAKE, BREAK] : [MAKE];
}

/** Resistance of the coil, Ω; a usual plug-in relay where nobody gave it. */
export function coilOhms(read: ValueReader): Basis {
  const raw = read.raw('coil') as CoilValue | 'unknown' | null;
  const { nominal } = read.about;
  const asked = ask('coil of {part}', 'down', 'meter', 'measure the resistance between 85 and 86');
  const square = (nominal / 12) * (nominal / 12);
  const fallback = memory(85 * square, 'Ω', 'usual plug-in relay, 1.7 W', [50 * square, 120 * square]);
  const stated =
    typeof raw !== 'object' || raw === null
      ? null
      : 'ohms' in raw
        ? raw.ohms
        : { value: nominal / Math.max(raw.amps.value, 1e-6), text: raw.amps.text };
  const basis = read.resolve('coil', stated, fallback, asked);
  if (basis === null) throw new Error('a coil has a default');
  return basis;
}

/** In a fault every way counts as closed, so that whatever can be reached is. */
const isMade = (at: Surroundings, way: Way): boolean =>
  !at.opened && (at.mode !== 'service' || at.memory === way.when);

function remembers(at: Surroundings): Memory {
  const pulls = at.read.number('pulls', 8);
  const drops = at.read.number('drops', 3);
  return {
    values: ['released', 'pulled in'],
    start: RELEASED,
    on: [PULLED],
    rules: [
      {
        from: RELEASED,
        to: PULLED,
        delayMs: AT_ONCE_MS,
        says: `coil at or over ${pulls} V`,
        when: (see) => Math.abs(see.volts('86', '85')) >= pulls,
      },
      {
        from: PULLED,
        to: RELEASED,
        delayMs: AT_ONCE_MS,
        says: `coil under ${drops} V`,
        when: (see) => Math.abs(see.volts('86', '85')) < drops,
      },
    ],
  };
}

export const relay: Kind = {
  name: 'relay',
  title: 'relay',
  letter: 'K',
  home: 'vehicle',
  fields,
  terminals: (read) => ({ type: 'named', names: ['86', '85', '30', ...waysOf(read).map((way) => way.to)] }),
  contradictions: (read) => {
    const [pulls, drops] = [read.number('pulls', 8), read.number('drops', 3)];
    return read.given('pulls') && read.given('drops') && drops >= pulls
      ? [
          {
            field: 'drops',
            message: `it drops out at ${drops} V, not below the ${pulls} V at which it pulls in: it would chatter`,
          },
        ]
      : [];
  },
  abilities: (read) => {
    const ways = waysOf(read);
    const ohms = read.quantity('contact');
    return {
      switches: {
        operatedBy: 'signal',
        contacts: ways.map(({ to }, index) => ({ from: '30', to, element: index + 1 })),
        normal: read.choice('contacts') === 'break' ? 'closed' : 'open',
        rating: ratingsOf(read),
        leastCurrent: read.quantity('least-current'),
        storedOpen: read.choice('stored') === 'open',
        isolates: false,
        coil: { plus: '86', minus: '85', suppressed: read.flag('suppressed') === true },
      },
      conducts: ways.map(({ to }) => ['30', to] as const),
      joints:
        ohms === null
          ? []
          : ways.map((_way, index) => ({ element: index + 1, label: 'contact of the relay', ohms })),
      sparks: true,
      across: [['86', '85']],
      dcRating: statedRating(read),
      ...standbyOf(read, '86', '85'),
    };
  },
  symbol: (read) => ({
    shape: 'box',
    terminals: ['86', '85', '30', ...waysOf(read).map((way) => way.to)],
    glyph: coilGlyph,
    rows: [
      row('86', '85', coilGlyph),
      ...waysOf(read).map((way, i) => row(i === 0 ? '30' : null, way.to, contactGlyphOf(way === BREAK))),
    ],
    linked: true,
    plate: plate(read, 'rating'),
  }),
  elements: (at) => [
    resistor('86', '85', coilOhms(at.read).sourced.value),
    ...waysOf(at.read).map((way) => contact('30', way.to, isMade(at, way), at.read.number('contact', 0))),
    ...standbyElement(at, '86', '85'),
  ],
  memory: remembers,
  example: `loomwright: 1
title: A relay pulled in by the run signal
practice: europe
systems: { vehicle: 12 V }
places:
  footwell: { label: Passenger footwell, hottest: 45 °C }
parts:
  starter-battery: { kind: battery, at: footwell, role: vehicle, chemistry: agm, capacity: 80 Ah }
  feed-fuse: { kind: fuse, at: footwell, family: blade-f, rating: 10 A }
  run-plug: { kind: supply-point, at: footwell, live: [idling, driving], dead: others, measured: yes, limit: 1 A }
  run-relay: { kind: relay, at: footwell, coil: 85 Ω, contacts: make, rating: 20 A, suppressed: yes }
  fan: { kind: load, at: footwell, current: 4 A, inrush: motor, on: always }
wires:
  feed: { from: starter-battery.+, to: feed-fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 10 cm }
  feed-2: { from: feed-fuse.load, to: run-relay.30, size: 2.5 mm2, insulation: pvc-105, length: 40 cm }
  fan-feed: { from: run-relay.87, to: fan.+, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  fan-return: { from: fan.-, to: starter-battery.-, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  run: { from: run-plug.out, to: run-relay.86, size: 1 mm2, insulation: pvc-105, length: 20 cm }
  run-return: { from: run-relay.85, to: starter-battery.-, size: 1 mm2, insulation: pvc-105, length: 50 cm }
`,
};
