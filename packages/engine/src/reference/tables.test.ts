import { describe, expect, it } from 'vitest';
import { canonicalRows, fnv1a } from './checksum.ts';
import { publishedTables } from './published-tables.ts';
import { fuseFamilies } from './fuse-curve.ts';
import { chemistries } from './rest-voltage.ts';
import { restVoltageTable } from './tables/batteries-ocv.ts';
import { fuseTimeTable } from './tables/fuse-time-current.ts';

/**
 * Rows and fingerprint of every transcribed table. A changed cell changes its fingerprint: check the cell
 * against the source, then
 * write the new fingerprint here.
 */
const FINGERPRINTS: Readonly<Record<string, readonly [rows: number, fingerprint: string]>> = {
  'adiabatic-k': [15, 'cc9b7107'],
  'ampacity-33cfr183': [15, 'c22f4a12'],
  'ampacity-iec60364': [32, '09378d4a'],
  'ampacity-iso13297': [15, 'a54d18f7'],
  awg: [26, '117603f9'],
  'breaker-time-current': [17, '148d098c'],
  'bundling-33cfr183': [5, '22e20c1c'],
  'conductor-colours': [24, 'c714fe36'],
  din72552: [22, '30c82378'],
  'engine-space-33cfr183': [7, 'c41fe7bb'],
  'engine-space-iso13297': [6, 'dc688f96'],
  'fuse-colours': [23, 'f8bf8099'],
  'fuse-ratings': [9, 'e66fd935'],
  'fuse-time-current': [56, '0d2d110c'],
  'fuse-typical': [9, '390486ff'],
  iec60757: [15, '3b8c3960'],
  iec81346: [17, 'faf9ff2a'],
  'interrupting-marine': [5, '754b81ea'],
  'metric-conductors': [26, 'e646be06'],
  minimums: [28, '10c641a0'],
  'nec-552': [13, '35ca70b7'],
  'rest-voltage': [32, '15d52cc9'],
  sae: [15, '553f5c07'],
  torque: [45, '3e65346a'],
};

const provs = (name: string) =>
  new Set(publishedTables[name]?.rows.map((row) => ('prov' in row ? row.prov : undefined)));

describe('transcribed tables', () => {
  it('are all listed', () => {
    expect(Object.keys(publishedTables).toSorted()).toEqual(Object.keys(FINGERPRINTS).toSorted());
  });

  it.each(Object.entries(publishedTables))('%s is unchanged', (name, table) => {
    expect([table.rows.length, fnv1a(canonicalRows(table))]).toEqual(FINGERPRINTS[name]);
  });

  it.each(Object.entries(publishedTables))('%s has a source, and every row a provenance', (_, table) => {
    expect(table.title.length).toBeGreaterThan(2);
    expect(table.source.length).toBeGreaterThan(3);
    for (const row of table.rows) {
      const columns = Object.entries(row).filter(([key]) => key.startsWith('prov'));
      expect(columns.length).toBeGreaterThan(0);
      for (const [, prov] of columns) expect([null, 'seen', 'computed', 'memory']).toContain(prov);
      expect(columns.some(([, prov]) => prov !== null)).toBe(true);
    }
  });

  it('call memory what was not read', () => {
    expect([...provs('ampacity-iso13297')]).toEqual(['memory']);
    expect([...provs('engine-space-iso13297')]).toEqual(['memory']);
    expect([...provs('ampacity-33cfr183')]).toEqual(['seen']);
    expect([...provs('ampacity-iec60364')]).toEqual(['seen']);
    expect([...provs('awg')]).toEqual(['computed']);
  });

  it('name families and chemistries as the build does', () => {
    const families: readonly string[] = fuseFamilies;
    const known: readonly string[] = chemistries;
    for (const row of fuseTimeTable.rows) expect(families).toContain(row.family);
    for (const row of restVoltageTable.rows) expect(known).toContain(row.chemistry);
  });
});

describe('fingerprint', () => {
  it('is FNV-1a', () => {
    // FNV-1a of the byte 61 is e40c292c (published test vector); the unit "a" ends with the byte 00.
    const expected = (Math.imul(0xe40c292c, 0x01000193) >>> 0).toString(16).padStart(8, '0');
    expect(fnv1a('a')).toBe(expected);
    expect(fnv1a('')).toBe('811c9dc5');
  });

  it('sees any change of a cell', () => {
    const table = { title: 't', source: 's', rows: [{ a: 1, b: 'x' }] };
    const first = fnv1a(canonicalRows(table));
    expect(fnv1a(canonicalRows({ ...table, rows: [{ b: 'x', a: 1 }] }))).toBe(first);
    expect(fnv1a(canonicalRows({ ...table, rows: [{ a: 1.0001, b: 'x' }] }))).not.toBe(first);
    expect(fnv1a(canonicalRows({ ...table, rows: [] }))).not.toBe(first);
  });
});
