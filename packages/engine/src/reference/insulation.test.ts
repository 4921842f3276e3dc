import { describe, expect, it } from 'vitest';
import { insulation, insulationNames } from './insulation.ts';
import { adiabaticKTable } from './tables/adiabatic-k.ts';

/** k of copper between two conductor temperatures in °C, A√s/mm² (IEC 60949). */
const adiabaticK = (initialC: number, finalC: number): number =>
  226 * Math.sqrt(Math.log((234.5 + finalC) / (234.5 + initialC)));

describe('adiabatic limit', () => {
  it('k by insulation (BS 7671 table 43.1; pvc-105 computed)', () => {
    expect(insulationNames.map((name) => [name, insulation(name).k.value, insulation(name).k.prov])).toEqual([
      ['pvc-70', 115, 'seen'],
      ['pvc-90', 100, 'seen'],
      ['xlpe-90', 143, 'seen'],
      ['pvc-105', 87.6, 'computed'],
    ]);
  });

  it('rated and final temperatures', () => {
    expect(insulationNames.map((name) => [insulation(name).ratedC, insulation(name).finalC.value])).toEqual([
      [70, 160],
      [90, 160],
      [90, 250],
      [105, 160],
    ]);
  });

  it('the formula of IEC 60949 gives every row of the table, the published ones within half a unit', () => {
    for (const row of adiabaticKTable.rows) {
      const k = adiabaticK(row.initialC, row.finalC);
      expect(k, row.insulation).toBeCloseTo(row.iec60949, 1);
      if (row.published !== null) expect(Math.abs(k - row.published), row.insulation).toBeLessThan(0.51);
    }
  });

  it('ICEA P-32-382 lies 0.7 to 0.8 % below', () => {
    // (I/A)² t = 0.0297 log10((T2 + 234)/(T1 + 234)), A in circular mils; one circular mil is 5.067e-4 mm².
    for (const row of adiabaticKTable.rows) {
      const icea = Math.sqrt(0.0297 * Math.log10((row.finalC + 234) / (row.initialC + 234))) / 5.067075e-4;
      expect(icea, row.insulation).toBeCloseTo(row.icea, 0);
    }
  });
});
