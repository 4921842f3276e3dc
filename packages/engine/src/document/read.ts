/** Reads a build document: text in, build or diagnostics out. */
import type { Build, Id, Measured, Place, Registry, Wire } from '../contracts/index.ts';
import { listed } from '../quantity/index.ts';
import * as make from './assemble.ts';
import type { Faults } from './faults.ts';
import { deepFreeze } from './freeze.ts';
import { migrated } from './migrations.ts';
import type { Entry } from './nodes.ts';
import { entriesOf, isEmpty, isMap, picture } from './nodes.ts';
import { parseText } from './open.ts';
import { readParts } from './parts.ts';
import type { Reading } from './reading.ts';
import { checkOrder } from './order.ts';
import { References, type Known } from './references.ts';
import { rememberedBy } from './remembered.ts';
import type { Item, Top } from './sections.ts';
import { namedEntries, readListed, readNamed, readTop } from './sections.ts';
import { unknownName } from './shapes.ts';
import { SourceText } from './source.ts';
import type { Tree } from './syntax.ts';
import * as tables from './tables.ts';
import type { ReadOptions, ReadResult } from './types.ts';
import { versionOf } from './version.ts';

/**
 * Reads a document. Never throws; all faults at once, in the order of the text; `build` is null when there is an error, and
 * frozen otherwise. Refused before parsing: over 1 MiB, over 60 levels, not UTF-8, control characters, anchors, aliases,
 * tags. Work grows in proportion to the text; `options.steps` counts the values visited.
 */
export function readDocument(
  input: string | Uint8Array,
  registry: Registry,
  options: ReadOptions = {},
): ReadResult {
  const file = options.file ?? 'document';
  const before = options.before instanceof SourceText ? options.before : null;
  const { source, tree, faults } = parseText(file, input, before);
  if (!tree.parsed) return failed(faults, source);
  const steps = options.steps ?? { nodes: 0 };
  const { version, newer } = versionOf({ faults, steps, newer: false, known: null }, tree.root);
  const older = version === undefined || faults.errors > 0 ? null : migrated(source, version);
  if (older !== null) return readMigrated(older.text, older.says, registry, { ...options, file, steps });
  const known = newer || faults.errors > 0 ? null : rememberedBy(registry);
  return readTree({ faults, steps, newer, known }, tree, source, registry);
}

function failed(faults: Faults, source: SourceText): ReadResult {
  return Object.freeze({ build: null, diagnostics: faults.diagnostics(), source });
}

function readMigrated(text: string, says: string, registry: Registry, options: ReadOptions): ReadResult {
  const result = readDocument(text, registry, options);
  const note = {
    severity: 'info',
    line: 1,
    column: 1,
    found: '',
    expected: '',
    message: says,
    path: [],
  } as const;
  return Object.freeze({
    ...result,
    diagnostics: Object.freeze([Object.freeze(note), ...result.diagnostics]),
  });
}

function readTree(reading: Reading, tree: Tree, source: SourceText, registry: Registry): ReadResult {
  const { faults } = reading;
  const notationFaults = faults.errors;
  const found = notationFaults > 0 ? faults.trial() : faults;
  const inner = { ...reading, faults: found };
  const top = topOf(inner, tree, notationFaults > 0);
  const sections = top === null ? null : readSections(inner, top, registry);
  if (notationFaults > 0) {
    // What stands behind the first fault of the notation may be read wrongly: only what stands before it is reported.
    for (const fault of found.list) if (fault.offset < tree.goodUntil) faults.add(fault);
    return failed(faults, source);
  }
  if (sections === null) return failed(faults, source);
  new References(inner, source, registry, sections.known).checkAll();
  checkOrder(inner, source, {
    climate: sections.top['climate'],
    survey: sections.top['survey'],
    places: sections.places,
  });
  if (faults.errors > 0) return failed(faults, source);
  const build = deepFreeze(buildOf(sections));
  return Object.freeze({ build, diagnostics: faults.diagnostics(), source });
}

/** The entries of the top by name; null when the document is no map of entries. */
function topOf(reading: Reading, tree: Tree, damaged: boolean): Top | null {
  const { root } = tree;
  if (!isMap(root)) {
    const empty = root === null || isEmpty(root);
    const message = empty
      ? 'found an empty document; a build begins with the line loomwright: 1'
      : `found ${picture(root)} at the top; a build is a map of entries that begins with the line loomwright: 1`;
    if (!damaged) reading.faults.add({ offset: 0, found: '', expected: 'loomwright: 1', message, path: [] });
    return null;
  }
  const top = new Map<string, Entry>();
  for (const entry of entriesOf(reading, root, [])) {
    if (Object.hasOwn(tables.TOP, entry.key)) top.set(entry.key, entry);
    else unknownName(reading, entry.key, entry.at, Object.keys(tables.TOP), []);
  }
  return top;
}

interface Sections {
  readonly top: Readonly<Record<string, unknown>>;
  readonly known: Known;
  readonly places: ReadonlyMap<Id, Item>;
  readonly aside: readonly Item[];
  readonly confirmed: readonly Item[];
}

/** Sections that are one value of a shape; the others are read entry by entry. */
const SIMPLE = [
  'title',
  'revision',
  'practice',
  'vehicle',
  'units',
  'climate',
  'settings',
  'stock',
  'survey',
  'requires',
  'notes',
] as const;

function readSections(reading: Reading, top: Top, registry: Registry): Sections {
  const simple = Object.fromEntries(SIMPLE.map((name) => [name, readTop(reading, top, name)]));
  const systems = systemsOf(reading, top);
  const places = readNamed(reading, top, 'places', tables.PLACE_FIELDS);
  const routes = readListed(reading, top, 'routes', tables.ROUTE_FIELDS, ['from', 'to']);
  const { parts, faulty, names } = readParts(reading, namedEntries(reading, top, 'parts'), registry);
  const wires = readNamed(reading, top, 'wires', tables.WIRE_FIELDS, ['from', 'to']);
  const measured = readListed(reading, top, 'measured', tables.MEASURED_FIELDS, ['from', 'to', 'resistance']);
  const aside = readListed(reading, top, 'aside', tables.ASIDE_FIELDS, ['finding', 'reason']);
  const confirmed = readListed(reading, top, 'confirmed', tables.CONFIRMED_FIELDS);
  for (const item of confirmed) checkConfirmed(reading, item);
  for (const item of measured) checkMeasured(reading, item);
  const known = { systems, places, parts, faulty, partNames: names, wires, routes, measured };
  return { top: simple, known, places, aside, confirmed };
}

/** Nominal volts by name. Which systems there are must be known; `unknown` volts are refused. */
function systemsOf(reading: Reading, top: Top): Readonly<Record<string, number>> {
  const values = (readTop(reading, top, 'systems') ?? {}) as Readonly<Record<string, unknown>>;
  const systems = Object.create(null) as Record<string, number>;
  for (const { key, at } of namedEntries({ ...reading, faults: reading.faults.trial() }, top, 'systems')) {
    const volts = values[key];
    if (volts === 'unknown')
      reading.faults.add({
        offset: at,
        found: 'unknown',
        expected: 'a voltage',
        message: `found a system whose nominal voltage is unknown; write 12 V, 24 V or 48 V`,
        path: ['systems', key],
      });
    else if (typeof volts === 'object' && volts !== null)
      systems[key] = (volts as { readonly value: number }).value;
  }
  return systems;
}

function checkConfirmed(reading: Reading, { values, bad, offset, path }: Item): void {
  const named = ['table', 'figure'].filter((name) => values[name] !== undefined);
  if (bad || named.length === 1) return;
  reading.faults.add({
    offset,
    found: listed(named),
    expected: 'table or figure',
    message: `found a confirmation of ${named.length === 0 ? 'nothing' : 'two things'}; name either a table or a figure`,
    path,
  });
}

function checkMeasured(reading: Reading, { values, offset, path }: Item): void {
  if (values['resistance'] !== 'unknown') return;
  const message = 'found a measurement whose result is unknown; write the resistance, or take the entry out';
  reading.faults.add({
    offset,
    found: 'unknown',
    expected: 'a resistance',
    message,
    path: [...path, 'resistance'],
  });
}

function buildOf({ top, known, places, aside, confirmed }: Sections): Build {
  const values = (name: string) => (top[name] ?? {}) as make.Values;
  const practice = make.practiceOf(top['practice']);
  return {
    format: 1,
    title: (top['title'] ?? '') as string,
    ...(typeof top['revision'] === 'string' ? { revision: top['revision'] } : {}),
    ...(practice === undefined ? {} : { practice }),
    systems: known.systems,
    vehicle: make.vehicleOf(values('vehicle')),
    units: top['units'] === 'imperial' ? 'imperial' : 'metric',
    climate: make.climateOf(values('climate')),
    settings: make.settingsOf(values('settings')),
    survey: make.surveyOf(values('survey')),
    places: new Map(
      [...places].map(([id, item]) => [
        id,
        madeOnce(placeOnce, item.values, () => make.placeOf(id, item.values)),
      ]),
    ),
    routes: known.routes.map((item) => make.routeOf(item.values)),
    parts: known.parts,
    wires: wiresOf(known.wires),
    requires: make.requirementsOf(top['requires']),
    aside: aside.map((item) => make.asideOf(item.values)),
    measured: known.measured.map((item): Measured => make.measuredOf(item.values)),
    confirmed: confirmed.map((item) => make.confirmedOf(item.values)),
    stock: make.stockOf(values('stock')),
    ...(typeof top['notes'] === 'string' ? { notes: top['notes'] } : {}),
  };
}

/** Wires and places by what was read of them: what is taken over from an earlier text is the same object again. */
const wireOnce = new WeakMap<make.Values, Wire>();
const placeOnce = new WeakMap<make.Values, Place>();

function madeOnce<T>(known: WeakMap<make.Values, T>, values: make.Values, make: () => T): T {
  const old = known.get(values);
  if (old !== undefined) return old;
  const made = make();
  known.set(values, made);
  return made;
}

function wiresOf(wires: Known['wires']): ReadonlyMap<Id, Wire> {
  return new Map(
    [...wires].map(([id, item]) => [id, madeOnce(wireOnce, item.values, () => make.wireOf(id, item.values))]),
  );
}
