import { describe, expect, it } from 'vitest';
import { confirms } from './confirms.ts';

const PATH = 'table:ampacity/iso-13297';
const LABEL = 'ampacity of 25 mm², 105 °C';

describe('a confirmation', () => {
  it.each([
    'table:ampacity/iso-13297',
    'ampacity/iso-13297',
    'ampacity-iso13297',
    'ampacity-iso13297.csv',
    'ISO 13297',
    'Ampacity of 25 mm², 105 °C',
  ])('%s names the table', (name) => {
    expect(confirms(name, PATH, LABEL)).toBe(true);
  });

  it.each(['', '13297', 'ampacity', 'ISO 13', 'ampacity-iec60364-5-52', 'iso-13297 annex B'])(
    '"%s" does not',
    (name) => {
      expect(confirms(name, PATH, LABEL)).toBe(false);
    },
  );
});
