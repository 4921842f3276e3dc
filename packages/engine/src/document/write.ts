/** A whole document from plain values. */
import { renderEntry, renderKey, renderValue } from './render.ts';

/** A value with a comment: behind the value on its line, or on lines above it. */
export interface Commented {
  readonly $value: unknown;
  readonly $behind?: string;
  readonly $above?: string;
}

/** A value with a comment behind it on its line (`above` = on lines of its own above it). */
export function commented(value: unknown, comment: string, where: 'behind' | 'above' = 'behind'): Commented {
  return where === 'above' ? { $value: value, $above: comment } : { $value: value, $behind: comment };
}

/**
 * Writes a document: entries of the top in the order given, each on one line, except those whose value holds maps, lists or
 * comments: these get one line for each entry. Comments may be given for any entry of the top and for the
 * entries of such a section. Values are in document notation; what cannot be written throws (a fault of the program).
 */
export function writeDocument(entries: Readonly<Record<string, unknown>>): string {
  const lines = Object.entries(entries).flatMap(([name, entry]) => topLines(name, entry));
  return `${lines.join('\n')}\n`;
}

function topLines(name: string, entry: unknown): readonly string[] {
  const { value, above, behind } = parts(entry);
  const items = sectionLines(value);
  if (items === undefined) return [...above, `${renderEntry(name, value)}${behind}`];
  return [...above, `${renderKey(name)}:${behind}`, ...items];
}

/** The lines of a section with one line for each entry; undefined for a value that stands on one line. */
function sectionLines(value: unknown): readonly string[] | undefined {
  if (Array.isArray(value)) return isLong(value) ? value.flatMap((item) => itemLines('- ', item)) : undefined;
  if (typeof value !== 'object' || value === null || !isLong(Object.values(value))) return undefined;
  return Object.entries(value).flatMap(([key, item]) => itemLines(`${renderKey(key)}: `, item));
}

/** Some entry is a map or list itself, or has a comment. */
const isLong = (items: readonly unknown[]): boolean =>
  items.some((item) => typeof item === 'object' && item !== null);

function itemLines(lead: string, item: unknown): readonly string[] {
  const { value, above, behind } = parts(item);
  return [...above.map((line) => `  ${line}`), `  ${lead}${renderValue(value)}${behind}`];
}

const isCommented = (entry: unknown): entry is Commented =>
  typeof entry === 'object' && entry !== null && Object.hasOwn(entry, '$value');

function parts(entry: unknown): {
  readonly value: unknown;
  readonly above: readonly string[];
  readonly behind: string;
} {
  if (!isCommented(entry)) return { value: entry, above: [], behind: '' };
  const above = entry.$above?.split(/\r?\n/).map((line) => `# ${line}`.trimEnd()) ?? [];
  const behind = entry.$behind === undefined ? '' : `  # ${entry.$behind.replace(/\s+/g, ' ')}`;
  return { value: entry.$value, above, behind };
}
