/** Values that are one piece of text: quantities, numbers, words, yes and no. */
import type { Path, Shape, Stated } from '../contracts/index.ts';
import {
  dimensionInfo,
  editDistance,
  isUnknown,
  listed,
  nearest,
  parseQuantity,
  quoted,
  readNumber,
} from '../quantity/index.ts';
import type { Quantity, QuantityOptions } from '../quantity/index.ts';
import type { Reading, Read } from './reading.ts';
import { BAD } from './reading.ts';

type Of<Name extends Shape['shape']> = Extract<Shape, { readonly shape: Name }>;

export type ScalarShape = Of<'quantity' | 'number' | 'choice' | 'flag' | 'text' | 'phrase'>;

/** A scalar with its place. */
export interface Piece {
  readonly text: string;
  readonly offset: number;
  readonly path: Path;
}

/** Reads one scalar; `unknown` is accepted by every shape (a text is then the word itself, a phrase not given). */
export function readScalar(reading: Reading, piece: Piece, shape: ScalarShape): Read<unknown> {
  switch (shape.shape) {
    case 'quantity':
      return readQuantity(reading, piece, shape);
    case 'number':
      return readPlainNumber(reading, piece, shape);
    case 'choice':
      return readChoice(reading, piece, shape);
    case 'flag':
      return readFlag(reading, piece);
    case 'text':
      return readText(reading, piece);
    default:
      return readPhrase(reading, piece, shape);
  }
}

/** What a shape expects, in words with an article, for messages. */
export function expectedOf(shape: ScalarShape): string {
  switch (shape.shape) {
    case 'quantity': {
      const { noun, example } = dimensionInfo(shape.dimension);
      return `${noun} such as ${example}`;
    }
    case 'number':
      return 'a number without a unit';
    case 'choice':
      return listed(shape.of);
    case 'flag':
      return 'yes or no';
    case 'text':
      return 'a text';
    default:
      return shape.expected;
  }
}

function readQuantity(reading: Reading, piece: Piece, shape: Of<'quantity'>): Read<unknown> {
  if (isUnknown(piece.text)) return 'unknown';
  const result = parseQuantity(piece.text, shape.dimension, optionsOf(shape));
  return result.ok ? statedOf(result) : refuse(reading, piece, expectedOf(shape), result.message);
}

function optionsOf(shape: Of<'quantity'>): QuantityOptions {
  const { min, max, band, never } = shape;
  return {
    ...(min === undefined ? {} : { min }),
    ...(max === undefined ? {} : { max }),
    ...(band === undefined ? {} : { band }),
    ...(never === undefined ? {} : { never }),
  };
}

function statedOf({ value, band, text }: Quantity): Stated {
  return band === undefined ? { value, text } : { value, band, text };
}

// An escape in double quotes can bring them in; papers and drawings cannot hold them.
// eslint-disable-next-line no-control-regex
const CONTROL = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F]/;

function readText(reading: Reading, piece: Piece): Read<string> {
  if (!CONTROL.test(piece.text)) return piece.text;
  const message = 'found a control character in a text; take it out';
  reading.faults.add({ offset: piece.offset, found: '', expected: 'a text', message, path: piece.path });
  return BAD;
}

function readPlainNumber(reading: Reading, piece: Piece, shape: Of<'number'>): Read<unknown> {
  if (isUnknown(piece.text)) return 'unknown';
  const expected = expectedOf(shape);
  const result = readNumber(piece.text.trim());
  if (!result.ok) return refuse(reading, piece, expected, result.message);
  const value = Number(result.digits);
  if (value < (shape.min ?? value))
    return refuse(
      reading,
      piece,
      expected,
      `${quoted(piece.text)} is too small: at least ${shape.min} is expected here`,
    );
  if (value > (shape.max ?? value))
    return refuse(
      reading,
      piece,
      expected,
      `${quoted(piece.text)} is too large: at most ${shape.max} is expected here`,
    );
  return value;
}

function readChoice(reading: Reading, piece: Piece, shape: Of<'choice'>): Read<unknown> {
  const word = piece.text;
  if (shape.of.includes(word) || word === 'unknown') return word;
  return notOneOf(reading, piece, shape.of, '');
}

/** Reports a word that is not in a closed list, with the nearest that is. `of` says what the words are ("a kind of part"). */
export function notOneOf(reading: Reading, piece: Piece, words: readonly string[], of: string): typeof BAD {
  const near = reading.faults.full
    ? undefined
    : (nearest(piece.text, words) ?? nearestSentence(piece.text, words));
  const what = of === '' ? '' : `, which is not ${of}`;
  const write = near === undefined ? `write ${listed(words)}` : `did you mean ${near}? (${listed(words)})`;
  reading.faults.add({
    offset: piece.offset,
    found: piece.text,
    expected: listed(words),
    nearest: near,
    message: `found ${quoted(piece.text)}${what}; ${words.length === 0 ? 'there is none here' : write}`,
    path: piece.path,
  });
  return BAD;
}

/** Of several sentences the one that shares most letters in order, when that is most of it. */
function nearestSentence(text: string, words: readonly string[]): string | undefined {
  if (text.length > 100 || !text.includes(' ')) return undefined;
  const ranked = words
    .filter((word) => word.includes(' '))
    .map((word) => ({ word, distance: editDistance(text.toLowerCase(), word.toLowerCase()) }))
    .toSorted((a, b) => a.distance - b.distance);
  const [best] = ranked;
  return best !== undefined && best.distance <= best.word.length * 0.6 ? best.word : undefined;
}

const FLAGS: ReadonlyMap<string, boolean> = new Map([
  ['yes', true],
  ['no', false],
  ['true', true],
  ['false', false],
]);

/** What people write for yes and no; by letters alone "on" would be near to "no". */
const SWITCHED: ReadonlyMap<string, string> = new Map([
  ['on', 'yes'],
  ['y', 'yes'],
  ['1', 'yes'],
  ['off', 'no'],
  ['n', 'no'],
  ['0', 'no'],
]);

function readFlag(reading: Reading, piece: Piece): Read<unknown> {
  if (piece.text === 'unknown') return 'unknown';
  const value = FLAGS.get(piece.text);
  if (value !== undefined) return value;
  const near = SWITCHED.get(piece.text.toLowerCase()) ?? nearest(piece.text, FLAGS.keys());
  const write = near === undefined ? 'write yes or no' : `did you mean ${near}? (yes or no)`;
  reading.faults.add({
    offset: piece.offset,
    found: piece.text,
    expected: 'yes or no',
    nearest: near,
    message: `found ${quoted(piece.text)}; ${write}`,
    path: piece.path,
  });
  return BAD;
}

function readPhrase(reading: Reading, piece: Piece, shape: Of<'phrase'>): Read<unknown> {
  const result = shape.read(piece.text);
  if (result.ok) return result.value;
  if (isUnknown(piece.text)) return undefined;
  return refuse(reading, piece, shape.expected, result.message);
}

/** Reports a value that was not understood, with the reader's own sentence. */
export function refuse(reading: Reading, piece: Piece, expected: string, sentence: string): typeof BAD {
  reading.faults.add({
    offset: piece.offset,
    found: piece.text,
    expected,
    message: asFound(piece.text, sentence),
    path: piece.path,
  });
  return BAD;
}

/** `"25" is a size without a unit: write ...` -> `found "25", a size without a unit; write ...`. */
function asFound(text: string, sentence: string): string {
  const shown = quoted(text);
  const tidy = sentence.replace(/: write /, '; write ');
  if (tidy.startsWith(`${shown} is not `)) return `found ${shown}, not ${tidy.slice(shown.length + 8)}`;
  if (tidy.startsWith(`${shown} is `)) return `found ${shown}, ${tidy.slice(shown.length + 4)}`;
  if (tidy.startsWith(`${shown} has `)) return `found ${shown}, which has ${tidy.slice(shown.length + 5)}`;
  if (tidy.startsWith(shown)) return `found ${tidy}`;
  return `found ${shown}: ${tidy}`;
}
