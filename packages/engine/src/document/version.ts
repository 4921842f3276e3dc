/** The version of the format that a document says it has. */
import type { Node } from 'yaml';
import { quoted } from '../quantity/index.ts';
import { isMap, startOf, textOf } from './nodes.ts';
import type { Reading } from './reading.ts';

/** The version this reader writes and reads without a migration. */
export const FORMAT = 1;

export interface Version {
  readonly version: number | undefined;
  /** Written by a newer version of the tool. */
  readonly newer: boolean;
}

/** Finds `loomwright: N` and reports what is wrong with it. A document that is no map is left to others. */
export function versionOf(reading: Reading, root: Node | null): Version {
  if (!isMap(root)) return { version: undefined, newer: false };
  const pair = root.items.find((item) => textOf(item.key as Node | null) === 'loomwright');
  if (pair === undefined) {
    reading.faults.add({
      offset: 0,
      found: '',
      expected: `loomwright: ${FORMAT}`,
      message: `found no format version; write loomwright: ${FORMAT} as the first line`,
      path: [],
    });
    return { version: undefined, newer: false };
  }
  const text = textOf(pair.value as Node | null) ?? '';
  const offset = startOf(pair.value as Node | null, startOf(pair.key as Node | null, 0));
  const version = /^(?:0|[1-9]\d{0,5})$/.test(text) ? Number(text) : undefined;
  if (version === undefined) notAVersion(reading, text, offset);
  else if (version > FORMAT) newerThanThis(reading, version, offset);
  return { version, newer: (version ?? 0) > FORMAT };
}

function notAVersion(reading: Reading, text: string, offset: number): void {
  reading.faults.add({
    offset,
    found: text,
    expected: String(FORMAT),
    message: `found ${quoted(text)} as the format version; write loomwright: ${FORMAT}`,
    path: ['loomwright'],
  });
}

function newerThanThis(reading: Reading, version: number, offset: number): void {
  reading.faults.add({
    severity: 'warning',
    offset,
    found: String(version),
    expected: String(FORMAT),
    message: `found format ${version}, written by a newer version; this one reads format ${FORMAT} and keeps what it does not know`,
    path: ['loomwright'],
  });
}
