import { describe, expect, it } from 'vitest';
import { awgTable } from '../../packages/engine/src/reference/tables/awg.ts';
import { saeTable } from '../../packages/engine/src/reference/tables/sae.ts';
import { voltageDrop3Table } from './tables/voltage-drop-3-percent.ts';

/** Resistance of copper at some 25 °C in the marine wire-size formula, ohm circular mil per foot. */
const K = 10.75;
const DROP_V = 0.03 * 12;
const PRINTED_SIZES = ['18', '16', '14', '12', '10', '8', '6', '4', '2', '1', '1/0', '2/0', '3/0', '4/0'];

const SAE_MILS = new Map(saeTable.rows.map((row) => [row.sae, row.circularMils ?? 0]));
const AWG_MILS = new Map(awgTable.rows.map((row) => [row.awg, row.circularMils]));

const smallest = (mils: ReadonlyMap<string, number>, needed: number) =>
  PRINTED_SIZES.find((size) => (mils.get(size) ?? 0) >= needed);

describe('wire size for a drop of 3 % at 12 V (ABYC E-11 style table)', () => {
  it('needs K I L / E circular mils', () => {
    for (const row of voltageDrop3Table.rows) {
      const needed = (K * row.amps * row.feet) / DROP_V;
      expect(Math.abs(needed - row.mils), `${row.feet} ft ${row.amps} A`).toBeLessThan(0.51);
    }
  });

  it('prints the smallest SAE size of that area, but for the cells that say otherwise', () => {
    const departing = voltageDrop3Table.rows.filter((row) => smallest(SAE_MILS, row.mils) !== row.published);
    expect(departing.map((row) => [row.feet, row.amps, row.published, row.note])).toEqual([
      [10, 20, '12', 'printed smaller than the formula'],
      [10, 50, '8', 'printed smaller than the formula'],
      [50, 90, '4/0', 'printed larger than the formula'],
      [50, 100, '4/0', 'printed larger than the formula'],
      [60, 15, '6', 'printed smaller than the formula'],
    ]);
    for (const row of voltageDrop3Table.rows) expect(smallest(SAE_MILS, row.mils)).toBe(row.bySae);
  });

  it('AWG of the same number has more copper, so its column never asks for a thicker wire', () => {
    for (const row of voltageDrop3Table.rows) {
      const awg = PRINTED_SIZES.indexOf(smallest(AWG_MILS, row.mils) ?? '');
      const sae = PRINTED_SIZES.indexOf(row.bySae);
      expect(awg, `${row.feet} ft ${row.amps} A`).toBeLessThanOrEqual(sae);
      expect(PRINTED_SIZES[awg]).toBe(row.byAwg);
    }
  });

  // Marine wire-size note: bilge pump 10 A, 21 ft, 12 V; the same at 32 V; 1800 foot-amperes at 10 %.
  it('worked examples of the note', () => {
    expect(Math.round((K * 10 * 21) / 0.36)).toBe(6271);
    expect(smallest(AWG_MILS, 6271)).toBe('12');
    expect(smallest(SAE_MILS, 6271)).toBe('10');
    expect(SAE_MILS.get('12')).toBe(5833);
    expect(Math.round((K * 10 * 21) / 0.96)).toBe(2352);
    expect((K * 40 * 45) / 1.2).toBe(16_125);
    expect(smallest(AWG_MILS, 16_125)).toBe('8');
  });
});
