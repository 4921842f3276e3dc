/** A bolt on the body: its lug joint and the spread into the section. */
import type { Basis, ElementOf, FieldTable, Kind, Sourced, Surroundings } from '../contracts/index.ts';
import { spreadOf } from './body-section.ts';
import { resistor } from './circuit.ts';
import { memory, textOf, times } from './figures.ts';
import { quantity, text } from './shapes.ts';
import { bodyGlyph, threadOf } from './symbols.ts';

/** Resistance of a lug bolted to the body, Ω (memory). */
export const lugJoint: Sourced = memory(0.0003, 'Ω', 'lug bolted to bare metal', times(0.0003, 0.5, 2));

/** What joins `from` to a section of the body: the lug joint, then the spread. */
export function intoBody(
  at: Surroundings,
  from: string,
  section: string | null,
  joint: Basis | null,
): readonly ElementOf<string>[] {
  const reader = section === null ? null : at.other(section);
  const spread = reader === null ? null : spreadOf(reader);
  const star = section === null || reader === null ? '.nowhere' : `^section:${section}`;
  return [
    resistor(from, '.lug', joint?.sourced.value ?? lugJoint.value),
    resistor('.lug', star, spread?.sourced.value ?? Infinity),
  ];
}

export const jointField = quantity('resistance', 'Resistance of its lug joint, Ω.', {
  slack: 'up',
  how: 'measure: volts across, amperes through',
  effort: 'meter',
  fallback: () => lugJoint,
});

const fields: FieldTable = {
  section: text('Name of the body section that it is bolted to.', { wanted: true }),
  joint: jointField,
};

export const chassisPoint: Kind = {
  name: 'chassis-point',
  title: 'chassis point',
  letter: 'X',
  home: 'vehicle',
  fields,
  terminals: () => ({ type: 'named', names: ['stud'] }),
  abilities: (read) => {
    const section = textOf(read, 'section');
    const ohms = read.quantity('joint');
    return {
      ...(section === null ? {} : { grounds: { terminal: 'stud', section } }),
      joints: ohms === null ? [] : [{ element: 0, label: 'lug joint of the chassis point', ohms }],
    };
  },
  symbol: (read) => ({ shape: 'bar', terminals: ['stud'], glyph: bodyGlyph, plate: threadOf(read) }),
  elements: (at) => intoBody(at, 'stud', textOf(at.read, 'section'), at.read.quantity('joint')),
  example: `loomwright: 1
title: A lamp that returns through the body
practice: europe
systems: { vehicle: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  body: { kind: body-section, medium: steel }
  front-earth: { kind: chassis-point, at: bonnet, section: body }
  lamp-earth: { kind: chassis-point, at: bonnet, section: body, joint: 0.4 mΩ }
  lamp-fuse: { kind: fuse, at: bonnet, family: blade-f, rating: 10 A }
  lamp: { kind: load, at: bonnet, power: 21 W, inrush: lamp, on: schedule }
wires:
  earth: { from: starter-battery.-, to: front-earth.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }
  feed: { from: starter-battery.+, to: lamp-fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 10 cm }
  lamp-feed: { from: lamp-fuse.load, to: lamp.+, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  lamp-return: { from: lamp.-, to: lamp-earth.stud, size: 1.5 mm2, insulation: pvc-105, length: 20 cm }
`,
};
