/** Reads the sections of a document other than parts. */
import type { FieldTable, Path } from '../contracts/index.ts';
import { checkId } from './ids.ts';
import type { Entry, Node } from './nodes.ts';
import { entriesOf, isEmpty, isMap, isSeq, startOf } from './nodes.ts';
import type { Values } from './assemble.ts';
import type { Reading } from './reading.ts';
import { good } from './reading.ts';
import { remember } from './remembered.ts';
import { readFields, readShape, wrongForm } from './shapes.ts';
import { TOP } from './tables.ts';

/** The entries of the top of a document by name. */
export type Top = ReadonlyMap<string, Entry>;

/** A top-level value read by its shape; undefined when absent or at fault. */
export function readTop(reading: Reading, top: Top, name: string): unknown {
  const entry = top.get(name);
  const field = TOP[name];
  if (entry === undefined || field === undefined) return undefined;
  if (isEmpty(entry.value) && mayBeEmpty(name)) return undefined;
  return good(readShape(reading, { node: entry.value, at: entry.at, path: [name] }, field.shape));
}

/** A heading with nothing below it is an empty section, except where one value is expected. */
const mayBeEmpty = (name: string): boolean => {
  const shape = TOP[name]?.shape.shape;
  return shape === 'list' || shape === 'map' || shape === 'record';
};

/** The entries of a section that is a map with names of its own. */
export function namedEntries(reading: Reading, top: Top, name: string): readonly Entry[] {
  const entry = top.get(name);
  if (entry === undefined || isEmpty(entry.value)) return [];
  if (isMap(entry.value)) return entriesOf(reading, entry.value, [name]);
  wrongForm(reading, { node: entry.value, at: entry.at, path: [name] }, `a map of ${name} by their names`);
  return [];
}

/** One record of a section as far as it could be read, with its place. */
export interface Item {
  readonly values: Values;
  readonly bad: boolean;
  readonly path: Path;
  readonly offset: number;
}

/** Reads a section `name: { fields }` for each name; names that are none are reported and left out. */
export function readNamed(
  reading: Reading,
  top: Top,
  section: string,
  fields: FieldTable,
  needs: readonly string[] = [],
): ReadonlyMap<string, Item> {
  const items = new Map<string, Item>();
  for (const { key, at, value } of namedEntries(reading, top, section)) {
    if (!checkId(reading, key, at, [section])) continue;
    items.set(key, readItem(reading, value, at, [section, key], fields, needs));
  }
  return items;
}

/** Reads a section that is a list of records. */
export function readListed(
  reading: Reading,
  top: Top,
  section: string,
  fields: FieldTable,
  needs: readonly string[] = [],
): readonly Item[] {
  const entry = top.get(section);
  if (entry === undefined || isEmpty(entry.value)) return [];
  if (!isSeq(entry.value)) {
    wrongForm(
      reading,
      { node: entry.value, at: entry.at, path: [section] },
      'a list',
      'begin each line with "- "',
    );
    return [];
  }
  return (entry.value.items as (Node | null)[]).map((node, index) =>
    readItem(reading, node, startOf(node, entry.at), [section, index], fields, needs),
  );
}

function readItem(
  reading: Reading,
  node: Node | null,
  at: number,
  path: Path,
  fields: FieldTable,
  needs: readonly string[],
): Item {
  reading.steps.nodes++;
  const offset = startOf(node, at);
  if (!isMap(node)) {
    if (!isEmpty(node) || needs.length > 0) wrongForm(reading, { node, at, path }, 'entries in braces');
    return { values: {}, bad: true, path, offset };
  }
  const read = remember(reading, node, path, () => {
    const entries = entriesOf(reading, node, path);
    const { values, bad } = readFields(reading, entries, fields, path);
    const lacking = needs.filter((name) => !entries.some(({ key }) => key === name));
    for (const name of lacking) missing(reading, offset, name, path);
    return { values, bad: bad || lacking.length > 0 };
  });
  return { ...read, path, offset };
}

function missing(reading: Reading, offset: number, name: string, path: Path): void {
  reading.faults.add({
    offset,
    found: '',
    expected: name,
    message: `found an entry without ${name}; ${name}: is needed here`,
    path,
  });
}
