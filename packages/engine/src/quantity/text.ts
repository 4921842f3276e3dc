/** Characters that look alike, brought to one form before anything is read. */

// No-break, narrow no-break, figure, thin and other spaces of fixed width, and the tab.
const SPACES = /[\t\u00A0\u1680\u2000-\u200A\u202F\u205F\u3000]/g;
const MINUS = /[\u2212\uFE63\uFF0D]/g;
const OHM_SIGN = /\u2126/g;
const GREEK_MU = /\u03BC/g;
const RAISED_DOTS = /[\u22C5\u2022\u2219]/g;
const RING_FOR_DEGREE = /[\u00BA\u02DA]/g;
const PRIMES = /[\u2032\u2019]/g;
const DOUBLE_PRIMES = /[\u2033\u201D]/g;

/** No quantity or phrase is longer; the mark of the cut makes sure that the rest is refused, not overlooked. */
export const LONGEST = 200;

/**
 * One form for text typed by a person: plain spaces, single and trimmed; minus U+2212 as "-" (an en dash too,
 * in first place,
 * where word processors put one); Ω (Greek), µ (micro), · and ° by one code point each; feet and inch marks
 * plain.
 */
export function normalise(text: string): string {
  const plain = text
    .replace(SPACES, ' ')
    .replace(MINUS, '-')
    .replace(OHM_SIGN, '\u03A9')
    .replace(GREEK_MU, '\u00B5')
    .replace(RAISED_DOTS, '\u00B7')
    .replace(RING_FOR_DEGREE, '\u00B0')
    .replace(PRIMES, "'")
    .replace(DOUBLE_PRIMES, '"')
    .replace(/\u2103/g, '\u00B0C')
    .replace(/\u2109/g, '\u00B0F')
    .trim()
    .replace(/ {2,}/g, ' ')
    .replace(/^\u2013 ?(?=[\d.,])/, '-');
  return plain.length > LONGEST ? `${plain.slice(0, LONGEST)}…` : plain;
}

const SHOWN = 60;

/** The text as typed, in quotes, cut when it is long: for messages. */
export function quoted(text: string): string {
  const plain = text.trim();
  return plain.length > SHOWN ? `"${plain.slice(0, SHOWN)}…"` : `"${plain}"`;
}

/** "a, b or c". */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} or ${items.at(-1) ?? ''}`;
}

/** True for the word `unknown`, which any value of a build may be. */
export function isUnknown(text: string): boolean {
  return normalise(text).toLowerCase() === 'unknown';
}
