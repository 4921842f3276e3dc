import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stepBack, stepBetween, stepForth } from './steps.ts';

describe('steps between texts', () => {
  it('go back and forth to the letter, whatever the texts', () => {
    const text = fc.stringMatching(/^[ab\n]{0,12}$/);
    fc.assert(
      fc.property(text, text, (before, after) => {
        const step = stepBetween(before, after, 'typed');
        expect(stepBack(after, step)).toBe(before);
        expect(stepForth(before, step)).toBe(after);
      }),
    );
  });

  it('keep only what changed', () => {
    expect(stepBetween('rating: 60 A\n', 'rating: 80 A\n', '')).toMatchObject({ at: 8, was: '6', is: '8' });
  });
});
