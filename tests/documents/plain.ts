/** Build documents as plain data: changed by the tests, then printed as text again. */
import { parse } from 'yaml';

export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain };
export type Fields = { [key: string]: Plain };

/** A document in the order in which it is written. */
export interface Doc {
  /** Everything before the places: title, practice, systems, vehicle, climate, settings, stock, survey. */
  readonly head: Fields;
  readonly places: Record<string, Fields>;
  readonly routes: Fields[];
  readonly parts: Record<string, Fields>;
  readonly wires: Record<string, Fields>;
  /** Everything after the wires: requires, aside, measured, confirmed, notes. */
  readonly tail: Fields;
}

const TAIL = new Set(['requires', 'aside', 'measured', 'confirmed', 'notes']);
const OWN = new Set(['places', 'routes', 'parts', 'wires']);

/** A document's text as plain data. Comments are left behind. */
export function plainOf(text: string): Doc {
  const all = parse(text, { schema: 'core' }) as Record<string, Plain>;
  const keys = Object.keys(all).filter((k) => !OWN.has(k));
  const some = (list: readonly string[]): Fields => Object.fromEntries(list.map((k) => [k, all[k] ?? null]));
  return structuredClone({
    head: some(keys.filter((k) => !TAIL.has(k))),
    places: (all['places'] ?? {}) as Record<string, Fields>,
    routes: (all['routes'] ?? []) as unknown as Fields[],
    parts: (all['parts'] ?? {}) as Record<string, Fields>,
    wires: (all['wires'] ?? {}) as Record<string, Fields>,
    tail: some(keys.filter((k) => TAIL.has(k))),
  });
}

/** A string that stands as it is in a flow mapping and is read as the same string or flag. */
const BARE = /^[A-Za-z0-9+(/.-](?:[A-Za-z0-9 .+/%²³°ΩµμΩ·()=_-]|:(?=[A-Za-z0-9]))*$/u;

function printed(value: Plain): string {
  if (value === true) return 'yes';
  if (value === false) return 'no';
  if (typeof value === 'string') {
    const bare = BARE.test(value) && value.trim() === value && !/^[-+.0-9]+$/.test(value);
    return bare ? value : JSON.stringify(value);
  }
  if (value === null || typeof value === 'number') return String(value);
  if (Array.isArray(value)) return `[${value.map((v: Plain) => printed(v)).join(', ')}]`;
  return `{ ${Object.entries(value)
    .map(([k, v]) => `${k}: ${printed(v)}`)
    .join(', ')} }`;
}

const named = (title: string, map: Record<string, Fields>): readonly string[] =>
  Object.keys(map).length === 0
    ? []
    : [`${title}:`, ...Object.entries(map).map(([id, fields]) => `  ${id}: ${printed(fields)}`)];

const listed = (title: string, list: readonly Plain[]): readonly string[] =>
  list.length === 0 ? [] : [`${title}:`, ...list.map((item) => `  - ${printed(item)}`)];

/** The document as text, one line for each place, route, part and wire. */
export function textOf(doc: Doc): string {
  return `${[
    ...Object.entries(doc.head).map(([k, v]) => `${k}: ${printed(v)}`),
    ...named('places', doc.places),
    ...listed('routes', doc.routes),
    ...named('parts', doc.parts),
    ...named('wires', doc.wires),
    ...Object.entries(doc.tail).flatMap(([k, v]) =>
      Array.isArray(v) ? listed(k, v as Plain[]) : [`${k}: ${printed(v)}`],
    ),
  ].join('\n')}\n`;
}
