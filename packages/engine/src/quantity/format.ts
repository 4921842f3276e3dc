/**
 * Quantities as printed for people: number, no-break space, unit; a true minus; a fixed number of figures per
 * dimension so
 * that a value keeps its width while it changes.
 */
import { plainNumber } from './number.ts';
import { parseQuantity } from './parse.ts';
import type { Dimension, Unit } from './units.ts';
import { baseUnit, dimensionInfo } from './units.ts';

export const NO_BREAK_SPACE = '\u00A0';
export const TRUE_MINUS = '\u2212';

export interface FormatOptions {
  /** Lengths in ft and in, temperatures in °F, torque in lb·ft, mass in lb. Default metric. */
  readonly units?: 'metric' | 'imperial';
  /** Voltages below 0.1 V in whole mV (drops across joints). Default false. */
  readonly millivolts?: boolean;
  /**
   * Drop zeros after the decimal point that say nothing (given values: "80 A", not "80.0 A"). Default false.
   */
  readonly trim?: boolean;
  /** Decimals, in place of those of the house. */
  readonly decimals?: number;
  /** Which way to round: a time to an unwanted event is rounded down. Default nearest. */
  readonly round?: 'nearest' | 'down' | 'up';
}

const POUND_KG = 0.45359237;
const FOOT_POUND_NM = POUND_KG * 9.80665 * 0.3048;

interface Printed {
  readonly number: number;
  /** Decimals; or three figures, with zeros to fill them; or as many decimals as the number has. */
  readonly decimals: number | 'three' | 'shortest';
  readonly unit: string;
}

/**
 * A value in the base unit of its dimension, as printed. Not finite: "never" for an infinite time, else an em
 * dash.
 */
export function formatQuantity(value: number, dimension: Dimension, options: FormatOptions = {}): string {
  if (!Number.isFinite(value))
    return dimension === 'time' && value === Number.POSITIVE_INFINITY ? 'never' : '\u2014';
  if (dimension === 'time') return formatTime(value, options);
  if (dimension === 'length' && options.units === 'imperial') return formatFeet(value, options);
  return joined(choose(value, dimension, options), options);
}

/** A band: `16 to 50 mm²`; one value where both ends print alike. */
export function formatBand(
  band: readonly [number, number],
  dimension: Dimension,
  options: FormatOptions = {},
): string {
  const low = formatQuantity(band[0], dimension, options);
  const high = formatQuantity(band[1], dimension, options);
  if (low === high) return high;
  const lowUnit = unitPart(low);
  const sameUnit = lowUnit !== '' && lowUnit === unitPart(high) && parts(low) === 2 && parts(high) === 2;
  return `${sameUnit ? (low.split(NO_BREAK_SPACE)[0] ?? low) : low} to ${high}`;
}

function parts(printed: string): number {
  return printed.split(NO_BREAK_SPACE).length;
}

function unitPart(printed: string): string {
  return printed.split(NO_BREAK_SPACE).at(-1) ?? '';
}

function choose(value: number, dimension: Dimension, options: FormatOptions): Printed {
  const size = Math.abs(value);
  const imperial = options.units === 'imperial';
  switch (dimension) {
    case 'voltage':
      if (options.millivolts === true && size < 0.1) return { number: value * 1000, decimals: 0, unit: 'mV' };
      return { number: value, decimals: 2, unit: 'V' };
    case 'resistance':
      return resistance(value, size);
    case 'temperature':
      return imperial
        ? { number: value * 1.8 + 32, decimals: 0, unit: '°F' }
        : { number: value, decimals: 0, unit: '°C' };
    case 'share':
      return { number: value * 100, decimals: size >= 0.0995 ? 0 : 1, unit: '%' };
    case 'factor':
      return { number: value, decimals: 2, unit: '' };
    case 'gradient':
      return { number: value * 1000, decimals: 1, unit: 'mV/K' };
    case 'torque':
      return imperial
        ? { number: value / FOOT_POUND_NM, decimals: 1, unit: 'lb·ft' }
        : { number: value, decimals: 1, unit: 'N·m' };
    case 'mass':
      return imperial
        ? { number: value / POUND_KG, decimals: 1, unit: 'lb' }
        : { number: value, decimals: 1, unit: 'kg' };
    case 'area':
      return { number: Number(value.toPrecision(3)), decimals: 'shortest', unit: 'mm²' };
    case 'length':
      return { number: value, decimals: 2, unit: 'm' };
    case 'temperature-difference':
      return { number: value, decimals: 1, unit: 'K' };
    case 'current':
    case 'power':
    case 'energy':
    case 'charge':
      return prefixed(value, size, baseUnit(dimension), dimension === 'charge');
    default:
      return { number: value, decimals: 'three', unit: baseUnit(dimension) };
  }
}

function resistance(value: number, size: number): Printed {
  if (size < 0.9995) return { number: value * 1e3, decimals: 2, unit: 'mΩ' };
  if (size < 999.5) return { number: value, decimals: 'three', unit: 'Ω' };
  if (size < 999_500) return { number: value / 1e3, decimals: 'three', unit: 'kΩ' };
  return { number: value / 1e6, decimals: 'three', unit: 'MΩ' };
}

/** Below a billionth of the unit nothing is worth printing. */
const LEAST = 1e-9;

/** Milli below 0.1, kilo from 10 000 (never for Ah): 66.0 mA, 54.5 A, 1636 A, 12.0 kA. */
function prefixed(value: number, size: number, unit: string, plainThousands: boolean): Printed {
  // What an open way leaves of rounding: nothing.
  if (size < LEAST) return { number: 0, decimals: 'three', unit };
  if (size < 0.09995) return { number: value * 1e3, decimals: 'three', unit: `m${unit}` };
  if (size < 9999.5 || plainThousands) return { number: value, decimals: 'three', unit };
  return { number: value / 1e3, decimals: 'three', unit: `k${unit}` };
}

function joined(printed: Printed, options: FormatOptions): string {
  const number = decimalText(printed.number, options.decimals ?? printed.decimals, options);
  return printed.unit === '' ? number : `${number}${NO_BREAK_SPACE}${printed.unit}`;
}

function decimalText(value: number, decimals: number | 'three' | 'shortest', options: FormatOptions): string {
  if (decimals === 'shortest') return plainNumber(value).replace('-', TRUE_MINUS);
  const places = decimals === 'three' ? threeFigurePlaces(value) : decimals;
  const way = options.round ?? 'nearest';
  let text = (way === 'nearest' ? value : rounded(value, places, way)).toFixed(places);
  if (options.trim === true && text.includes('.')) text = text.replace(/\.?0+$/, '');
  if (!text.startsWith('-')) return text;
  return text.replace(/^-(?=[0.]*$)/, '').replace('-', TRUE_MINUS);
}

function threeFigurePlaces(value: number): number {
  if (value === 0) return 1;
  // Of most values the figures before the point tell, whichever way the third one is rounded.
  const size = Math.abs(value);
  if (size >= 1 && size < 9.99) return 2;
  if (size >= 10 && size < 99.9) return 1;
  if (size >= 100) return 0;
  const power = Number(value.toExponential(2).split('e')[1] ?? '0');
  return Math.min(Math.max(2 - power, 0), 9);
}

function rounded(value: number, places: number, way: 'down' | 'up'): number {
  const scale = 10 ** places;
  // 1e-9: a value that is whole but for rounding noise stays where it is.
  return way === 'down' ? Math.floor(value * scale + 1e-9) / scale : Math.ceil(value * scale - 1e-9) / scale;
}

const MINUTE = 60;
const DAY = 86_400;

/** 40 ms · 3.10 s · 47 s · 2 min 30 s · 25 min · 2 h 40 min · 36 h · 17 days. */
function formatTime(seconds: number, options: FormatOptions): string {
  const size = Math.abs(seconds);
  const whole = (value: number) => wholeNumber(value, options.round ?? 'nearest');
  if (size === 0) return `0${NO_BREAK_SPACE}s`;
  if (size < 0.9995)
    return joined({ number: seconds * 1000, decimals: size < 0.01 ? 'three' : 0, unit: 'ms' }, options);
  if (size < 9.995) return joined({ number: seconds, decimals: 2, unit: 's' }, options);
  if (whole(size) < 120) return signed(seconds, `${whole(size)}${NO_BREAK_SPACE}s`);
  if (whole(size) < 600) return signed(seconds, twoUnits(whole(size), 'min', 's'));
  if (whole(size / MINUTE) < 60) return signed(seconds, `${whole(size / MINUTE)}${NO_BREAK_SPACE}min`);
  if (size < 2 * DAY) return signed(seconds, twoUnits(whole(size / MINUTE), 'h', 'min'));
  return signed(seconds, `${whole(size / DAY)}${NO_BREAK_SPACE}days`);
}

/** Sixty small ones make a big one. */
function twoUnits(count: number, big: string, small: string): string {
  const whole = `${Math.floor(count / 60)}${NO_BREAK_SPACE}${big}`;
  const rest = count % 60;
  return rest === 0 ? whole : `${whole}${NO_BREAK_SPACE}${rest}${NO_BREAK_SPACE}${small}`;
}

function wholeNumber(value: number, way: 'nearest' | 'down' | 'up'): number {
  return way === 'nearest' ? Math.round(value) : rounded(value, 0, way);
}

function signed(value: number, text: string): string {
  return value < 0 ? `${TRUE_MINUS}${text}` : text;
}

/** Feet and inches, to a tenth of an inch below three feet, else to whole inches. */
function formatFeet(metres: number, options: FormatOptions): string {
  const inches = Math.abs(metres) / 0.0254;
  const places = inches < 35.95 ? 1 : 0;
  const total = Number(decimalText(inches, places, { ...options, trim: true }));
  const feet = Math.floor(total / 12);
  const rest = String(Number((total - 12 * feet).toFixed(places)));
  const foot = feet === 0 ? '' : `${feet}${NO_BREAK_SPACE}ft`;
  const inch = rest === '0' && feet > 0 ? '' : `${rest}${NO_BREAK_SPACE}in`;
  return signed(metres, [foot, inch].filter((part) => part !== '').join(NO_BREAK_SPACE));
}

/**
 * A value in the shortest spelling that `parseQuantity` reads back exactly: for writing into a build, not for
 * people's eyes
 * (ordinary spaces and minus).
 */
export function writeQuantity(value: number, dimension: Dimension): string {
  const info = dimensionInfo(dimension);
  if (info.bare) return plainNumber(value);
  const whole = `${plainNumber(value)} ${baseUnit(dimension)}`;
  const candidates = info.units.map((unit) => inUnit(value, unit)).filter((text) => text !== undefined);
  const exact = candidates.filter((text) => {
    const read = parseQuantity(text, dimension, { min: Number.NEGATIVE_INFINITY });
    return read.ok && read.value === value;
  });
  return exact.reduce((best, text) => (text.length < best.length ? text : best), whole);
}

/** Only decimal multiples and minutes, hours, days: never ft for a length given in m. */
function inUnit(value: number, unit: Unit): string | undefined {
  if (unit.offset !== 0 || !Number.isInteger(unit.factor)) return undefined;
  const number = Number((value / unit.factor).toPrecision(15));
  const shifted = Number(
    number.toExponential().replace(/e(.+)$/, (_, power: string) => `e${Number(power) - unit.exponent}`),
  );
  return Number.isFinite(shifted) ? `${plainNumber(shifted)} ${unit.symbol}` : undefined;
}
