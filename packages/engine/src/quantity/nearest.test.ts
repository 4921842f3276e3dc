import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDistance, nearest } from './nearest.ts';

const KEYS = ['absorption', 'float', 'at', 'rating', 'chemistry', 'capacity', 'charger', 'dc-charger', 'via'];

describe('did you mean', () => {
  it.each([
    ['absorbtion', 'absorption'],
    ['Chemistry', 'chemistry'],
    ['ratnig', 'rating'],
    ['capasity', 'capacity'],
    ['flaot', 'float'],
    ['vis', 'via'],
  ])('%s is near %s', (word, expected) => {
    expect(nearest(word, KEYS)).toBe(expected);
  });

  it('offers nothing far-fetched', () => {
    expect(nearest('xyz', KEYS)).toBeUndefined();
    expect(nearest('voltage', KEYS)).toBeUndefined();
    expect(nearest('', KEYS)).toBeUndefined();
    expect(nearest('b', ['a', 'c'])).toBeUndefined();
    expect(nearest('x'.repeat(500), KEYS)).toBeUndefined();
  });

  it('takes the first of equals', () => {
    expect(nearest('bat', ['cat', 'hat'])).toBe('cat');
  });
});

describe('edit distance', () => {
  it.each([
    ['kitten', 'sitting', 3],
    ['ab', 'ba', 1],
    ['', 'abc', 3],
    ['same', 'same', 0],
  ])('%s and %s: %i', (a, b, expected) => {
    expect(editDistance(a, b)).toBe(expected);
  });

  it('is symmetric, zero only for equals, and bounded', () => {
    const word = fc.string({ maxLength: 8 });
    fc.assert(
      fc.property(word, word, fc.integer({ min: 1, max: 5 }), (a, b, bound) => {
        const distance = editDistance(a, b);
        expect(editDistance(b, a)).toBe(distance);
        expect(distance === 0).toBe(a === b);
        expect(editDistance(a, b, bound)).toBe(Math.min(distance, bound));
      }),
      { seed: 31, numRuns: 500 },
    );
  });
});
