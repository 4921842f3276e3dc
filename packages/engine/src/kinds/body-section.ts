/** A section of the body: one point that chassis points, straps and returns join. */
import type { Basis, FieldTable, Kind, Sourced, ValueReader } from '../contracts/index.ts';
import { ask, memory, times } from './figures.ts';
import { choice } from './shapes.ts';

type Medium = 'steel' | 'bonded-aluminium' | 'composite';

const fields: FieldTable = {
  medium: choice(['steel', 'bonded-aluminium', 'composite'], 'What the section is made of.', {
    wanted: true,
  }),
};

export const mediumOf = (read: ValueReader): Medium | null => read.choice('medium') as Medium | null;

/** Spread resistance of a chassis point, Ω (memory): steel 0.5 mΩ, bonded aluminium 5 mΩ; composite has none. */
const SPREADS: Readonly<Record<Medium, Sourced | null>> = {
  steel: memory(0.0005, 'Ω', 'welded steel body', [0.0002, 0.0015]),
  'bonded-aluminium': memory(
    0.005,
    'Ω',
    'bonded aluminium panels, not to be relied on',
    times(0.005, 0.4, 4),
  ),
  composite: null,
};

/** Spread resistance of a chassis point on the section, Ω; null: no connection. Where the medium is not given, that of steel. */
export function spreadOf(section: ValueReader): Basis | null {
  const fallback = SPREADS[mediumOf(section) ?? 'steel'];
  return fallback === null
    ? null
    : section.resolve(
        'spread',
        null,
        fallback,
        ask(
          'spread resistance of {part}',
          'up',
          'meter',
          'measure the loop: volts from the battery post to the chassis point over the amperes through it',
        ),
      );
}

export const bodySection: Kind = {
  name: 'body-section',
  title: 'section of the body',
  letter: 'W',
  home: 'vehicle',
  fields,
  terminals: () => ({ type: 'named', names: [] }),
  abilities: (read) => ({
    section: { medium: mediumOf(read), spread: mediumOf(read) === null ? null : spreadOf(read) },
  }),
  elements: () => [],
  example: `loomwright: 1
title: A body with two chassis points
practice: europe
systems: { vehicle: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  body: { kind: body-section, medium: steel }
  earth-point: { kind: chassis-point, at: bonnet, section: body }
wires:
  earth: { from: starter-battery.-, to: earth-point.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }
`,
};
