/** Quantities of two units in a row: `12 ft 6 in`, `2 h 40 min`. */
import { readNumber } from './number.ts';
import { quoted } from './text.ts';
import type { Dimension } from './units.ts';
import { findUnit } from './units.ts';

export type CompoundResult =
  /** In the base unit; `unit` is both units as typed. */
  { readonly value: number; readonly unit: string } | { readonly message: string };

/** Which unit may follow which, and how many of it make one of the first. */
const FOLLOWERS: Readonly<
  Partial<Record<Dimension, Readonly<Record<string, { next: string; count: number }>>>>
> = {
  length: { ft: { next: 'in', count: 12 } },
  time: { days: { next: 'h', count: 24 }, h: { next: 'min', count: 60 }, min: { next: 's', count: 60 } },
};

const TWO_PARTS = /^([+-]? ?[\d.,]+) ?([^\d\s.,+-]+) ?([\d.,]+) ?([^\d.,+-]*)$/;

/**
 * Reads `12 ft 6 in`, `12' 6"`, `2 h 40 min`, `3 days 4 h`, `5 min 30 s`; undefined when the text is not of
 * that form.
 * The first number is whole, the second below one of the first unit.
 */
export function readCompound(plain: string, dimension: Dimension): CompoundResult | undefined {
  const followers = FOLLOWERS[dimension];
  const match = followers === undefined ? null : TWO_PARTS.exec(plain);
  if (followers === undefined || match === null) return undefined;
  const [, bigText = '', bigUnit = '', smallText = '', smallUnit = ''] = match;
  const big = findUnit(dimension, bigUnit);
  const follower = big === undefined ? undefined : followers[big.symbol];
  if (big === undefined || follower === undefined) return undefined;
  const small = findUnit(dimension, smallUnit.trim());
  if (small?.symbol !== follower.next) {
    return {
      message: `${quoted(plain)}: after ${bigUnit} comes ${follower.next}: write ${bigText} ${bigUnit} ${smallText} ${follower.next}`,
    };
  }
  return added(plain, bigText, [smallText, small.factor], follower.count, `${bigUnit} ${smallUnit}`);
}

type Part = readonly [text: string, factor: number];

function added(
  plain: string,
  bigText: string,
  [smallText, smallFactor]: Part,
  count: number,
  unit: string,
): CompoundResult {
  const big = readNumber(bigText.replace(' ', ''));
  if (!big.ok) return big;
  const small = readNumber(smallText);
  if (!small.ok) return small;
  if (!Number.isInteger(Number(big.digits)) || big.digits.startsWith('-')) {
    return { message: `${quoted(plain)}: the first number must be a whole number, not negative` };
  }
  if (Number(small.digits) >= count)
    return { message: `${quoted(plain)}: the second number must be below ${count}` };
  return { value: (Number(big.digits) * count + Number(small.digits)) * smallFactor, unit };
}
