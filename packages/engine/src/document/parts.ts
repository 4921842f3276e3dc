/** Reads parts by the field table of their kind. */
import type { FieldTable, Id, Kind, Part, Registry } from '../contracts/index.ts';
import { checkId, idFault } from './ids.ts';
import type { Entry } from './nodes.ts';
import { entriesOf, isEmpty, isMap, nothingWritten, startOf, textOf } from './nodes.ts';
import type { Reading } from './reading.ts';
import { remember } from './remembered.ts';
import { notOneOf } from './scalars.ts';
import { readFields, unknownName, wrongForm, type Spot } from './shapes.ts';

export interface ReadParts {
  /** Every part whose kind is known, also where a field of it is at fault, so that references to it can be checked. */
  readonly parts: ReadonlyMap<Id, Part>;
  /** Parts with a fault in them: their terminals may depend on what could not be read. */
  readonly faulty: ReadonlySet<Id>;
  /** All names written, also of parts that could not be read. */
  readonly names: ReadonlySet<Id>;
}

const OWN: readonly string[] = ['kind', 'at'];

export function readParts(reading: Reading, entries: readonly Entry[], registry: Registry): ReadParts {
  const parts = new Map<Id, Part>();
  const faulty = new Set<Id>();
  const names = new Set<Id>();
  const tables = new Map<string, FieldTable>();
  for (const { key, at, value } of entries) {
    if (!checkId(reading, key, at, ['parts'])) continue;
    names.add(key);
    const before = reading.faults.errors;
    const spot = { node: value, at, path: ['parts', key] };
    const { part } = remember(reading, value, spot.path, () => ({
      part: readPart(reading, key, spot, registry, tables),
    }));
    if (part !== undefined) parts.set(key, part);
    if (reading.faults.errors > before) faulty.add(key);
  }
  return { parts, faulty, names };
}

function readPart(
  reading: Reading,
  id: Id,
  spot: Spot,
  registry: Registry,
  tables: Map<string, FieldTable>,
): Part | undefined {
  const { node, path } = spot;
  if (isEmpty(node)) {
    nothingWritten(reading, node, spot.at, path, 'a part such as { kind: battery }');
    return undefined;
  }
  if (!isMap(node)) {
    wrongForm(reading, spot, 'a part such as { kind: battery }');
    return undefined;
  }
  const entries = entriesOf(reading, node, path);
  const kind = kindOf(reading, entries, spot, registry);
  if (kind === undefined) return undefined;
  const { values } = readFields(reading, entries, tableOf(kind, registry, tables), path, OWN);
  const place = placeOf(reading, entries, spot);
  return {
    id,
    kind: kind.name,
    ...(place === undefined ? {} : { at: place }),
    fields: values,
  };
}

function tableOf(kind: Kind, registry: Registry, tables: Map<string, FieldTable>): FieldTable {
  const known = tables.get(kind.name);
  if (known !== undefined) return known;
  const table = partFields(kind, registry);
  tables.set(kind.name, table);
  return table;
}

/** All fields of a part of this kind, its own before the common ones; `kind` and `at` left out. */
export function partFields(kind: Kind, registry: Registry): FieldTable {
  const names = [...new Set([...Object.keys(kind.fields), ...Object.keys(registry.common)])];
  const fields: FieldTable = { ...registry.common, ...kind.fields };
  const pick = (name: string) => [name, fields[name]] as const;
  return Object.fromEntries(names.filter((name) => !OWN.includes(name)).map(pick)) as FieldTable;
}

function kindOf(
  reading: Reading,
  entries: readonly Entry[],
  spot: Spot,
  registry: Registry,
): Kind | undefined {
  const entry = entries.find(({ key }) => key === 'kind');
  const names = [...registry.kinds.keys()];
  const glued = entries.find(({ key }) => key.startsWith('kind:'));
  if (entry === undefined && glued !== undefined) {
    unknownName(reading, glued.key, glued.at, ['kind'], spot.path);
    return undefined;
  }
  if (entry === undefined) {
    reading.faults.add({
      offset: startOf(spot.node, spot.at),
      found: '',
      expected: 'kind',
      message: 'found a part without a kind; write kind: and what it is, such as kind: battery',
      path: spot.path,
    });
    return undefined;
  }
  const path = [...spot.path, 'kind'];
  const text = textOf(entry.value);
  if (text === undefined || isEmpty(entry.value)) {
    nothingWritten(reading, entry.value, entry.at, path, 'a kind of part such as battery');
    return undefined;
  }
  const kind = registry.kinds.get(text);
  if (kind !== undefined) return kind;
  const offset = startOf(entry.value, entry.at);
  const instead = LATER.get(text);
  if (instead === undefined) notOneOf(reading, { text, offset, path }, names, 'a kind of part');
  else {
    const message = `found "${text}", a kind of part that this version does not judge yet; ${instead}`;
    reading.faults.add({ offset, found: text, expected: 'a kind of part', message, path });
  }
  return undefined;
}

const LEFT_OUT = 'leave it out with its wires: nothing can be said of the states in which it gives';

/** Kinds of the format that come later, and what to write meanwhile. */
const LATER: ReadonlyMap<string, string> = new Map([
  ['inverter', 'write kind: load with its power, cut-out and standby'],
  ['panel', LEFT_OUT],
  ['solar-controller', LEFT_OUT],
  ['mains-charger', LEFT_OUT],
  ['sensing-relay', 'leave it out with its wires'],
]);

function placeOf(reading: Reading, entries: readonly Entry[], spot: Spot): Id | undefined {
  const entry = entries.find(({ key }) => key === 'at');
  if (entry === undefined) return undefined;
  const path = [...spot.path, 'at'];
  const text = textOf(entry.value);
  if (text === undefined || isEmpty(entry.value)) {
    nothingWritten(reading, entry.value, entry.at, path, 'the name of a place');
    return undefined;
  }
  if (text === 'unknown') return undefined;
  const message = idFault(text);
  if (message === undefined) return text;
  const offset = startOf(entry.value, entry.at);
  reading.faults.add({ offset, found: text, expected: 'the name of a place', message, path });
  return undefined;
}
