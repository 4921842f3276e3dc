/** A joint in a conductor: plug, link, splice. */
import type { Basis, FieldTable, Kind, ValueReader } from '../contracts/index.ts';
import { contact } from './circuit.ts';
import { statedRating } from './common.ts';
import { ask, asGiven, memory } from './figures.ts';
import { quantity } from './shapes.ts';
import { jointGlyph, row } from './symbols.ts';

const fields: FieldTable = {
  resistance: quantity('resistance', 'Its resistance, Ω.', {
    wanted: true,
    slack: 'up',
    how: 'measure: volts across, amperes through',
    effort: 'meter',
  }),
};

/** As given, else a usual plug connection (memory, wide band). */
function ohmsOf(read: ValueReader): Basis {
  const basis = read.resolve(
    'resistance',
    asGiven(read.raw('resistance')),
    memory(0.0005, 'Ω', 'plug or splice in good order', [0.0001, 0.005]),
    ask('resistance of {part}', 'up', 'meter', 'measure: volts across, amperes through'),
  );
  if (basis === null) throw new Error('a joint has a default');
  return basis;
}

export const joint: Kind = {
  name: 'joint',
  title: 'joint',
  letter: 'X',
  fields,
  leadsOn: true,
  terminals: () => ({ type: 'named', names: ['a', 'b'] }),
  abilities: (read) => ({
    conducts: [['a', 'b']],
    joints: [{ element: 0, label: 'joint', ohms: ohmsOf(read) }],
    dcRating: statedRating(read),
  }),
  symbol: () => ({ shape: 'inline', terminals: ['a', 'b'], glyph: null, rows: [row('a', 'b', jointGlyph)] }),
  elements: (at) => [contact('a', 'b', !at.opened, ohmsOf(at.read).sourced.value)],
  example: `loomwright: 1
title: A lamp behind a plug
practice: europe
systems: { house: 12 V }
places:
  locker: { label: Rear locker, hottest: 45 °C }
parts:
  house-battery: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  lamp-fuse: { kind: fuse, at: locker, family: blade-f, rating: 5 A }
  plug: { kind: joint, at: locker, resistance: 2 mΩ }
  lamp: { kind: load, at: locker, current: 1 A, on: always }
wires:
  feed: { from: house-battery.+, to: lamp-fuse.line, size: 1.5 mm2, insulation: pvc-105, length: 10 cm }
  lamp-feed: { from: lamp-fuse.load, to: plug.a, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  lamp-feed-2: { from: plug.b, to: lamp.+, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  lamp-return: { from: lamp.-, to: house-battery.-, size: 1.5 mm2, insulation: pvc-105, length: 2 m }
`,
};
