/** Quantities as written in a build: a number with its unit, or a band of two. */
import { readCompound } from './compound.ts';
import { plainNumber, readNumber } from './number.ts';
import { isUnknown, listed, LONGEST, normalise, quoted } from './text.ts';
import type { Dimension, DimensionInfo, Unit } from './units.ts';
import { baseUnit, dimensionInfo, findUnit } from './units.ts';
import { wrongUnit } from './wrong-unit.ts';

/** A value with its text, as a build keeps it. */
export interface Amount {
  /** In the base unit of its dimension; of a band its midpoint. */
  readonly value: number;
  readonly band?: readonly [number, number];
  /** As typed. */
  readonly text: string;
}

/** A quantity that was understood. */
export interface Quantity extends Amount {
  readonly ok: true;
  readonly dimension: Dimension;
  /**
   * In the base unit of the dimension; of a band its midpoint (of a band with `never`: the end that is a
   * number).
   */
  readonly value: number;
  /** Only for a band, in the base unit; `never` is Infinity. */
  readonly band?: readonly [number, number];
  /** The unit as typed ("" for a plain factor or share). */
  readonly unit: string;
  /** The whole text as typed, trimmed. */
  readonly text: string;
}

/**
 * A text that was not understood; the message is one sentence for the person who wrote it, naming what to
 * write instead.
 */
export interface Refusal {
  readonly ok: false;
  readonly message: string;
}

export type QuantityResult = Quantity | Refusal;

export interface QuantityOptions {
  /**
   * Least and greatest value allowed, in the base unit, both included. Default: what can exist (no negative
   * length), no upper limit.
   */
  readonly min?: number;
  readonly max?: number;
  /** Accept a band `3..8 mΩ`. Default true. */
  readonly band?: boolean;
  /** Accept the word `never` (Infinity), alone or as an end of a band. Default false. */
  readonly never?: boolean;
}

const refuse = (message: string): Refusal => ({ ok: false, message });
const NOT_NUMBERS = /^[+-]?\.?(?:nan|inf|infinity|∞)\b/i;
const NUMBER_AND_REST = /^([+-]? ?(?:\d[\d.,]*|[.,]\d[\d.,]*)) ?(.*)$/;

/**
 * Reads a quantity of one dimension.
 *
 * Accepted: `25 mm`, `25mm`, `13,2 V`, `−12 °C` (any minus, any space), bands `3..8 mΩ`, `3 mΩ..8 mΩ`, `3 to 8
 * mΩ`, and the
 * compound forms `12 ft 6 in` and `2 h 40 min`. Refused with a message: a missing, unknown or foreign unit, a
 * number of two
 * meanings (`1,300 A`), a value outside the range, exponents, NaN and the like.
 */
export function parseQuantity(
  text: string,
  dimension: Dimension,
  options: QuantityOptions = {},
): QuantityResult {
  const info = dimensionInfo(dimension);
  const plain = normalise(text);
  if (plain === '')
    return refuse(`nothing is written here: ${info.noun} is expected, such as ${info.example}`);
  if (plain.length > LONGEST)
    return refuse(`${quoted(text)} is too long: ${info.noun} is expected, such as ${info.example}`);
  if (isUnknown(plain))
    return refuse(`"unknown" is not accepted here: ${info.noun} is expected, such as ${info.example}`);
  const ends = splitBand(plain, info);
  if (ends === undefined) return parseSingle(plain, text, info, options);
  if ('message' in ends) return ends;
  if (options.band === false)
    return refuse(`${quoted(text)} is a band: one value is expected here, such as ${info.example}`);
  return parseBand(ends, text, info, options);
}

/**
 * Reads a quantity that may have one of several dimensions (a coil in Ω or in A), told by its unit.
 */
export function parseQuantityOf(
  text: string,
  allowed: readonly Dimension[],
  options: QuantityOptions = {},
): QuantityResult {
  const results = allowed.map((dimension) => parseQuantity(text, dimension, options));
  const good = results.find((result) => result.ok);
  if (good !== undefined) return good;
  const owner = allowed.findIndex((dimension) => unitBelongs(text, dimension));
  const best = owner < 0 ? undefined : results[owner];
  if (best !== undefined) return best;
  const wanted = allowed.map((dimension) => {
    const info = dimensionInfo(dimension);
    return `${info.noun} such as ${info.example}`;
  });
  return refuse(`${quoted(text)} is not understood: write ${listed(wanted)}`);
}

function unitBelongs(text: string, dimension: Dimension): boolean {
  const rest = NUMBER_AND_REST.exec(normalise(text).replace(/^.*\.\. ?/, ''))?.[2];
  return rest !== undefined && rest !== '' && findUnit(dimension, rest) !== undefined;
}

interface Ends {
  readonly low: string;
  readonly high: string;
}

function splitBand(plain: string, info: DimensionInfo): Ends | Refusal | undefined {
  if (/\.{3}|…/.test(plain))
    return refuse(`${quoted(plain)}: a band is written with two points, such as ${bandExample(info)}`);
  const match = /^(.*?) ?\.\. ?(.*)$/.exec(plain) ?? /^(.+) to (.+)$/.exec(plain);
  if (match === null) return hyphenBand(plain, info);
  const [, low = '', high = ''] = match;
  if (low === '' || high === '' || high.includes('..')) {
    return refuse(`${quoted(plain)}: a band has two ends, such as ${bandExample(info)}`);
  }
  return { low, high };
}

function hyphenBand(plain: string, info: DimensionInfo): Refusal | undefined {
  const dash = /^([\d.,]+[^\d–-]*?) ?[–-] ?([\d.,]+.*)$/.exec(plain);
  if (dash !== null) return refuse(`${quoted(plain)}: write a band as ${dash[1] ?? ''}..${dash[2] ?? ''}`);
  if (plain.includes('±') || plain.includes('+/-')) {
    return refuse(`${quoted(plain)}: write both ends of the band, such as ${bandExample(info)}`);
  }
  return undefined;
}

function bandExample(info: DimensionInfo): string {
  return info.bare ? '0.8..0.9' : `3..8 ${info.offered[0] ?? ''}`;
}

function parseBand(ends: Ends, text: string, info: DimensionInfo, options: QuantityOptions): QuantityResult {
  const high = parseSingle(ends.high, text, info, options);
  if (!high.ok) return high;
  const lowHasUnit = !/^[+-]? ?[\d.,]+$/.test(ends.low);
  const low = parseSingle(lowHasUnit ? ends.low : `${ends.low} ${high.unit}`.trim(), text, info, options);
  if (!low.ok) return low;
  const never = [low, high].filter((end) => end.value === Number.POSITIVE_INFINITY).length;
  if (never === 2) return refuse(`${quoted(text)}: one end of a band must be a time`);
  if (never === 0 && low.value > high.value) {
    return refuse(`${quoted(text)}: the lower end of a band comes first: write ${swapped(ends)}`);
  }
  const value = middle(low.value, high.value);
  const unit = high.unit === '' ? low.unit : high.unit;
  return {
    ok: true,
    dimension: info.dimension,
    value,
    band: [low.value, high.value],
    unit,
    text: text.trim(),
  };
}

/** Both ends exchanged, each with its own unit where it had one. */
function swapped(ends: Ends): string {
  const unit = NUMBER_AND_REST.exec(ends.high)?.[2] ?? '';
  const low = /^[+-]? ?[\d.,]+$/.test(ends.low) ? `${ends.low} ${unit}`.trim() : ends.low;
  const number = low.endsWith(` ${unit}`)
    ? ends.high.slice(0, ends.high.length - unit.length).trim()
    : ends.high;
  return `${number}..${low}`;
}

function middle(low: number, high: number): number {
  if (low === Number.POSITIVE_INFINITY) return high;
  if (high === Number.POSITIVE_INFINITY) return low;
  return (low + high) / 2;
}

function parseSingle(
  plain: string,
  text: string,
  info: DimensionInfo,
  options: QuantityOptions,
): QuantityResult {
  if (plain.toLowerCase() === 'never') return readNever(text, info, options);
  if (NOT_NUMBERS.test(plain)) {
    return refuse(
      `${quoted(text)} is no number that can be measured: ${info.noun} is expected, such as ${info.example}`,
    );
  }
  const compound = readCompound(plain, info.dimension);
  if (compound !== undefined) {
    if ('message' in compound) return refuse(compound.message);
    return checked(compound.value, compound.unit, text, info, options);
  }
  const match = NUMBER_AND_REST.exec(prefixFactor(plain, info));
  if (match === null)
    return refuse(`${quoted(text)} is not understood: ${info.noun} is expected, such as ${info.example}`);
  const number = (match[1] ?? '').replace(' ', '');
  const rest = match[2] ?? '';
  const odd = oddNumber(number, rest, text);
  if (odd !== undefined) return odd;
  const read = readNumber(number, rest);
  if (!read.ok) return refuse(read.message);
  return withUnit(read.digits, number, rest, text, info, options);
}

/** `x10` and `×10` mean the factor 10. */
function prefixFactor(plain: string, info: DimensionInfo): string {
  return info.dimension === 'factor' ? plain.replace(/^[x×] ?(?=[\d.,])/, '') : plain;
}

function readNever(text: string, info: DimensionInfo, options: QuantityOptions): QuantityResult {
  if (options.never !== true) {
    return refuse(`"never" is not accepted here: ${info.noun} is expected, such as ${info.example}`);
  }
  return {
    ok: true,
    dimension: info.dimension,
    value: Number.POSITIVE_INFINITY,
    unit: '',
    text: text.trim(),
  };
}

/** Number formats that programs write and people do not mean. */
function oddNumber(number: string, rest: string, text: string): Refusal | undefined {
  if (/^[+-]?0$/.test(number) && /^[xob][\da-f]/i.test(rest)) {
    return refuse(`${quoted(text)}: write an ordinary decimal number`);
  }
  if (/^e[+-]?\d/i.test(rest)) return refuse(`${quoted(text)}: write the number out, without an exponent`);
  if (/^['_]?\d/.test(rest)) {
    return refuse(`${quoted(text)}: no space inside a number: write it such as 1300`);
  }
  if (/^\/ ?\d/.test(rest))
    return refuse(`${quoted(text)}: write a fraction as a decimal number, such as 0.5`);
  return undefined;
}

function withUnit(
  digits: string,
  typed: string,
  rest: string,
  text: string,
  info: DimensionInfo,
  options: QuantityOptions,
): QuantityResult {
  if (rest === '') {
    if (info.bare) return checked(Number(digits), '', text, info, options);
    const choices = info.offered.map((symbol) => `${typed} ${symbol}`);
    return refuse(`${quoted(text)} is ${info.noun} without a unit: write ${listed(choices)}`);
  }
  const unit = findUnit(info.dimension, rest);
  if (unit === undefined) return refuse(wrongUnit(typed, rest, text, info));
  return checked(scale(digits, unit), rest, text, info, options);
}

/** The decimal point is moved in the text, so that 0.85 mΩ is exactly the number 0.00085. */
function scale(digits: string, unit: Unit): number {
  return Number(`${digits}e${unit.exponent}`) * unit.factor + unit.offset;
}

function checked(
  value: number,
  unit: string,
  text: string,
  info: DimensionInfo,
  options: QuantityOptions,
): QuantityResult {
  if (!Number.isFinite(value)) return refuse(`${quoted(text)} is too large to mean anything`);
  const least = options.min ?? info.least;
  const most = options.max ?? Number.POSITIVE_INFINITY;
  if (value < least)
    return refuse(`${quoted(text)} is too small: at least ${bound(least, info)} is expected here`);
  if (value > most)
    return refuse(
      `${quoted(text)} is too large: at most ${bound(most, info)} is expected here${shareHint(value, info)}`,
    );
  return { ok: true, dimension: info.dimension, value: value === 0 ? 0 : value, unit, text: text.trim() };
}

function bound(value: number, info: DimensionInfo): string {
  if (info.dimension === 'share')
    return `${plainNumber(value)} (${plainNumber(Number((value * 100).toPrecision(12)))} %)`;
  return `${plainNumber(value)} ${baseUnit(info.dimension)}`.trim();
}

function shareHint(value: number, info: DimensionInfo): string {
  return info.dimension === 'share' && value > 1 && value <= 100
    ? `; percent are written ${plainNumber(value)} %`
    : '';
}
