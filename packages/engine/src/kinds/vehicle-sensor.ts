/** The battery sensor on a vehicle battery's negative post: it reads what passes from the post to the chassis. */
import type { FieldTable, Kind } from '../contracts/index.ts';
import { contact } from './circuit.ts';
import { memory, times } from './figures.ts';
import { quantity } from './shapes.ts';
import { row, sensorGlyph } from './symbols.ts';

const fields: FieldTable = {
  resistance: quantity('resistance', 'Resistance of its shunt with both joints, Ω.', {
    slack: 'up',
    effort: 'meter',
    how: 'measure: volts across, amperes through',
    fallback: () => memory(0.0001, 'Ω', 'shunt of a battery sensor', times(0.0001, 0.5, 2)),
  }),
};

export const vehicleSensor: Kind = {
  name: 'vehicle-sensor',
  title: 'battery sensor',
  letter: 'B',
  home: 'vehicle',
  fields,
  terminals: () => ({ type: 'named', names: ['post', 'chassis'] }),
  abilities: () => ({
    senses: { post: 'post', chassis: 'chassis' },
    conducts: [['post', 'chassis']],
  }),
  symbol: () => ({
    shape: 'inline',
    terminals: ['post', 'chassis'],
    glyph: null,
    rows: [row('post', 'chassis', sensorGlyph)],
  }),
  elements: (at) => [contact('post', 'chassis', !at.opened, at.read.number('resistance', 0.0001))],
  example: `loomwright: 1
title: A battery with a sensor on its negative post
practice: europe
systems: { vehicle: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: agm, capacity: 80 Ah }
  sensor: { kind: vehicle-sensor, at: bonnet }
  body: { kind: body-section, medium: steel }
  front-earth: { kind: chassis-point, at: bonnet, section: body }
wires:
  clamp: { from: starter-battery.-, to: sensor.post, size: 35 mm2, insulation: pvc-105, length: 5 cm }
  earth: { from: sensor.chassis, to: front-earth.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }
`,
};
