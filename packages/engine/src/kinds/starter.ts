/** The starter: its motor and its solenoid, drawn while cranking. */
import type { FieldTable, Kind } from '../contracts/index.ts';
import { constantCurrent, ownOrPost } from './circuit.ts';
import { memory, times } from './figures.ts';
import { quantity, systemField } from './shapes.ts';
import { machineGlyph, plate } from './symbols.ts';

const fields: FieldTable = {
  system: systemField(),
  current: quantity('current', 'Current of its motor while cranking, A.', {
    label: 'motor current',
    slack: 'up',
    how: 'measure with a clamp while cranking',
    effort: 'engine',
    fallback: () => memory(250, 'A', 'usual van or car', times(250, 0.5, 2)),
  }),
  solenoid: quantity('current', 'Current of its solenoid while cranking, A.', {
    label: 'solenoid current',
    slack: 'up',
    fallback: () => memory(20, 'A', 'usual solenoid, holding and pulling', times(20, 0.5, 2)),
  }),
};

export const starter: Kind = {
  name: 'starter',
  title: 'starter',
  letter: 'M',
  home: 'vehicle',
  fields,
  terminals: () => ({ type: 'named', names: ['+', '-'] }),
  atPostsWhenUnwired: { plus: '+', minus: '-' },
  implied: (vehicle) => vehicle.hasVehicleBattery && vehicle.engine,
  abilities: (read) => ({
    consumes: {
      plus: '+',
      minus: '-',
      section: null,
      class: 'none',
      inrush: 1,
      inrushSeconds: 0.5,
      character: 'inductive',
      schedule: ['cranking'],
      atLeast: null,
      amps: read.quantity('current'),
      ofVehicle: true,
    },
    sparks: true,
    across: [['+', '-']],
  }),
  symbol: (read) => ({
    shape: 'round',
    terminals: ['+', '-'],
    glyph: machineGlyph('M'),
    plate: plate(read, 'current'),
  }),
  elements: (at) => {
    const turns = at.state.cranking && at.mode === 'service' && !at.opened;
    const a = ownOrPost(at, '+');
    const b = ownOrPost(at, '-');
    return ['current', 'solenoid'].map((name) => constantCurrent(a, b, turns ? at.read.number(name, 0) : 0));
  },
  example: `loomwright: 1
title: A starter with its own cables
practice: europe
systems: { vehicle: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah, cranking: 640 A }
  starter: { kind: starter, at: bonnet, current: 200..320 A }
wires:
  cable: { from: starter-battery.+, to: starter.+, size: 50 mm2, insulation: pvc-105, length: 80 cm }
  earth: { from: starter-battery.-, to: starter.-, size: 50 mm2, insulation: pvc-105, length: 80 cm }
`,
};
