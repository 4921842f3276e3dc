/** Names of parts, wires, places and systems, and references to them. */
import type { PhraseResult } from '../contracts/index.ts';
import { quoted } from '../quantity/index.ts';
import type { Path } from '../contracts/index.ts';
import type { Reading } from './reading.ts';

/** Letters a to z, digits, dashes; begins with a letter or digit; 1 to 60 characters. */
export const ID_PATTERN = '^[A-Za-z0-9][A-Za-z0-9-]{0,59}$';
const ID = new RegExp(ID_PATTERN);

/** `part.terminal`; a terminal may have a dot of its own (`switch.in.2`). */
export const TERMINAL_PATTERN = '^[A-Za-z0-9][A-Za-z0-9-]{0,59}\\.[A-Za-z0-9.+-]{1,20}$';
const TERMINAL = new RegExp(TERMINAL_PATTERN);

export const isId = (text: string): boolean => ID.test(text);

/** What is wrong with a name, or undefined. */
export function idFault(text: string): string | undefined {
  if (isId(text)) return undefined;
  const rule = 'names are made of letters a to z, digits and dashes, and begin with a letter or digit';
  if (text.trim() === '') return `found an empty name; ${rule}`;
  if (text.length > 60)
    return `found the name ${quoted(text)}, which is longer than 60 characters; put the long form in label`;
  const better = suggestion(text);
  return `found the name ${quoted(text)}; ${rule}${better === '' ? '' : `, such as ${better}`}`;
}

function suggestion(text: string): string {
  const plain = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^A-Za-z0-9]+/g, '-');
  return plain.replace(/^-+|-+$/g, '').slice(0, 60);
}

/** Reports a key that is no name; true when it is one. */
export function checkId(reading: Reading, key: string, offset: number, path: Path): boolean {
  const message = idFault(key);
  if (message === undefined) return true;
  reading.faults.add({
    offset,
    found: key,
    expected: 'a name of letters, digits and dashes',
    message,
    path: [...path, key],
  });
  return false;
}

/** A reference to something by its name; whether it exists is checked later. */
export function readReference(text: string): PhraseResult {
  const message = idFault(text);
  return message === undefined ? { ok: true, value: text } : { ok: false, message };
}

/** A reference `part.terminal`. */
export function readTerminal(text: string): PhraseResult {
  if (TERMINAL.test(text)) return { ok: true, value: text };
  const message = text.includes('.')
    ? `${quoted(text)} is not a terminal: write part.terminal, such as charger.in+`
    : `${quoted(text)} is no terminal: write part.terminal, such as ${isId(text) ? `${text}.+` : 'charger.in+'}`;
  return { ok: false, message };
}

/** Splits a well-formed reference at its first dot. */
export function splitTerminal(reference: string): readonly [part: string, terminal: string] {
  const dot = reference.indexOf('.');
  return [reference.slice(0, dot), reference.slice(dot + 1)];
}

/** A terminal of no part: where a wire goes whose end nobody knows. Each is a node of its own. */
export const nowhere = (wire: string, end: 'from' | 'to'): string => `?.${wire}-${end}`;

/** Whether a wire's end is known. */
export const isKnownEnd = (terminal: string): boolean => !terminal.startsWith('?.');
