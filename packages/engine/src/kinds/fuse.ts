/** A fuse. */
import type {
  Basis,
  FieldContext,
  FieldTable,
  Kind,
  Sourced,
  TimeCurrentBand,
  ValueReader,
} from '../contracts/index.ts';
import {
  bladeEHeatFactor,
  fuseCurve,
  fuseDropAtRating,
  fuseFamilies,
  fuseHeatFactor,
  fuseInterrupting,
  fuseVoltage,
  isFigure,
  type Figure,
  type FuseFamily,
} from '../reference/index.ts';
import { contact, isClosed } from './circuit.ts';
import { ask } from './figures.ts';
import { deviceResistanceShape } from './phrases.ts';
import {
  curveField,
  defaultFactor,
  deviceResistance,
  givenCurve,
  greatestVolts,
  heatFactorField,
  inConductor,
  publishedCurve,
  publishedFactor,
  statedFactor,
} from './protect.ts';
import { choice, field, quantity } from './shapes.ts';
import { fuseGlyph } from './symbols.ts';

const fields: FieldTable = {
  family: choice([...fuseFamilies, 'strip'], 'Its family (`strip` means strip-30).', { wanted: true }),
  rating: quantity('current', 'Rated current, A.', { wanted: true }),
  interrupts: quantity('current', 'Greatest current that it can interrupt at this voltage (dc), A.', {
    label: 'interrupting rating',
    fallback: (read, about) =>
      ofFamily(read, (family) =>
        fuseInterrupting(family, highestNet(about), read.quantity('rating')?.sourced.value),
      ),
  }),
  curve: curveField,
  clearing: quantity('let-through', 'Greatest I²t that it lets through while clearing, A²s.'),
  'cold-resistance': field(
    deviceResistanceShape,
    'Its resistance, Ω, or the voltage lost at its rating; 100 mV over the rating (75 to 150 mV) when not given.',
    { slack: 'up' },
  ),
  'heat-factor': heatFactorField(
    'Share of its rating that it carries continuously in heat: a factor, or a table by temperature.',
  ),
};

/** A fuse does not know in which net it sits: the highest of the build counts, V. */
const highestNet = (about: FieldContext): number =>
  greatestVolts({ nominal: Math.max(about.nominal, ...Object.values(about.systems ?? {})) });

const familyOf = (read: ValueReader): FuseFamily | null => {
  const word = read.choice('family');
  return word === 'strip' ? 'strip-30' : (word as FuseFamily | null);
};

function ofFamily(read: ValueReader, find: (family: FuseFamily) => Figure): Sourced | null {
  const family = familyOf(read);
  const found = family === null ? null : find(family);
  return found !== null && isFigure(found) ? found : null;
}

/** What the maker or the build gives wins; else the family's published times. */
function curveOf(read: ValueReader): TimeCurrentBand | null {
  const clearing = read.quantity('clearing');
  const given = givenCurve(read, clearing?.sourced.value ?? null);
  if (given !== null) return given;
  const family = familyOf(read);
  const rating = read.quantity('rating')?.sourced.value;
  if (family === null || rating === undefined) return null;
  return publishedCurve(read, `fuse-curve/${family}`, `${family} fuses`, fuseCurve(family, rating), clearing);
}

function factorOf(read: ValueReader, airC: number): Basis {
  const stated = statedFactor(read, airC);
  if (stated !== null) return stated;
  const rating = read.quantity('rating')?.sourced.value ?? 40;
  if (familyOf(read) === 'blade-e') {
    return publishedFactor(
      read,
      'heat/blade-e',
      'blade-e fuses',
      bladeEHeatFactor(airC, rating),
      fuseHeatFactor,
    );
  }
  return defaultFactor(read, fuseHeatFactor);
}

const familyVoltage = (read: ValueReader): Basis | null => {
  const found = ofFamily(read, fuseVoltage);
  return found === null
    ? null
    : read.figure(
        `table:fuse-voltage/${familyOf(read) ?? ''}`,
        found,
        ask(`voltage rating of ${familyOf(read) ?? 'these'} fuses`),
      );
};

export const fuse: Kind = {
  name: 'fuse',
  title: 'fuse',
  fields,
  ...inConductor(fuseGlyph),
  abilities: (read) => ({
    protects: {
      from: 'line',
      to: 'load',
      type: 'fuse',
      rating: read.quantity('rating'),
      interrupts: read.quantity('interrupts'),
      curve: curveOf(read),
      reset: null,
      factor: (airC) => factorOf(read, airC),
      family: familyOf(read) ?? 'unknown',
    },
    dcRating: { stated: read.quantity('dc-rating'), family: familyVoltage(read) },
  }),
  elements: (at) => [
    contact(
      'line',
      'load',
      isClosed(at),
      deviceResistance(at.read, 'cold-resistance', fuseDropAtRating).sourced.value,
    ),
  ],
  example: `loomwright: 1
title: A lamp behind a blade fuse
practice: europe
systems: { vehicle: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  lamp-fuse: { kind: fuse, at: bonnet, family: blade-f, rating: 10 A }
  lamp: { kind: load, at: bonnet, current: 2 A, inrush: lamp, on: schedule }
wires:
  feed: { from: starter-battery.+, to: lamp-fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 10 cm }
  lamp-feed: { from: lamp-fuse.load, to: lamp.+, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  lamp-return: { from: lamp.-, to: starter-battery.-, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
`,
};
