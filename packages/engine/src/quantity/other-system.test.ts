import { describe, expect, it } from 'vitest';
import { inOtherSystem } from './other-system.ts';
import { parseSize } from './size.ts';

const other = (text: string): string => {
  const read = parseSize(text);
  if (!read.ok) throw new Error(read.message);
  return inOtherSystem(read.size).replaceAll('\u00A0', ' ');
};

describe('a size in the other system', () => {
  // Areas by ASTM B258: 4 AWG 21.15 mm², 3 AWG 26.67 mm², 2/0 AWG 67.43 mm².
  it.each([
    ['25 mm2', 'between 4 and 3 AWG'],
    ['70 mm2', 'between 2/0 and 3/0 AWG'],
    ['16 mm2', 'between 6 and 5 AWG'],
    ['107 mm2', '4/0 AWG'],
    ['120 mm2', 'thicker than 4/0 AWG'],
    ['0.22 mm2', 'thinner than 22 AWG'],
    ['4 AWG', '21.2 mm²'],
    ['4 SAE', '18.9 mm²'],
  ])('%s: %s', (written, said) => {
    expect(other(written)).toBe(said);
  });
});
