/** A battery monitor's shunt in the negative, with what its monitor draws. */
import type { FieldTable, Kind, ValueReader } from '../contracts/index.ts';
import { constantCurrent, contact } from './circuit.ts';
import { statedRating } from './common.ts';
import { ask, asGiven, member, memory, seen, times } from './figures.ts';
import { field, quantity, recordShape } from './shapes.ts';
import { plate, row, shuntGlyph } from './symbols.ts';

const fields: FieldTable = {
  rating: quantity('current', 'Rated current, A.'),
  resistance: quantity('resistance', 'Its resistance with both joints, Ω.', {
    slack: 'up',
    fallback: () => seen(0.0001, 'Ω', '50 mV at 500 A, a usual shunt', times(0.0001, 0.9, 2)),
  }),
  monitor: field(
    recordShape({ standby: quantity('current', 'What the monitor draws, A; 5 mA when not given.') }),
    'Its monitor: `{ standby: 5 mA }`; drawn at the terminal `supply` where that is wired.',
  ),
};

const standby = (read: ValueReader) =>
  read.resolve(
    'monitor.standby',
    asGiven(member(read.raw('monitor'), 'standby')),
    memory(0.005, 'A', 'usual battery monitor', [0.001, 0.01]),
    ask('what the monitor of {part} draws', 'up'),
  );

export const shunt: Kind = {
  name: 'shunt',
  title: 'shunt',
  letter: 'B',
  fields,
  leadsOn: true,
  terminals: () => ({ type: 'named', names: ['battery', 'system', 'supply'] }),
  abilities: (read) => {
    const amps = standby(read);
    return {
      measures: { battery: 'battery', system: 'system', element: 0 },
      conducts: [['battery', 'system']],
      carries: read.quantity('rating'),
      ...(amps === null ? {} : { standby: { amps, plus: 'supply', minus: 'battery' } }),
      dcRating: statedRating(read),
    };
  },
  symbol: (read) => ({
    shape: 'inline',
    terminals: ['battery', 'system', 'supply'],
    glyph: null,
    rows: [row('battery', 'system', shuntGlyph)],
    plate: plate(read, 'rating'),
  }),
  elements: (at) => [
    contact('battery', 'system', !at.opened, at.read.number('resistance', 0.0001)),
    constantCurrent(
      'supply',
      'battery',
      at.mode === 'service' && !at.opened ? (standby(at.read)?.sourced.value ?? 0) : 0,
    ),
  ],
  example: `loomwright: 1
title: A house battery with a monitor
practice: europe
systems: { house: 12 V }
places:
  locker: { label: Rear locker, hottest: 45 °C }
parts:
  house-battery: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 100 Ah }
  lamp-fuse: { kind: fuse, at: locker, family: blade-f, rating: 5 A }
  monitor: { kind: shunt, at: locker, rating: 300 A, monitor: { standby: 5 mA } }
  lamp: { kind: load, at: locker, current: 1 A, on: always }
wires:
  feed: { from: house-battery.+, to: lamp-fuse.line, size: 1.5 mm2, insulation: pvc-105, length: 10 cm }
  lamp-feed: { from: lamp-fuse.load, to: lamp.+, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  lamp-return: { from: lamp.-, to: monitor.system, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  bank-return: { from: monitor.battery, to: house-battery.-, size: 16 mm2, insulation: pvc-105, length: 20 cm }
`,
};
