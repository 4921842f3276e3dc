/** Reads any shape of value from the syntax tree. */
import type { Field, FieldTable, Path, Shape } from '../contracts/index.ts';
import { isUnknown, listed, nearest, parseQuantityOf, quoted } from '../quantity/index.ts';
import { checkId } from './ids.ts';
import type { Entry, Node } from './nodes.ts';
import {
  entriesOf,
  isEmpty,
  isMap,
  isScalar,
  isSeq,
  nothingWritten,
  picture,
  startOf,
  textOf,
} from './nodes.ts';
import type { Read, Reading } from './reading.ts';
import { BAD } from './reading.ts';
import type { ScalarShape } from './scalars.ts';
import { expectedOf, readScalar, refuse } from './scalars.ts';

type Of<Name extends Shape['shape']> = Extract<Shape, { readonly shape: Name }>;

/** A node with its path; `at` is where its key stands, for what is missing. */
export interface Spot {
  readonly node: Node | null;
  readonly at: number;
  readonly path: Path;
}

/** Reads a value of any shape. Everything wrong in it is reported, then BAD; `unknown` for a whole structure = not given. */
export function readShape(reading: Reading, spot: Spot, shape: Shape): Read<unknown> {
  reading.steps.nodes++;
  if (isEmpty(spot.node)) {
    const orUnknown = shape.shape === 'text' ? '' : ', or write unknown';
    nothingWritten(reading, spot.node, spot.at, spot.path, describe(shape), orUnknown);
    return BAD;
  }
  switch (shape.shape) {
    case 'any-of':
      return readAnyOf(reading, spot, shape);
    case 'list':
    case 'row':
    case 'record':
    case 'map':
      return isUnknownNode(spot.node) ? undefined : readTree(reading, spot, shape);
    default:
      return readLeaf(reading, spot, shape);
  }
}

/** What a shape expects, in words. */
export function describe(shape: Shape): string {
  switch (shape.shape) {
    case 'any-of':
      return shape.expected;
    case 'list':
      return 'a list in brackets';
    case 'row':
      return `a row of ${shape.of.length} in brackets`;
    case 'record':
      return `entries in braces (${listed(Object.keys(shape.fields))})`;
    case 'map':
      return shape.keys === undefined ? 'entries in braces' : `entries in braces (${listed(shape.keys)})`;
    default:
      return expectedOf(shape);
  }
}

const isUnknownNode = (node: Node | null): boolean => isScalar(node) && isUnknown(textOf(node) ?? '');

function readLeaf(reading: Reading, spot: Spot, shape: ScalarShape): Read<unknown> {
  const text = textOf(spot.node);
  if (text === undefined) return wrongForm(reading, spot, describe(shape));
  return readScalar(reading, { text, offset: startOf(spot.node, spot.at), path: spot.path }, shape);
}

/** Reports a list where a word is expected, and the like. */
export function wrongForm(reading: Reading, spot: Spot, expected: string, write = ''): typeof BAD {
  reading.faults.add({
    offset: startOf(spot.node, spot.at),
    found: textOf(spot.node) ?? '',
    expected,
    message: `found ${picture(spot.node)}; ${expected} ${expected.startsWith('entries') ? 'are' : 'is'} expected${write === '' ? '' : `: ${write}`}`,
    path: spot.path,
  });
  return BAD;
}

function readTree(reading: Reading, spot: Spot, shape: Of<'list' | 'row' | 'record' | 'map'>): Read<unknown> {
  switch (shape.shape) {
    case 'list':
      return readList(reading, spot, shape);
    case 'row':
      return readRow(reading, spot, shape);
    case 'record':
      return readRecord(reading, spot, shape.fields);
    default:
      return readMap(reading, spot, shape);
  }
}

function itemsOf(reading: Reading, spot: Spot, expected: string): readonly (Node | null)[] | undefined {
  if (isSeq(spot.node)) return spot.node.items as (Node | null)[];
  const text = textOf(spot.node);
  wrongForm(reading, spot, expected, text === undefined ? '' : `write [${text.slice(0, 40)}]`);
  return undefined;
}

function readItem(
  reading: Reading,
  spot: Spot,
  node: Node | null,
  index: number,
  shape: Shape,
): Read<unknown> {
  return readShape(
    reading,
    { node, at: startOf(node, startOf(spot.node, spot.at)), path: [...spot.path, index] },
    shape,
  );
}

/** Reads a list; an item `unknown` of a structured shape is left out. */
export function readList(reading: Reading, spot: Spot, shape: Of<'list'>): Read<readonly unknown[]> {
  const items = itemsOf(reading, spot, describe(shape));
  if (items === undefined) return BAD;
  const values = items.map((node, index) => readItem(reading, spot, node, index, shape.of));
  if (values.includes(BAD)) return BAD;
  const read = values.filter((value) => value !== undefined);
  if (read.length >= (shape.min ?? 0)) return read;
  return wrongForm(reading, spot, `a list of at least ${shape.min}`);
}

function readRow(reading: Reading, spot: Spot, shape: Of<'row'>): Read<readonly unknown[]> {
  const items = itemsOf(reading, spot, describe(shape));
  if (items === undefined) return BAD;
  if (items.length !== shape.of.length) {
    const expected = `${describe(shape)} (${shape.of.map(describe).join(', then ')})`;
    const offset = startOf(spot.node, spot.at);
    const message = `found a row of ${items.length}; ${expected} is expected`;
    reading.faults.add({ offset, found: '', expected, message, path: spot.path });
    return BAD;
  }
  const values = shape.of.map((of, index) => readItem(reading, spot, items[index] ?? null, index, of));
  return values.includes(BAD) ? BAD : values;
}

/** Reads a record by its field table; unknown names are refused with the nearest. */
export function readRecord(reading: Reading, spot: Spot, fields: FieldTable): Read<Record<string, unknown>> {
  if (!isMap(spot.node)) return wrongForm(reading, spot, `a map of entries (${listed(Object.keys(fields))})`);
  const { values, bad } = readFields(reading, entriesOf(reading, spot.node, spot.path), fields, spot.path);
  return bad ? BAD : values;
}

/** What could be read of a record; `bad` when something in it could not. */
export interface ReadFields {
  readonly values: Record<string, unknown>;
  readonly bad: boolean;
}

/** Reads entries by a field table; `allowed` names more keys that are read elsewhere. */
export function readFields(
  reading: Reading,
  entries: readonly Entry[],
  fields: FieldTable,
  path: Path,
  allowed: readonly string[] = [],
): ReadFields {
  const values: Record<string, unknown> = {};
  let bad = false;
  for (const { key, at, value } of entries) {
    if (allowed.includes(key)) continue;
    const field = fieldOf(fields, key);
    if (field === undefined) {
      bad = unknownName(reading, key, at, [...allowed, ...Object.keys(fields)], path) || bad;
      continue;
    }
    const read = readShape(reading, { node: value, at, path: [...path, key] }, field.shape);
    if (read === BAD) bad = true;
    else if (read !== undefined) values[key] = read;
  }
  return { values, bad };
}

const fieldOf = (fields: FieldTable, key: string): Field | undefined =>
  Object.hasOwn(fields, key) ? fields[key] : undefined;

/** Reports a name that means nothing here; true when that is an error. */
export function unknownName(
  reading: Reading,
  key: string,
  offset: number,
  names: readonly string[],
  path: Path,
): boolean {
  const near = reading.faults.full ? undefined : nearest(key, names);
  const advice = near === undefined ? `known here: ${listed(names)}` : `did you mean ${near}?`;
  const glued = /^([a-z-]+):(\S.*)$/.exec(key);
  const spaced =
    glued !== null && names.includes(glued[1] ?? '')
      ? `write a space after the colon: ${glued[1]}: ${glued[2]}`
      : advice;
  reading.faults.add({
    severity: reading.newer ? 'warning' : 'error',
    offset,
    found: key,
    expected: listed(names),
    nearest: near,
    message: reading.newer
      ? `found ${quoted(key)}, which this version does not know; it is kept in the document and left out of account`
      : `found ${quoted(key)}, which is not known here; ${spaced}`,
    path: [...path, key],
  });
  return !reading.newer;
}

function readMap(reading: Reading, spot: Spot, shape: Of<'map'>): Read<Record<string, unknown>> {
  if (!isMap(spot.node)) return wrongForm(reading, spot, describe(shape));
  const values = Object.create(null) as Record<string, unknown>;
  let bad = false;
  for (const { key, at, value } of entriesOf(reading, spot.node, spot.path)) {
    if (shape.keys === undefined && !checkId(reading, key, at, spot.path)) {
      bad = true;
      continue;
    }
    if (shape.keys !== undefined && !shape.keys.includes(key)) {
      bad = unknownName(reading, key, at, shape.keys, spot.path) || bad;
      continue;
    }
    const read = readShape(reading, { node: value, at, path: [...spot.path, key] }, shape.of);
    if (read === BAD) bad = true;
    else if (read !== undefined) values[key] = read;
  }
  return bad ? BAD : values;
}

/** The first alternative that reads; else the faults of the only one of the right form, or one sentence for all. */
function readAnyOf(reading: Reading, spot: Spot, shape: Of<'any-of'>): Read<unknown> {
  const fitting = shape.of.filter((of) => fits(of, spot.node));
  const trials = [];
  for (const of of fitting) {
    const faults = reading.faults.trial();
    const value = readShape({ ...reading, faults }, spot, of);
    if (value !== BAD) return value;
    trials.push(faults);
  }
  if (isUnknownNode(spot.node)) return undefined;
  const [only, second] = trials;
  if (only !== undefined && second === undefined) {
    reading.faults.take(only);
    return BAD;
  }
  const text = textOf(spot.node);
  if (text === undefined) return wrongForm(reading, spot, shape.expected);
  return refuse(
    reading,
    { text, offset: startOf(spot.node, spot.at), path: spot.path },
    shape.expected,
    noneOf(text, shape),
  );
}

function noneOf(text: string, shape: Of<'any-of'>): string {
  const dimensions = shape.of.flatMap((of) => (of.shape === 'quantity' ? [of.dimension] : []));
  if (dimensions.length > 0 && /^[\s+-]*[\d.,]/.test(text)) {
    const result = parseQuantityOf(text, dimensions);
    if (!result.ok) return result.message;
  }
  return `${quoted(text)}: write ${shape.expected}`;
}

function fits(shape: Shape, node: Node | null): boolean {
  switch (shape.shape) {
    case 'any-of':
      return shape.of.some((of) => fits(of, node));
    case 'list':
    case 'row':
      return isSeq(node);
    case 'record':
    case 'map':
      return isMap(node);
    default:
      return isScalar(node);
  }
}
