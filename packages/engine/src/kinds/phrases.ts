/** Values written as a phrase, and what becomes of them. */
import type { PhraseResult, Shape, Stated } from '../contracts/index.ts';
import {
  isUnknown,
  parseDeviceResistance,
  parseLowInput,
  parseOneSided,
  parsePlate,
  parseQuantityOf,
  parseSampling,
  parseThreshold,
  type Quantity,
  type Refusal,
} from '../quantity/index.ts';

/** A coil by its resistance (Ω) or its current at nominal volts (A). */
export type CoilValue = { readonly ohms: Stated } | { readonly amps: Stated };

export interface OneSidedValue {
  readonly side: 'below' | 'above';
  readonly dimension: 'temperature' | 'voltage';
  readonly limit: Stated;
}

/** Keeps of a quantity what a build keeps. */
const stated = (q: Quantity): Stated => ({
  value: q.value,
  text: q.text,
  ...(q.band === undefined ? {} : { band: q.band }),
});

type Found = { readonly ok: true; readonly value: unknown };

function phrase(expected: string, pattern: string, read: (text: string) => Found | Refusal): Shape {
  return {
    shape: 'phrase',
    expected,
    pattern,
    read: (text): PhraseResult => (isUnknown(text) ? { ok: true, value: 'unknown' } : read(text)),
  };
}

/** -> Threshold */
export const thresholdShape: Shape = phrase('"13.3 V after 15 s"', '[0-9].*V|^unknown$', parseThreshold);

/** -> LowInput */
export const lowInputShape: Shape = phrase(
  '"stops", "holds 12.9 V" or "reduces from 13.0 V to 12.0 V"',
  '^(stops|holds .+|reduces from .+|unknown)$',
  parseLowInput,
);

/** -> Plate */
export const plateShape: Shape = phrase('"70/150 A 13.5 V"', '/.*A.*V|^unknown$', parsePlate);

/** -> CoilValue */
export const coilShape: Shape = phrase('"85 Ω" or "0.15 A"', '[0-9]|^unknown$', (text) => {
  const found = parseQuantityOf(text, ['resistance', 'current'], { min: 0 });
  if (!found.ok) return found;
  const value: CoilValue =
    found.dimension === 'resistance' ? { ohms: stated(found) } : { amps: stated(found) };
  return { ok: true, value };
});

/** -> DeviceResistance */
export const deviceResistanceShape: Shape = phrase(
  '"2 mΩ" or "0.1 V/rating"',
  '[0-9]|^unknown$',
  parseDeviceResistance,
);

/** -> Sampling */
export const samplingShape: Shape = phrase('"5 s every 3 min"', ' every |^unknown$', parseSampling);

/** A limit on one side, of a temperature or a voltage. -> OneSidedValue */
export const oneSidedShape: Shape = phrase(
  '"below 0 °C" or "above 15.6 V"',
  '^(below|above) .+$|^unknown$',
  (text) => {
    const found = parseOneSided(text, ['temperature', 'voltage']);
    if (!found.ok) return found;
    const ofVoltage = parseOneSided(text, ['voltage']).ok;
    const value: OneSidedValue = { ...found.value, dimension: ofVoltage ? 'voltage' : 'temperature' };
    return { ok: true, value };
  },
);

/** A number of lugs, with or without the word. -> number */
export const lugsShape: Shape = phrase('"4 lugs"', '^[0-9]+( lugs?)?$|^unknown$', (text) => {
  const found = /^(\d{1,2})(?: ?lugs?)?$/.exec(text.trim());
  const value = Number(found?.[1] ?? 0);
  return value >= 1
    ? { ok: true, value }
    : { ok: false, message: `"${text.trim().slice(0, 40)}" is no number of lugs: write it such as 4 lugs` };
});
