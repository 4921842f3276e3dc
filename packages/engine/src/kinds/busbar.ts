/** A busbar. */
import type { FieldTable, Kind } from '../contracts/index.ts';
import { statedRating } from './common.ts';
import { memory, times } from './figures.ts';
import { quantity } from './shapes.ts';
import { star } from './star.ts';
import { plate } from './symbols.ts';

const fields: FieldTable = {
  rating: quantity('current', 'Rated current, A.'),
  resistance: quantity('resistance', 'Resistance from tap to tap, Ω.', {
    slack: 'up',
    how: 'measure: volts across, amperes through',
    effort: 'meter',
    fallback: () => memory(0.00005, 'Ω', 'copper bar, tap to tap', times(0.00005, 0.5, 2)),
  }),
};

export const busbar: Kind = {
  name: 'busbar',
  title: 'busbar',
  // A place where conductors are joined (class X); W would run through the numbers of the wires.
  letter: 'X',
  fields,
  leadsOn: true,
  terminals: () => ({ type: 'numbered' }),
  abilities: (read) => ({ carries: read.quantity('rating'), dcRating: statedRating(read) }),
  symbol: (read) => ({ shape: 'bar', terminals: 'numbered', glyph: null, plate: plate(read, 'rating') }),
  elements: (at) => star(at, at.read.number('resistance', 0)),
  example: `loomwright: 1
title: Two loads on a busbar
practice: europe
systems: { house: 12 V }
places:
  locker: { label: Rear locker, hottest: 45 °C }
parts:
  house-battery: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  main-fuse: { kind: fuse, at: locker, family: blade-e, rating: 30 A }
  bar: { kind: busbar, at: locker, rating: 100 A }
  pump: { kind: load, at: locker, current: 4 A, inrush: motor, on: schedule }
  lamp: { kind: load, at: locker, current: 1 A, on: always }
wires:
  feed: { from: house-battery.+, to: main-fuse.line, size: 6 mm2, insulation: pvc-105, length: 12 cm }
  feed-2: { from: main-fuse.load, to: bar.1, size: 6 mm2, insulation: pvc-105, length: 30 cm }
  pump-feed: { from: bar.2, to: pump.+, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  lamp-feed: { from: bar.3, to: lamp.+, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  pump-return: { from: pump.-, to: house-battery.-, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  lamp-return: { from: lamp.-, to: house-battery.-, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
`,
};
