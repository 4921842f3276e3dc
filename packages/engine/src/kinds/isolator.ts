/** A battery isolator, worked by hand. */
import type { FieldTable, Kind, ValueReader } from '../contracts/index.ts';
import { contact, isClosed } from './circuit.ts';
import { statedRating } from './common.ts';
import { contactField } from './contacts.ts';
import { choice, field, quantity } from './shapes.ts';
import { isolatorGlyph, plate, row } from './symbols.ts';

const fields: FieldTable = {
  poles: field({ shape: 'number', min: 1, max: 2 }, 'Number of poles, 1 or 2; 1 when not given.'),
  rating: quantity('current', 'Rated continuous current, A.', { wanted: true }),
  cranking: quantity('current', 'Current that it carries while cranking, A.'),
  contact: contactField(0.0002, 'an isolator'),
  normal: choice(['closed', 'open'], 'Its usual position.', { fallback: () => 'closed' }),
};

type Pair = readonly [from: string, to: string];

/** The pairs that its contacts join, one for each pole. */
export const poles = (read: ValueReader): readonly Pair[] =>
  read.raw('poles') === 2
    ? [
        ['in', 'out'],
        ['in.2', 'out.2'],
      ]
    : [['in', 'out']];

export const isolator: Kind = {
  name: 'isolator',
  title: 'isolator',
  letter: 'Q',
  fields,
  leadsOn: true,
  terminals: (read) => ({ type: 'named', names: poles(read).flat() }),
  abilities: (read) => ({
    switches: {
      operatedBy: 'workshop',
      contacts: poles(read).map(([from, to], element) => ({ from, to, element })),
      normal: read.choice('normal') === 'open' ? 'open' : 'closed',
      rating: {
        resistive: read.quantity('rating'),
        inductive: null,
        lamp: null,
        cranking: read.quantity('cranking'),
      },
      leastCurrent: null,
      storedOpen: read.choice('stored') === 'open',
      isolates: true,
      coil: null,
    },
    conducts: poles(read),
    joints: poles(read).flatMap((_pair, element) => {
      const ohms = read.quantity('contact');
      return ohms === null ? [] : [{ element, label: 'contact of the isolator', ohms }];
    }),
    sparks: true,
    dcRating: statedRating(read),
  }),
  symbol: (read) => ({
    shape: 'inline',
    terminals: poles(read).flat(),
    glyph: null,
    rows: poles(read).map(([from, to]) => row(from, to, isolatorGlyph)),
    linked: true,
    plate: plate(read, 'rating'),
  }),
  elements: (at) =>
    poles(at.read).map(([from, to]) =>
      contact(from, to, at.mode === 'service' ? isClosed(at) : !at.opened, at.read.number('contact', 0)),
    ),
  example: `loomwright: 1
title: A house battery with an isolator
practice: europe
systems: { house: 12 V }
places:
  locker: { label: Rear locker, hottest: 45 °C }
parts:
  house-battery: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  main-fuse: { kind: fuse, at: locker, family: bolt-down, rating: 60 A, interrupts: 6 kA }
  main: { kind: isolator, at: locker, rating: 150 A, stored: open }
  bar: { kind: busbar, at: locker, rating: 150 A }
wires:
  feed: { from: house-battery.+, to: main-fuse.line, size: 16 mm2, insulation: pvc-105, length: 12 cm }
  feed-2: { from: main-fuse.load, to: main.in, size: 16 mm2, insulation: pvc-105, length: 20 cm }
  feed-3: { from: main.out, to: bar.1, size: 16 mm2, insulation: pvc-105, length: 30 cm }
`,
};
