import { describe, expect, it } from 'vitest';
import { AUTO_AREAS_MM2, AWG_AREAS_MM2, parseSize, SAE_AREAS_MM2 } from '../quantity/index.ts';
import type { Size } from '../quantity/index.ts';
import { copperFactor } from './copper.ts';
import { resistancePerMetre20 } from './resistance.ts';
import type { Strand } from './resistance.ts';
import { awgTable } from './tables/awg.ts';
import { saeTable } from './tables/sae.ts';

function size(text: string): Size {
  const result = parseSize(text);
  if (!result.ok) throw new Error(result.message);
  return result.size;
}

function perKm(text: string, strand?: Strand): number {
  const figure = resistancePerMetre20(size(text), strand);
  if ('noFigure' in figure) throw new Error(figure.noFigure);
  return figure.value * 1000;
}

function prov(text: string, strand?: Strand): string {
  const figure = resistancePerMetre20(size(text), strand);
  return 'noFigure' in figure ? 'none' : figure.prov;
}

const pairs = (block: string) =>
  block
    .trim()
    .split('\n')
    .map((line) => {
      const [name = '', value = ''] = line.trim().split(' ');
      return [name, Number(value)] as const;
    });

// IEC 60228:2004 table 3 (class 5), plain copper, Ω/km at 20 °C.
const CLASS_5 = `
  0.5 39.0
  0.75 26.0
  1 19.5
  1.5 13.3
  2.5 7.98
  4 4.95
  6 3.3
  10 1.91
  16 1.21
  25 0.78
  35 0.554
  50 0.386
  70 0.272
  95 0.206
  120 0.161
`;

// NEC chapter 9 table 8, stranded uncoated copper, Ω per 1000 ft at 75 °C.
const NEC_75 = `
  4/0 0.0608
  3/0 0.0766
  2/0 0.0967
  1/0 0.122
  1 0.154
  2 0.194
  3 0.245
  4 0.308
  6 0.491
  8 0.778
  10 1.24
  12 1.98
  14 3.14
  16 4.99
  18 7.95
`;

describe('resistance of conductors', () => {
  it('is that of IEC 60228 class 5 for mm²', () => {
    for (const [area, ohmPerKm] of pairs(CLASS_5)) {
      expect(perKm(`${area} mm2`), area).toBeCloseTo(ohmPerKm, 10);
      expect(prov(`${area} mm2`)).toBe('seen');
    }
  });

  it('of AWG comes back to NEC chapter 9 table 8 at 75 °C', () => {
    for (const [awg, ohmPerKft] of pairs(NEC_75)) {
      const at75 = perKm(`${awg} AWG`) * copperFactor(75) * 0.3048;
      // The table is printed to three figures; its 20 °C column was made with 254.5/309.5.
      expect(Math.abs(at75 / ohmPerKft - 1), awg).toBeLessThan(0.0006);
    }
  });

  it('4 AWG stranded at 75 °C: 0.308 Ω/kft or 1.0105 Ω/km (NEC chapter 9 table 8)', () => {
    expect((perKm('4 AWG') * 309.5) / 254.5).toBeCloseTo(1.0105, 3);
  });

  it('of AWG is never below that of solid copper of its area (IACS)', () => {
    for (const [awg, area] of Object.entries(AWG_AREAS_MM2)) {
      const solid = 17.241 / area;
      expect(perKm(`${awg} AWG`), awg).toBeGreaterThan(solid);
      expect(perKm(`${awg} AWG`), awg).toBeLessThan(solid * 1.03);
    }
  });

  it('of SAE goes by its own, smaller area', () => {
    for (const [sae, area] of Object.entries(SAE_AREAS_MM2)) {
      expect(perKm(`${sae} SAE`), sae).toBeCloseTo((17.241 * 1.02) / area, 8);
      expect(perKm(`${sae} SAE`)).toBeGreaterThan(perKm(`${sae} AWG`));
    }
    expect(prov('4 SAE')).toBe('computed');
    expect(prov('20 SAE')).toBe('memory');
  });

  it('of cable sold by outside diameter is from memory', () => {
    for (const millimetres of Object.keys(AUTO_AREAS_MM2))
      expect(prov(`${millimetres} mm auto`)).toBe('memory');
    expect(perKm('6 mm auto')).toBeCloseTo(Math.max(4.95 * 4, 3.3 * 6) / 4.6, 10);
  });

  it('of a size between two published ones is never too low, and falls with area', () => {
    expect(perKm('8 mm2')).toBeCloseTo(Math.max(3.3 * 6, 1.91 * 10) / 8, 10);
    expect(prov('8 mm2')).toBe('computed');
    let before = Number.POSITIVE_INFINITY;
    for (let area = 0.3; area < 200; area *= 1.013) {
      const now = perKm(`${area.toFixed(3)} mm2`);
      expect(now, `${area}`).toBeLessThanOrEqual(before);
      before = now;
    }
  });

  it('of road-vehicle cable is memory but for 0.5 and 1.5 mm²', () => {
    expect(prov('1.5 mm2', 'iso-6722')).toBe('seen');
    expect(perKm('1.5 mm2', 'iso-6722')).toBeCloseTo(12.7, 10);
    expect(prov('25 mm2', 'iso-6722')).toBe('memory');
    expect(perKm('25 mm2', 'iso-6722')).toBeCloseTo(0.743, 10);
    expect(prov('22 mm2', 'iso-6722')).toBe('memory');
  });

  it('copper at 40 °C is 1.0786 times that at 20 °C', () => {
    expect(copperFactor(40)).toBeCloseTo(1.0786, 10);
    expect(copperFactor(20)).toBe(1);
    expect(copperFactor(-400)).toBe(0.1);
  });

  it('uses the areas that sizes are read with', () => {
    expect(Object.fromEntries(awgTable.rows.map((row) => [row.awg, row.areaMm2]))).toEqual(AWG_AREAS_MM2);
    const sae = saeTable.rows.map((row) => [row.sae, row.areaMm2 ?? row.leastAreaMm2]);
    expect(Object.fromEntries(sae)).toEqual(SAE_AREAS_MM2);
  });

  it('one circular mil is pi/4 of a square mil: SAE areas follow from their circular mils', () => {
    for (const row of saeTable.rows) {
      if (row.circularMils === null || row.areaMm2 === null) continue;
      expect(row.circularMils * (Math.PI / 4) * 0.0254 ** 2, row.sae).toBeCloseTo(row.areaMm2, 3);
    }
  });
});
