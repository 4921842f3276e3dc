/** The syntax tree as the reader sees it: scalars with their text, lists, and maps with checked keys. */
import { isCollection, isMap, isScalar, isSeq, type Node, type Pair, type YAMLMap } from 'yaml';
import type { Path } from '../contracts/index.ts';
import { quoted } from '../quantity/index.ts';
import type { Reading } from './reading.ts';
import { insteadOfHash } from './syntax-faults.ts';

export { isMap, isScalar, isSeq };
export type { Node };

/** One `key: value` of a map. */
export interface Entry {
  readonly key: string;
  /** Offset of the key. */
  readonly at: number;
  readonly value: Node | null;
}

/** Where a node begins; of nothing: `otherwise`. */
export function startOf(node: Node | null, otherwise: number): number {
  return node?.range?.[0] ?? otherwise;
}

/** The text of a scalar without quotes, as typed. */
export function textOf(node: Node | null): string | undefined {
  if (!isScalar(node)) return undefined;
  return node.source ?? '';
}

/** Nothing is written: `key:`, `key: ~`, `key: null`. */
export function isEmpty(node: Node | null): boolean {
  return node === null || (isScalar(node) && node.value === null && node.type === 'PLAIN');
}

/** A short picture of what stands there, for messages. */
export function picture(node: Node | null): string {
  if (node === null || isEmpty(node)) return 'nothing';
  if (isMap(node)) return 'a map of names and values';
  if (isSeq(node)) return 'a list';
  return quoted(textOf(node) ?? '');
}

/**
 * The entries of a map with plain keys, each once. Reported: keys that are no words, keys written twice (both lines), and
 * the decimal comma in braces, which makes two entries out of one.
 */
export function entriesOf(reading: Reading, map: YAMLMap, path: Path): readonly Entry[] {
  const first = new Map<string, number>();
  const entries: Entry[] = [];
  for (const pair of map.items as Pair<Node | null, Node | null>[]) {
    reading.steps.nodes++;
    const at = startOf(pair.key, startOf(pair.value, startOf(map, 0)));
    const key = textOf(pair.key);
    if (key === undefined || isEmpty(pair.key)) {
      notAWord(reading, at, path);
      continue;
    }
    const previous = entries.at(-1);
    if (previous !== undefined && isSplitByComma(map, previous, key, pair.value)) {
      splitByComma(reading, previous, key, path);
      entries[entries.length - 1] = { ...previous, value: null, key: '' };
      continue;
    }
    const earlier = first.get(key);
    if (earlier !== undefined) twice(reading, at, earlier, key, path);
    else {
      first.set(key, at);
      entries.push({ key, at, value: pair.value });
    }
  }
  return entries.filter((entry) => entry.key !== '' || first.get('') === entry.at);
}

function notAWord(reading: Reading, offset: number, path: Path): void {
  reading.faults.add({
    offset,
    found: '',
    expected: 'a name and a colon',
    message: 'found a value where a name is expected; write `name: value`',
    path,
  });
}

function twice(reading: Reading, offset: number, earlier: number, key: string, path: Path): void {
  const { line } = reading.faults.lines.position(earlier);
  const here = reading.faults.lines.position(offset).line;
  const where = here === line ? `twice in line ${line}` : `in line ${line} and again here`;
  reading.faults.add({
    offset,
    found: key,
    expected: 'each name once',
    message: `found ${quoted(key)} ${where}; a name may stand only once, so rename or remove one`,
    path: [...path, key],
    related: { offset: earlier, says: 'first written here' },
  });
}

const DIGITS = /^[+-]?\d+$/;
const DIGITS_AND_MORE = /^\d/;

/** `{ rating: 13,2 V }`: "rating: 13", and a key "2 V" without a value. */
function isSplitByComma(map: YAMLMap, previous: Entry, key: string, value: Node | null): boolean {
  return (
    map.flow === true &&
    isEmpty(value) &&
    DIGITS_AND_MORE.test(key) &&
    isScalar(previous.value) &&
    DIGITS.test(textOf(previous.value) ?? '')
  );
}

function splitByComma(reading: Reading, previous: Entry, key: string, path: Path): void {
  const whole = textOf(previous.value) ?? '';
  reading.faults.add({
    offset: startOf(previous.value, previous.at),
    found: `${whole},${key}`,
    expected: 'a point, or quotes around the value',
    message: `found ${quoted(`${whole},${key}`)} in braces, where the comma begins a new entry; write ${whole}.${key}, or quote it: "${whole},${key}"`,
    path: [...path, previous.key],
  });
}

/** Reports that nothing is written where a value is expected; a comment that was meant as the value gets its own sentence. */
export function nothingWritten(
  reading: Reading,
  node: Node | null,
  at: number,
  path: Path,
  expected: string,
  orUnknown = '',
): void {
  const comment = commentAfter(reading, startOf(node, at));
  const written = textOf(node) ?? '';
  const begins =
    comment === undefined ? undefined : `found nothing: ${quoted(comment)} is a comment because of its #`;
  const message =
    begins !== undefined && /^# ?\d/.test(comment ?? '')
      ? `${begins}; ${insteadOfHash(comment ?? '')}`
      : `${begins ?? `found ${written === '' ? 'nothing' : quoted(written)}`}; ${expected} is expected${orUnknown}`;
  reading.faults.add({ offset: startOf(node, at), found: comment ?? written, expected, message, path });
}

function commentAfter(reading: Reading, offset: number): string | undefined {
  const { lines } = reading.faults;
  return /^\s*(#.*)$/.exec(lines.text.slice(offset, lines.lineEnd(offset)))?.[1];
}

/** True for a map or list. */
export function isTree(node: Node | null): boolean {
  return isCollection(node);
}
