/** Fingerprint of a table, so that no cell changes unseen. */
import type { Table } from './table.ts';

/** Rows as text: keys in alphabetical order, one row per line. */
export function canonicalRows(table: Table<object>): string {
  return table.rows
    .map((row) => JSON.stringify(Object.entries(row).toSorted(([a], [b]) => (a < b ? -1 : 1))))
    .join('\n');
}

/** FNV-1a, 32 bits, over the UTF-16 units of a text (low byte first), as eight hexadecimal digits. */
export function fnv1a(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    hash = Math.imul(hash ^ (unit & 0xff), 0x01000193);
    hash = Math.imul(hash ^ (unit >>> 8), 0x01000193);
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}
