/** Numbers as people read them: the one place where a value and its unit become text. */
import type { Measure } from '../contracts/finding.ts';
import { formatQuantity, NO_BREAK_SPACE, TRUE_MINUS, type Dimension } from '../quantity/index.ts';

/** Units that results use, with their dimension and the factor to its base unit. */
const UNITS: Readonly<Record<string, readonly [Dimension, number]>> = {
  V: ['voltage', 1],
  A: ['current', 1],
  mA: ['current', 1e-3],
  W: ['power', 1],
  mm2: ['area', 1],
  'mm²': ['area', 1],
  m: ['length', 1],
  s: ['time', 1],
  ms: ['time', 1e-3],
  '°C': ['temperature', 1],
  K: ['temperature-difference', 1],
  Ah: ['charge', 1],
  Wh: ['energy', 1],
  mΩ: ['resistance', 1e-3],
  Ω: ['resistance', 1],
  kΩ: ['resistance', 1e3],
  'A²s': ['let-through', 1],
  N·m: ['torque', 1],
  kg: ['mass', 1],
};

/** Longer than this (s), a time is rounded down: a time to an unwanted event must not promise more than there is. */
const LONG_TIME = 120;

/**
 * A value with its unit: `13.44 V`, `48 mV`, `−31.0 A`, `2 h 40 min`. The number and its unit are held together by a
 * no-break space. `null` prints as "no figure". `trim` drops zeros that say nothing, for values as people state them.
 */
export function printValue(value: number | null, unit: string, trim = false): string {
  if (value === null || Number.isNaN(value)) return 'no figure';
  if (unit === 'Ω/m') return `${figures(value * 1000)}${NO_BREAK_SPACE}mΩ/m`;
  if (unit === 'mV') return `${plain(value, 1)}${NO_BREAK_SPACE}mV`;
  if (unit === 'mm') return `${plain(value, Math.abs(value) < 9.95 ? 1 : 0)}${NO_BREAK_SPACE}mm`;
  if (unit === '%') return `${plain(value, Math.abs(value) < 99.95 ? 1 : 0)}${NO_BREAK_SPACE}%`;
  const known = UNITS[unit];
  if (known === undefined) return unit === '' ? figures(value) : `${figures(value)}${NO_BREAK_SPACE}${unit}`;
  const [dimension, factor] = known;
  const base = value * factor;
  const round = dimension === 'time' && Math.abs(base) > LONG_TIME ? 'down' : 'nearest';
  return formatQuantity(base, dimension, { round, trim });
}

/** A band of values with one unit: `27 to 150 A`; one value where both ends print alike. */
export function printBand(low: number | null, high: number | null, unit: string, trim = false): string {
  const [a, b] = [printValue(low, unit, trim), printValue(high, unit, trim)];
  if (a === b) return a;
  const [aNumber, aUnit] = split(a);
  const [, bUnit] = split(b);
  return aUnit !== '' && aUnit === bUnit ? `${aNumber} to ${b}` : `${a} to ${b}`;
}

/** Value or limit of a finding: its words where it has words, else the number. */
export function printMeasure(measure: Measure): string {
  if (measure.value === null) return measure.words ?? 'no figure';
  const number = printValue(measure.value, measure.unit);
  return measure.words === undefined || measure.words === '' ? number : `${number} (${measure.words})`;
}

/** Three figures, without zeros that say nothing: 0.88, 54.5, 1.5, 312. */
export function figures(value: number): string {
  if (!Number.isFinite(value)) return value > 0 ? 'without end' : 'no figure';
  const short = Math.abs(value) >= 1000 ? Math.round(value) : Number(value.toPrecision(3));
  const text = Math.abs(short) < 1e-6 && short !== 0 ? short.toExponential() : String(short);
  return text.replace('-', TRUE_MINUS);
}

function plain(value: number, decimals: number): string {
  const digits = Math.abs(value) >= 10 ** (2 + decimals) ? 0 : decimals;
  const text = value.toFixed(digits);
  return (Number(text) === 0 ? text.replace('-', '') : text).replace('-', TRUE_MINUS);
}

function split(printed: string): readonly [string, string] {
  const at = printed.lastIndexOf(NO_BREAK_SPACE);
  return at < 0 ? [printed, ''] : [printed.slice(0, at), printed.slice(at + 1)];
}
