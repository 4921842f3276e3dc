/** Letters for colours of insulation, IEC 60757 (code designations of colours), and their names for being spoken. */
import { colourCode as codeOfName, colourName } from '../reference/index.ts';

/** Other words for colours of the code. */
const ALSO: Readonly<Record<string, string>> = { gray: 'grey', purple: 'violet' };

const nameOf = (code: string): string | null => {
  const figure = code.length === 2 ? colourName(code) : null;
  return figure === null || 'noFigure' in figure ? null : figure.value;
};

/** The longest text that still stands in a wire label. */
const MOST = 8;

/**
 * `red` -> `RD`, `green-yellow` -> `GNYE`, `rd/bk` -> `RDBK`; anything else stays as typed, shortened to eight characters.
 */
export function colourCode(text: string | undefined): string {
  const typed = (text ?? '').trim();
  if (typed === '') return '';
  const words = typed
    .toLowerCase()
    .split(/[\s/,+-]+/)
    .filter((word) => word !== 'and');
  const codes = words.map(codeOf);
  if (codes.every((code) => code !== null)) return codes.join('');
  const pairs = typed.toUpperCase().match(/[A-Z]{2}/g) ?? [];
  if (
    pairs.length > 0 &&
    pairs.length <= 3 &&
    pairs.join('') === typed.toUpperCase() &&
    pairs.every((pair) => nameOf(pair) !== null)
  )
    return pairs.join('');
  return typed.length <= MOST ? typed : `${typed.slice(0, MOST - 1)}…`;
}

function codeOf(word: string): string | null {
  const figure = codeOfName(Object.hasOwn(ALSO, word) ? (ALSO[word] ?? word) : word);
  if (!('noFigure' in figure)) return figure.value;
  return nameOf(word) === null ? null : word.toUpperCase();
}

/** `RD` -> `red`, `GNYE` -> `green and yellow`; what is no code stays as it is. */
export function colourWords(code: string): string {
  const names = (code.match(/../g) ?? []).map(nameOf);
  const whole = code.length % 2 === 0 && names.every((name) => name !== null);
  return whole ? names.join(' and ') : code;
}
