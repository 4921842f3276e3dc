import { describe, expect, it } from 'vitest';
import type { Sourced } from '../contracts/index.ts';
import { makeValues, NOMINAL } from './values.ts';

const PATH = 'table:bundle/some';
const FACTOR: Sourced = { value: 0.6, unit: '', prov: 'seen', source: 'a table' };

const assumedAfter = (labels: readonly string[]): readonly string[] => {
  const values = makeValues(NOMINAL);
  for (const label of labels) values.figure(PATH, FACTOR, { label, how: 'read it', effort: 'confirm' });
  return values.assumed().map(({ label }) => label);
};

describe('assumed values', () => {
  it('of one path are told once, alike whichever was read first', () => {
    expect(assumedAfter(['factor for 6', 'factor for 7'])).toEqual(['factor for 6']);
    expect(assumedAfter(['factor for 7', 'factor for 6'])).toEqual(['factor for 6']);
  });
});
