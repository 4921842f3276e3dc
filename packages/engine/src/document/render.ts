/** Values as text of a document, on one line. */
import { plainNumber } from '../quantity/index.ts';
import { MOST_LEVELS } from './scan.ts';

/** A value that no document can hold. The message is for the person, or the program, that asked for the change. */
export class NotWritable extends Error {}

export interface Style {
  /** Names and texts in double quotes, yes as true: the document is JSON. */
  readonly json: boolean;
}

const YAML_STYLE: Style = { json: false };

// Begins with a letter, digit, sign or point, and has no sign that means something in braces or before a comment.
const PLAIN_TEXT =
  /^(?:[\p{L}\p{N}.+(°µ]|-(?=[\p{L}\p{N}.]))(?:[\p{L}\p{M}\p{N} .+\-/²³°·µ%()_;=×&'"*!?@$<>|^–−]*[\p{L}\p{M}\p{N}.+\-/²³°·µ%()_;=×&'"*!?@$<>|^–−])?$/u;
const NULLS = new Set(['null', 'Null', 'NULL', '~', '']);
const PLAIN_KEY = /^[A-Za-z0-9][A-Za-z0-9-]*$/;

/** A value on one line: plain text where that is safe, else in double quotes; maps in braces, lists in brackets. */
export function renderValue(value: unknown, style: Style = YAML_STYLE, level = 0): string {
  if (level > MOST_LEVELS) throw new NotWritable(`more than ${MOST_LEVELS} levels of nesting`);
  switch (typeof value) {
    case 'string':
      return renderText(value, style);
    case 'number':
      if (!Number.isFinite(value)) throw new NotWritable(`${value} is no number that can be written`);
      return plainNumber(value);
    case 'boolean':
      return renderFlag(value, style);
    case 'object':
      if (Array.isArray(value)) return renderList(value, style, level);
      if (value !== null) return renderMap(value, style, level);
  }
  throw new NotWritable(
    `${value === null ? 'null' : typeof value} cannot be written; remove the entry instead`,
  );
}

function renderFlag(value: boolean, style: Style): string {
  if (style.json) return value ? 'true' : 'false';
  return value ? 'yes' : 'no';
}

function renderText(value: string, style: Style): string {
  const plain = !style.json && PLAIN_TEXT.test(value) && !NULLS.has(value);
  return plain ? value : JSON.stringify(value);
}

/** A name as written before its colon. Names that begin with $ are marks between programs and never written. */
export function renderKey(key: string, style: Style = YAML_STYLE): string {
  if (key.startsWith('$')) throw new NotWritable(`${key} is no name that a document can hold`);
  return !style.json && PLAIN_KEY.test(key) && !NULLS.has(key) ? key : JSON.stringify(key);
}

function renderList(items: readonly unknown[], style: Style, level: number): string {
  return `[${items.map((item) => renderValue(item, style, level + 1)).join(', ')}]`;
}

function renderMap(map: object, style: Style, level: number): string {
  const entries = Object.entries(map).map(([key, value]) => renderEntry(key, value, style, level + 1));
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

/** `key: value`. */
export function renderEntry(key: string, value: unknown, style: Style = YAML_STYLE, level = 0): string {
  return `${renderKey(key, style)}: ${renderValue(value, style, level)}`;
}

/** Sections whose entries stand on lines of their own. */
const ONE_PER_LINE = new Set([
  'places',
  'routes',
  'survey',
  'parts',
  'wires',
  'requires',
  'aside',
  'measured',
  'confirmed',
]);

/** A top-level entry in the form of the house: long sections one entry a line, everything else on one. */
export function renderSection(name: string, value: unknown, eol: string): string {
  const lines = ONE_PER_LINE.has(name) ? itemLines(value) : [];
  return lines.length === 0 ? renderEntry(name, value) : [`${renderKey(name)}:`, ...lines].join(eol);
}

function itemLines(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.map((item) => `  - ${renderValue(item)}`);
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).map(([key, item]) => `  ${renderEntry(key, item)}`);
}
