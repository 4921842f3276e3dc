import { describe, expect, it } from 'vitest';
import { unitOf } from './unit-of.ts';

describe('unit of a typed quantity', () => {
  it.each([
    ['40 A', 'A'],
    ['250 mA', 'A'],
    ['3..8 mΩ', 'Ω'],
    ['12 cm', 'm'],
    ['12 ft 6 in', 'm'],
    ['2 h 40 min', 's'],
    ['1,300 A', ''],
    ['12000 A²s', 'A²s'],
    ['−10 °C', '°C'],
    ['10 K', 'K'],
    ['15 s', 's'],
    ['200 Ah', 'Ah'],
    ['88 %', ''],
    ['0.88', ''],
    ['often', ''],
  ])('%s', (text, unit) => {
    expect(unitOf(text)).toBe(unit);
  });
});
