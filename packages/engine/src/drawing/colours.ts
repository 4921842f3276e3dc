/** Letters for colours of insulation, IEC 60757 (code designations of colours). */
const CODES: Readonly<Record<string, string>> = {
  black: 'BK',
  brown: 'BN',
  red: 'RD',
  orange: 'OG',
  yellow: 'YE',
  green: 'GN',
  blue: 'BU',
  violet: 'VT',
  purple: 'VT',
  grey: 'GY',
  gray: 'GY',
  white: 'WH',
  pink: 'PK',
  turquoise: 'TQ',
  gold: 'GD',
  silver: 'SR',
};

const LETTERS = new Set(Object.values(CODES));

/** The longest text that still stands in a wire label. */
const MOST = 8;

/**
 * `red` -> `RD`, `green-yellow` -> `GNYE`, `rd/bk` -> `RDBK`; anything else stays as typed, shortened to eight characters.
 */
export function colourCode(text: string | undefined): string {
  const typed = (text ?? '').trim();
  if (typed === '') return '';
  const words = typed.toLowerCase().split(/[\s/,+-]+/);
  const codes = words.map(codeOf);
  if (codes.every((code) => code !== null)) return codes.join('');
  const pairs = typed.toUpperCase().match(/[A-Z]{2}/g) ?? [];
  if (
    pairs.length > 0 &&
    pairs.length <= 3 &&
    pairs.join('') === typed.toUpperCase() &&
    pairs.every((p) => LETTERS.has(p))
  )
    return pairs.join('');
  return typed.length <= MOST ? typed : `${typed.slice(0, MOST - 1)}…`;
}

function codeOf(word: string): string | null {
  const known = Object.hasOwn(CODES, word) ? CODES[word] : undefined;
  if (known !== undefined) return known;
  const letters = word.toUpperCase();
  return LETTERS.has(letters) ? letters : null;
}
