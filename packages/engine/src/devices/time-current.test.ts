import { describe, expect, it } from 'vitest';
import type { Basis, TimeCurrentBand } from '../contracts/index.ts';
import { fastSeconds, slowCornerAmps, slowCorners, slowSeconds } from './time-current.ts';

const basis: Basis = {
  path: 'table:breaker-curve/generic-thermal',
  label: 'curve',
  sourced: { value: 0, unit: '', prov: 'seen', source: 'test' },
  how: '',
  effort: 'confirm',
  assumed: true,
};

const band = (over: Partial<TimeCurrentBand>): TimeCurrentBand => ({
  slow: [],
  fast: null,
  hold: 1,
  beyond: 'flat',
  clearing: null,
  basis,
  ...over,
});

/** Generic thermal breaker, two makers' application articles. */
const thermal = band({
  slow: [
    [1.35, 3600],
    [2, 40],
    [4, 5],
    [6, 1.8],
    [10, 0.4],
  ],
  fast: [
    [2, 4],
    [4, 0.6],
    [6, 0.3],
    [10, 0.12],
  ],
});

/** Class T, 31-60 A: UL 248-15 limits end at 200 %. */
const classT = band({
  slow: [
    [1.35, 3600],
    [2, 240],
  ],
  hold: 1.1,
  beyond: 'no-figure',
});

describe('slow edge', () => {
  it('of a 60 A thermal breaker behind 86.8 mΩ from 12.6 V (145 A, 242 %) is 22.6 s', () => {
    expect(slowSeconds(thermal, 12.6 / 0.0868 / 60, 60)).toBeCloseTo(22.6, 1);
  });

  it('meets its points exactly', () => {
    expect(slowSeconds(thermal, 2, 60)).toBe(40);
    expect(slowSeconds(thermal, 4, 60)).toBe(5);
    expect(slowSeconds(thermal, 10, 60)).toBe(0.4);
  });

  it('is endless below its first point and flat above its last', () => {
    expect(slowSeconds(thermal, 1.34, 60)).toBe(Infinity);
    expect(slowSeconds(thermal, 14, 60)).toBe(0.4);
    expect(slowSeconds(thermal, 100, 60)).toBe(0.4);
  });

  it('never rises with the current', () => {
    let before = Infinity;
    for (let multiple = 1; multiple < 30; multiple += 0.01) {
      const now = slowSeconds(thermal, multiple, 60) ?? Number.NaN;
      expect(now).toBeLessThanOrEqual(before);
      before = now;
    }
  });

  it('has no figure above 200 % where the family ends there', () => {
    expect(slowSeconds(classT, 2, 60)).toBe(240);
    expect(slowSeconds(classT, 2.01, 60)).toBeNull();
    expect(slowSeconds(classT, 1.35, 60)).toBe(3600);
  });

  it('stays at its last time up to 200 % where the family ends earlier', () => {
    const early = band({ slow: [[1.35, 3600]], beyond: 'no-figure' });
    expect(slowSeconds(early, 1.9, 60)).toBe(3600);
    expect(slowSeconds(early, 2.1, 60)).toBeNull();
  });

  it('follows a stated clearing I²t from ten times the rating, on a line from the 200 % point to there', () => {
    const stated = { ...classT, clearing: 12_000 };
    expect(slowSeconds(stated, 10, 60)).toBeCloseTo(12_000 / 600 ** 2, 9);
    expect(slowSeconds(stated, 20, 60)).toBeCloseTo(12_000 / 1200 ** 2, 9);
    const middle = Math.sqrt(2 * 10);
    expect(slowSeconds(stated, middle, 60)).toBeCloseTo(Math.sqrt(240 * (12_000 / 600 ** 2)), 6);
  });

  it('never grows longer than its last point through a stated I²t', () => {
    const stated = { ...thermal, slow: thermal.slow.slice(0, 3), clearing: 9_000_000 };
    expect(slowSeconds(stated, 7, 60)).toBe(5);
    expect(slowSeconds(stated, 12, 60)).toBe(5);
  });

  it('knows nothing between hold and ten times the rating where only the I²t is stated', () => {
    const bare = band({ clearing: 9000, beyond: 'no-figure' });
    expect(slowSeconds(bare, 1, 60)).toBe(Infinity);
    expect(slowSeconds(bare, 5, 60)).toBeNull();
    expect(slowSeconds(bare, 10, 60)).toBeCloseTo(0.025, 9);
  });
});

describe('fast edge', () => {
  it('of a 60 A thermal breaker at 145 A (242 %) is 2.4 s', () => {
    expect(fastSeconds(thermal, 145 / 60)).toBeCloseTo(2.4, 1);
  });

  it('is never up to the hold', () => {
    expect(fastSeconds(thermal, 1)).toBe(Infinity);
    expect(fastSeconds(classT, 1.1)).toBe(Infinity);
  });

  it('keeps I²t constant between the hold and its first point and beyond its last', () => {
    expect(fastSeconds(thermal, 1.5)).toBeCloseTo(4 * (2 / 1.5) ** 2, 6);
    expect(fastSeconds(thermal, 20)).toBeCloseTo(0.03, 9);
  });

  it('is not known where no fast edge is given', () => {
    expect(fastSeconds(classT, 3)).toBeNull();
  });

  it('takes "never" in a written curve as a hold', () => {
    const written = band({
      hold: 1,
      fast: [
        [1.1, Infinity],
        [2, 1],
      ],
    });
    expect(fastSeconds(written, 1.1)).toBe(Infinity);
    expect(fastSeconds(written, 1.2)).toBeCloseTo((2 / 1.2) ** 2, 6);
  });

  it('never lies above the slow edge', () => {
    for (let multiple = 1.01; multiple < 30; multiple += 0.01) {
      expect(fastSeconds(thermal, multiple)).toBeLessThanOrEqual(slowSeconds(thermal, multiple, 60) ?? 0);
    }
  });
});

describe('corners of the slow edge', () => {
  it('are its listed points, and ten times the rating with a stated I²t', () => {
    expect(slowCorners(thermal)).toEqual([1.35, 2, 4, 6, 10]);
    expect(slowCorners({ ...classT, clearing: 12_000 })).toEqual([1.35, 2, 10]);
  });

  it('between two currents are those strictly inside', () => {
    expect(slowCornerAmps(thermal, 60, 120, 700)).toEqual([240, 360, 600]);
  });
});
