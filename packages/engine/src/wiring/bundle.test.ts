import { describe, expect, it } from 'vitest';
import type { AmpacityTable, Practice } from '../contracts/index.ts';
import { makeValues, NOMINAL } from '../devices/values.ts';
import { bundles } from './bundle.ts';
import { layWires } from './lay.ts';
import { place, route, smallBuild, wire } from './testing/small-build.ts';

const build = smallBuild({
  places: [place('a'), place('b'), place('c')],
  routes: [route('a', 'b', 2, { in: 'conduit' }), route('b', 'c', 0.5, { in: 'conduit' })],
  at: { p: 'a', q: 'c' },
  wires: ['w1', 'w2', 'w3', 'w4'].map((id) => wire(id, 'p.1', 'q.1', '25 mm2', { insulation: 'pvc-105' })),
});
const laid = layWires(build, makeValues(NOMINAL));

/** A table that gives 160 A to everything. */
const table: AmpacityTable = {
  name: 'test',
  path: 'table:test',
  look: () => ({ amps: 160, basis: null, airFactor: 1, airLabel: '', airBasis: null, reason: null }),
};
const practice = { tables: [table] } as unknown as Practice;

const counts = (amps: Readonly<Record<string, number>>): (readonly number[] | undefined)[] => {
  const count = bundles(laid, practice).count((id) => amps[id] ?? 0);
  return ['w1', 'w2', 'w3', 'w4'].map((id) => count.get(id));
};

describe('conductors that lie together', () => {
  it('count where they carry more than 10 % of their table value, in either direction, on stretches of at least 0.6 m', () => {
    // 10 % of 160 A.
    expect(counts({ w1: 40, w2: -40, w3: 15.9 })).toEqual([
      [2, 1],
      [2, 1],
      [3, 1],
      [3, 1],
    ]);
  });

  it('count the wire asked about even when it carries nothing', () => {
    expect(counts({})).toEqual([
      [1, 1],
      [1, 1],
      [1, 1],
      [1, 1],
    ]);
  });

  it('by the 1 A rule alone without a practice', () => {
    const count = bundles(laid, null).count((id) => (id === 'w1' ? 1.1 : id === 'w2' ? 1 : 0));
    expect(count.get('w3')).toEqual([2, 1]);
  });

  it('are one where the cable is spaced or free', () => {
    for (const kind of ['free', 'spaced'] as const) {
      const apart = smallBuild({
        places: [place('a'), place('b')],
        routes: [route('a', 'b', 2, { in: kind })],
        at: { p: 'a', q: 'b' },
        wires: ['w1', 'w2'].map((id) => wire(id, 'p.1', 'q.1', '6 mm2')),
      });
      const count = bundles(layWires(apart, makeValues(NOMINAL)), practice).count(() => 100);
      expect(count.get('w1')).toEqual([1]);
    }
  });

  it('over several conditions take the greatest count', () => {
    const b = bundles(laid, practice);
    const conditions = [Float64Array.of(0, 50, 0, 0), Float64Array.of(0, 0, 50, 50)];
    expect(b.greatest(conditions)).toEqual([
      [3, 1],
      [3, 1],
      [2, 1],
      [2, 1],
    ]);
  });
});
