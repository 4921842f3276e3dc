/** A strap between two sections of the body. */
import type { FieldTable, Kind, ValueReader } from '../contracts/index.ts';
import { contact } from './circuit.ts';
import { memory, textOf, times } from './figures.ts';
import { quantity, text } from './shapes.ts';

const fields: FieldTable = {
  from: text('Name of the body section at one end.', { wanted: true }),
  to: text('Name of the body section at the other end.', { wanted: true }),
  resistance: quantity('resistance', 'Its resistance with both joints, Ω.', {
    slack: 'up',
    how: 'measure: volts across, amperes through',
    effort: 'meter',
    fallback: () => memory(0.0005, 'Ω', 'braided strap with its joints', times(0.0005, 0.5, 3)),
  }),
};

const node = (read: ValueReader, end: 'from' | 'to'): string => {
  const section = textOf(read, end);
  return section === null ? `.${end}` : `^section:${section}`;
};

export const strap: Kind = {
  name: 'strap',
  title: 'earth strap',
  letter: 'W',
  home: 'vehicle',
  fields,
  terminals: () => ({ type: 'named', names: [] }),
  abilities: (read) => {
    const from = textOf(read, 'from');
    const to = textOf(read, 'to');
    const ohms = read.quantity('resistance');
    return {
      ...(from === null || to === null ? {} : { bonds: { from, to } }),
      joints: ohms === null ? [] : [{ element: 0, label: 'earth strap', ohms }],
    };
  },
  elements: (at) => [
    contact(node(at.read, 'from'), node(at.read, 'to'), !at.opened, at.read.number('resistance', 0.0005)),
  ],
  example: `loomwright: 1
title: Cab and box joined by a strap
practice: europe
systems: { vehicle: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  cab: { kind: body-section, medium: steel }
  box: { kind: body-section, medium: bonded-aluminium }
  earth-strap: { kind: strap, from: cab, to: box }
  front-earth: { kind: chassis-point, at: bonnet, section: cab }
wires:
  earth: { from: starter-battery.-, to: front-earth.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }
`,
};
