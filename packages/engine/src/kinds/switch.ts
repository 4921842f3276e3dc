/** A hand switch: one or two poles, on-off or one of two ways. */
import type { FieldTable, Kind, Surroundings, ValueReader } from '../contracts/index.ts';
import { contact } from './circuit.ts';
import { statedRating } from './common.ts';
import { contactField, leastCurrentField, ratingField, ratingsOf } from './contacts.ts';
import { choice, field, flag, quantity } from './shapes.ts';
import { plate, row, switchGlyph } from './symbols.ts';

const fields: FieldTable = {
  poles: field({ shape: 'number', min: 1, max: 2 }, 'Number of poles, 1 or 2; 1 when not given.'),
  ways: field({ shape: 'number', min: 1, max: 2 }, 'On-off (1) or change-over (2); 1 when not given.'),
  normal: choice(['closed', 'open'], 'Its usual position; of a change-over switch `closed` is way 1.', {
    fallback: (read) => (read.flag('momentary') === true ? 'open' : 'closed'),
  }),
  momentary: flag('Whether it springs back.', false),
  'operated-by': choice(['workshop', 'owner'], 'Who works it.', { fallback: () => 'workshop' }),
  rating: ratingField,
  inductive: quantity('current', 'Rated current for motors and unsuppressed coils, A.'),
  'least-current': leastCurrentField,
  contact: contactField(0.005, 'a hand switch'),
  lamp: quantity('current', 'Current of its pilot lamp, A.'),
};

interface Pole {
  readonly from: string;
  readonly to: string;
  /** Closed when the switch is in its `closed` position, or in the other one. */
  readonly when: boolean;
}

function polesOf(read: ValueReader): readonly Pole[] {
  const ends = read.raw('poles') === 2 ? ['', '.2'] : [''];
  if (read.raw('ways') !== 2) return ends.map((end) => ({ from: `in${end}`, to: `out${end}`, when: true }));
  return ends.flatMap((end) => [
    { from: `common${end}`, to: `1${end}`, when: true },
    { from: `common${end}`, to: `2${end}`, when: false },
  ]);
}

/** In a fault every way counts as closed, so that whatever can be reached is. */
const isMade = (at: Surroundings, pole: Pole): boolean =>
  !at.opened && (at.mode !== 'service' || at.closed === pole.when);

export const handSwitch: Kind = {
  name: 'switch',
  title: 'switch',
  letter: 'S',
  fields,
  leadsOn: true,
  terminals: (read) => ({
    type: 'named',
    names: [...new Set(polesOf(read).flatMap((pole) => [pole.from, pole.to]))],
  }),
  abilities: (read) => {
    const poles = polesOf(read);
    const rating = ratingsOf(read);
    return {
      switches: {
        operatedBy: read.choice('operated-by') === 'owner' ? 'owner' : 'workshop',
        contacts: poles.map(({ from, to }, element) => ({ from, to, element })),
        normal: read.choice('normal') === 'open' ? 'open' : 'closed',
        rating: { ...rating, inductive: read.quantity('inductive') ?? rating.inductive },
        leastCurrent: read.quantity('least-current'),
        storedOpen: read.choice('stored') === 'open',
        isolates: false,
        coil: null,
      },
      conducts: poles.map(({ from, to }) => [from, to] as const),
      joints: poles.flatMap((_pole, element) => {
        const ohms = read.quantity('contact');
        return ohms === null ? [] : [{ element, label: 'contact of the switch', ohms }];
      }),
      sparks: true,
      dcRating: statedRating(read),
    };
  },
  symbol: (read) => ({
    shape: 'inline',
    terminals: [...new Set(polesOf(read).flatMap((pole) => [pole.from, pole.to]))],
    glyph: null,
    rows: polesOf(read).map((pole) => row(pole.when ? pole.from : null, pole.to, switchGlyph)),
    linked: true,
    plate: plate(read, 'rating'),
  }),
  elements: (at) =>
    polesOf(at.read).map((pole) =>
      contact(pole.from, pole.to, isMade(at, pole), at.read.number('contact', 0)),
    ),
  example: `loomwright: 1
title: A lamp with the owner's switch
practice: europe
systems: { house: 12 V }
places:
  locker: { label: Rear locker, hottest: 45 °C }
parts:
  house-battery: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  lamp-fuse: { kind: fuse, at: locker, family: blade-f, rating: 3 A }
  lamp-switch: { kind: switch, at: locker, operated-by: owner, normal: open, rating: { resistive: 10 A, lamp: 3 A } }
  lamp: { kind: load, at: locker, current: 0.5 A, on: always }
wires:
  feed: { from: house-battery.+, to: lamp-fuse.line, size: 1.5 mm2, insulation: pvc-105, length: 10 cm }
  lamp-feed: { from: lamp-fuse.load, to: lamp-switch.in, size: 1.5 mm2, insulation: pvc-105, length: 2 m }
  lamp-feed-2: { from: lamp-switch.out, to: lamp.+, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  lamp-return: { from: lamp.-, to: house-battery.-, size: 1.5 mm2, insulation: pvc-105, length: 2 m }
`,
};
