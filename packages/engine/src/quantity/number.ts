/** Numbers as people write them: point or comma, nothing that can be read in two ways. */
import { quoted } from './text.ts';

export type NumberResult =
  /** `digits` is the number with a point, ready for `Number(...)`. */
  { readonly ok: true; readonly digits: string } | { readonly ok: false; readonly message: string };

const PLAIN = /^[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)$/;
const MOST_CHARACTERS = 30;

const refuse = (message: string): NumberResult => ({ ok: false, message });

/**
 * A comma before exactly three digits: decimal mark or thousands. Clear only when nothing (or a single 0)
 * stands before it.
 */
function doubtfulComma(number: string): readonly [string, string] | undefined {
  const match = /^([+-]?)(\d{1,3}),(\d{3})$/.exec(number);
  if (match === null) return undefined;
  const [, sign = '', whole = '', tail = ''] = match;
  if (whole === '0') return undefined;
  return [`${sign}${whole}.${tail}`, `${sign}${whole}${tail}`];
}

/**
 * Reads one number without unit. `rest` is what follows it (a unit), used only to name both meanings of a
 * doubtful one.
 * Accepted: `12`, `13.2`, `13,2`, `.5`, `0,125`. Refused: `1,300` (two meanings), `1.300,5`, exponents, hex,
 * more than 30 characters.
 */
export function readNumber(number: string, rest = ''): NumberResult {
  const tail = rest === '' ? '' : ` ${rest}`;
  if (number.length > MOST_CHARACTERS) return refuse(`${quoted(number)} has too many digits`);
  const doubt = doubtfulComma(number);
  if (doubt !== undefined) {
    const [decimal, thousands] = doubt;
    return refuse(
      `${quoted(`${number}${tail}`)} has two meanings: write ${decimal}${tail} or ${thousands}${tail}`,
    );
  }
  if (/\d[.,]\d*[.,]/.test(number)) {
    return refuse(
      `${quoted(`${number}${tail}`)} has more than one decimal mark: write it without thousands marks, such as 1300.5`,
    );
  }
  if (!PLAIN.test(number)) return refuse(`${quoted(number)} is not a number: write it such as 12 or 13.2`);
  return { ok: true, digits: number.replace(',', '.') };
}

/**
 * The shortest plain decimal (no exponent) of a finite number, exact on reading back; "-0" becomes "0".
 */
export function plainNumber(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  if (value === 0) return '0';
  const [mantissa = '0', power = '0'] = value.toExponential().split('e');
  const sign = mantissa.startsWith('-') ? '-' : '';
  const digits = mantissa.replace(/[-.]/g, '');
  const point = Number(power) + 1;
  if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${digits}`;
  if (point >= digits.length) return `${sign}${digits}${'0'.repeat(point - digits.length)}`;
  return `${sign}${digits.slice(0, point)}.${digits.slice(point)}`;
}
