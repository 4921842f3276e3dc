import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AWG_AREAS_MM2, formatSize, parseSize, SAE_AREAS_MM2 } from './size.ts';
import type { Size } from './size.ts';

function size(text: string): Size {
  const result = parseSize(text);
  if (!result.ok) throw new Error(result.message);
  return result.size;
}

function message(text: string): string {
  const result = parseSize(text);
  return result.ok ? `accepted as ${result.size.name}` : result.message;
}

describe('a wire size', () => {
  it.each([
    ['25 mm2', 'metric', 25, '25\u00A0mm²'],
    ['25 mm²', 'metric', 25, '25\u00A0mm²'],
    ['25mm²', 'metric', 25, '25\u00A0mm²'],
    ['25 sqmm', 'metric', 25, '25\u00A0mm²'],
    ['2,5 mm2', 'metric', 2.5, '2.5\u00A0mm²'],
    ['4 AWG', 'awg', 21.1506, '4\u00A0AWG'],
    ['4 awg', 'awg', 21.1506, '4\u00A0AWG'],
    ['AWG 4', 'awg', 21.1506, '4\u00A0AWG'],
    ['1/0 AWG', 'awg', 53.4751, '1/0\u00A0AWG'],
    ['0 AWG', 'awg', 53.4751, '1/0\u00A0AWG'],
    ['0000 AWG', 'awg', 107.2193, '4/0\u00A0AWG'],
    ['AWG 4/0', 'awg', 107.2193, '4/0\u00A0AWG'],
    ['4 SAE', 'sae', 18.931, '4\u00A0SAE'],
    ['SAE 4', 'sae', 18.931, '4\u00A0SAE'],
    ['6 mm auto', 'auto', 4.6, '6\u00A0mm auto'],
    ['5 mm auto', 'auto', 2.9, '5\u00A0mm auto'],
    ['4mm auto', 'auto', 1.85, '4\u00A0mm auto'],
    ['3 mm auto', 'auto', 0.85, '3\u00A0mm auto'],
  ])('%s is %s, %s mm²', (text, family, areaMm2, name) => {
    expect(size(text)).toEqual({ text, family, areaMm2, name });
  });

  it('prints what was typed, then the copper area', () => {
    expect(formatSize(size('4 AWG'))).toBe('4\u00A0AWG (21.2\u00A0mm²)');
    expect(formatSize(size('AWG 4'))).toBe('AWG\u00A04 (21.2\u00A0mm²)');
    expect(formatSize(size('4/0 AWG'))).toBe('4/0\u00A0AWG (107\u00A0mm²)');
    expect(formatSize(size('6 mm auto'))).toBe('6\u00A0mm\u00A0auto (4.6\u00A0mm²)');
    expect(formatSize(size('25 mm2'))).toBe('25\u00A0mm²');
  });

  it('may be a band; the smaller size is the one to rely on', () => {
    const metric = parseSize('16..25 mm2');
    expect(metric.ok && [metric.size.areaMm2, metric.band?.map((end) => end.areaMm2)]).toEqual([
      16,
      [16, 25],
    ]);
    const gauge = parseSize('4..6 AWG');
    expect(gauge.ok && gauge.band?.map((end) => formatSize(end))).toEqual([
      '6\u00A0AWG (13.3\u00A0mm²)',
      '4\u00A0AWG (21.2\u00A0mm²)',
    ]);
  });

  // ASTM B258: d = 0.127 mm x 92^((36 - n)/39); 1/0 is n = 0, 4/0 is n = -3.
  it('has the AWG areas of ASTM B258', () => {
    expect(Object.keys(AWG_AREAS_MM2)).toHaveLength(26);
    for (const [name, area] of Object.entries(AWG_AREAS_MM2)) {
      const n = name.endsWith('/0') ? 1 - Number(name.slice(0, -2)) : Number(name);
      const diameter = 0.127 * 92 ** ((36 - n) / 39);
      expect(area, name).toBeCloseTo((Math.PI / 4) * diameter ** 2, 4);
    }
  });

  it('has less copper in SAE than in AWG of the same number: 1.9 to 12 %', () => {
    for (const [name, area] of Object.entries(SAE_AREAS_MM2)) {
      const share = area / (AWG_AREAS_MM2[name] ?? 0);
      expect(share, name).toBeLessThan(0.982);
      expect(share, name).toBeGreaterThan(0.88);
    }
  });
});

describe('a size of two meanings is refused with both', () => {
  it.each([
    ['6', '"6" is a size without a unit: write 6 mm2, 6 AWG, 6 SAE or 6 mm auto'],
    ['25', '"25" is a size without a unit: write 25 mm2, 25 AWG or 25 SAE'],
    ['1/0', '"1/0" is a size without a unit: write 1/0 AWG or 1/0 SAE'],
    [
      '6 mm',
      '"6 mm" may be a copper area or an outside diameter: write 6 mm2 or 6 mm auto (sold by outside diameter, about 4.6 mm² of copper)',
    ],
    ['10 mm', '"10 mm" may be a copper area or an outside diameter: write 10 mm2'],
    ['4 ga', '"4 ga": gauge is sold by two rules that differ: write 4 AWG (21.2 mm²) or 4 SAE (18.9 mm²)'],
    ['4ga.', '"4ga.": gauge is sold by two rules that differ: write 4 AWG (21.2 mm²) or 4 SAE (18.9 mm²)'],
    [
      '4 gauge',
      '"4 gauge": gauge is sold by two rules that differ: write 4 AWG (21.2 mm²) or 4 SAE (18.9 mm²)',
    ],
    ['#4', '"#4": gauge is sold by two rules that differ: write 4 AWG (21.2 mm²) or 4 SAE (18.9 mm²)'],
    ['No. 4', '"No. 4": gauge is sold by two rules that differ: write 4 AWG (21.2 mm²) or 4 SAE (18.9 mm²)'],
    [
      '0 gauge',
      '"0 gauge": gauge is sold by two rules that differ: write 1/0 AWG (53.5 mm²) or 1/0 SAE (50.2 mm²)',
    ],
    ['3 gauge', '"3 gauge": gauge is sold by two rules that differ: write 3 AWG (26.7 mm²)'],
    ['99 gauge', '"99 gauge" is not a wire size: write it such as 25 mm2, 4 AWG or 4 SAE'],
    ['24 AWG', '"24 AWG": no such size: AWG sizes run from 22 to 1, then 1/0, 2/0, 3/0 and 4/0'],
    ['5/0 AWG', '"5/0 AWG": no such size: AWG sizes run from 22 to 1, then 1/0, 2/0, 3/0 and 4/0'],
    [
      '3 SAE',
      '"3 SAE": no such size: SAE sizes are 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 1/0, 2/0, 3/0 and 4/0',
    ],
    [
      '7 mm auto',
      '"7 mm auto": cable sold by outside diameter is known here in 3, 4, 5 and 6 mm auto; else write its copper in mm2',
    ],
    ['', 'no size is written here: write 25 mm2, 4 AWG, 4 SAE or 6 mm auto (a # begins a comment)'],
    ['auto', '"auto" is not accepted here: write a size such as 25 mm2 or 4 AWG'],
    ['0 mm2', '"0 mm2": a copper area from 0.05 to 1000 mm2 is expected'],
    ['2500 mm2', '"2500 mm2": a copper area from 0.05 to 1000 mm2 is expected'],
    ['1,500 mm2', '"1,500 mm2" has two meanings: write 1.500 mm2 or 1500 mm2'],
    ['-4 AWG', '"-4 AWG" is not a wire size: write it such as 25 mm2, 4 AWG, 4 SAE or 6 mm auto'],
    ['thick', '"thick" is not a wire size: write it such as 25 mm2, 4 AWG, 4 SAE or 6 mm auto'],
    [
      '__proto__ AWG',
      '"__proto__ AWG" is not a wire size: write it such as 25 mm2, 4 AWG, 4 SAE or 6 mm auto',
    ],
  ])('%j', (text, expected) => {
    expect(message(text)).toBe(expected);
  });

  it('any string gives a size with copper or a sentence', () => {
    const character = fc.constantFrom(...Array.from('0123456789./,# mM²AWGSaeutog..'));
    fc.assert(
      fc.property(
        fc.array(character, { maxLength: 12 }).map((list) => list.join('')),
        (text) => {
          const result = parseSize(text);
          if (result.ok) expect(result.size.areaMm2).toBeGreaterThan(0);
          else expect(result.message.length).toBeGreaterThan(20);
        },
      ),
      { seed: 13, numRuns: 3000 },
    );
  });

  it('its house name is read again as the same size', () => {
    const names = [
      ...Object.keys(AWG_AREAS_MM2).map((name) => `${name} AWG`),
      ...Object.keys(SAE_AREAS_MM2).map((name) => `${name} SAE`),
      '0.35 mm2',
      '95 mm2',
      '3 mm auto',
      '6 mm auto',
    ];
    for (const name of names) {
      const first = size(name);
      const again = size(first.name);
      expect([again.family, again.areaMm2, again.name]).toEqual([first.family, first.areaMm2, first.name]);
    }
  });
});
