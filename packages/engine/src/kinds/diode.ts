/** A diode: conducts from anode to cathode beyond its drop. */
import type { FieldTable, Kind } from '../contracts/index.ts';
import { statedRating } from './common.ts';
import { practice } from './figures.ts';
import { quantity } from './shapes.ts';
import { diodeGlyph, plate, row } from './symbols.ts';

/** Slope beyond the drop, S: a milliohm. */
const SLOPE = 1000;

const fields: FieldTable = {
  drop: quantity('voltage', 'Voltage lost when it conducts, V.', {
    slack: 'up',
    fallback: () => practice(0.7, 'V', 'silicon junction; a Schottky diode 0.3 to 0.5 V', [0.3, 1]),
  }),
  rating: quantity('current', 'Rated current, A.'),
};

export const diode: Kind = {
  name: 'diode',
  title: 'diode',
  letter: 'R',
  fields,
  terminals: () => ({ type: 'named', names: ['anode', 'cathode'] }),
  abilities: (read) => ({
    carries: read.quantity('rating'),
    dcRating: statedRating(read),
    oneWay: ['anode', 'cathode'],
    forward: read.quantity('drop'),
  }),
  symbol: (read) => ({
    shape: 'inline',
    terminals: ['anode', 'cathode'],
    glyph: null,
    rows: [row('anode', 'cathode', diodeGlyph)],
    plate: plate(read, 'rating'),
  }),
  elements: (at) => [
    {
      type: 'pieces',
      a: 'anode',
      b: 'cathode',
      points: [[at.read.number('drop', 0.7), 0]],
      below: 0,
      above: at.opened ? 0 : SLOPE,
    },
  ],
  example: `loomwright: 1
title: A warning lamp behind a diode
practice: europe
systems: { house: 12 V }
places:
  locker: { label: Rear locker, hottest: 45 °C }
parts:
  house-battery: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  lamp-fuse: { kind: fuse, at: locker, family: blade-f, rating: 3 A }
  block: { kind: diode, at: locker, drop: 0.7 V, rating: 3 A }
  lamp: { kind: load, at: locker, current: 100 mA, on: always }
wires:
  feed: { from: house-battery.+, to: lamp-fuse.line, size: 1 mm2, insulation: pvc-105, length: 10 cm }
  lamp-feed: { from: lamp-fuse.load, to: block.anode, size: 1 mm2, insulation: pvc-105, length: 1 m }
  lamp-feed-2: { from: block.cathode, to: lamp.+, size: 1 mm2, insulation: pvc-105, length: 20 cm }
  lamp-return: { from: lamp.-, to: house-battery.-, size: 1 mm2, insulation: pvc-105, length: 2 m }
`,
};
