import { describe, expect, it } from 'vitest';
import { CAPITAL_HEIGHT } from './advance-widths.ts';
import { clipped, lineWidth, roundUp, textWidth, TEXT_SIZE, wrap } from './measure.ts';

describe('widths of lettering', () => {
  // Thousandths of the em as shaped by HarfBuzz from the same files, kerning off.
  it.each([
    ['W12', 1753, 1785],
    ['25\u00A0RD', 2393, 2417],
    ['4.6\u00A0m · 60\u00A0A', 4752, 4822],
    ['Locker ahead of the right rear wheel', 14718, 14862],
    ['LiFePO4', 3300, 3351],
    ['Ωµ\u2212', 1708, 1715],
  ])('are those of a text shaper: %s', (text, regular, strong) => {
    expect(textWidth(text, 'regular', 1000)).toBe(regular);
    expect(textWidth(text, 'strong', 1000)).toBe(strong);
  });

  it('reserve a wide box for a character that the typeface lacks', () => {
    expect(textWidth('\u6F22', 'regular', 1000)).toBe(900);
    expect(textWidth('\u{1F690}', 'regular', 1000)).toBe(900);
  });

  it('give capitals of 2 mm', () => {
    expect((TEXT_SIZE * CAPITAL_HEIGHT) / 1000).toBeGreaterThanOrEqual(2);
    expect((TEXT_SIZE * CAPITAL_HEIGHT) / 1000).toBeLessThan(2.01);
  });

  it('count the room of a run where that is more', () => {
    expect(lineWidth([{ text: 'W1', strong: true, room: 20 }])).toBe(20);
    expect(lineWidth([])).toBe(0);
  });
});

describe('wrapping', () => {
  it('keeps every word and no line too wide', () => {
    const text = 'Locker ahead of the right rear wheel';
    for (const width of [8, 12, 20, 40]) {
      const lines = wrap(text, width);
      expect(lines.join(' ').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
      for (const line of lines) expect(textWidth(line)).toBeLessThanOrEqual(width);
    }
  });

  it('breaks a word that is wider than the line, and keeps a number with its unit', () => {
    expect(wrap('Donaudampfschifffahrt', 10).length).toBeGreaterThan(1);
    expect(wrap('AGM 95\u00A0Ah', textWidth('AGM 95')).at(-1)).toBe('95\u00A0Ah');
    expect(wrap('   ', 10)).toEqual([]);
  });

  it('says that something was left out', () => {
    expect(clipped(['a', 'bc', 'd'], 2)).toEqual(['a', 'b…']);
    expect(clipped(['a'], 2)).toEqual(['a']);
  });

  it('rounds boxes up to half a grid unit', () => {
    expect([0, 0.1, 1.25, 1.26].map(roundUp)).toEqual([0, 1.25, 1.25, 2.5]);
  });
});
