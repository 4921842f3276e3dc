import { describe, expect, it } from 'vitest';
import { ambientFactor, copperFactor } from '../../packages/engine/src/reference/index.ts';
import { ambientCorrectionTable } from './tables/ambient-correction.ts';
import { conductorTemperatureTable } from './tables/conductor-temperature.ts';

describe('ambient correction (NEC table 310.15(B)(1))', () => {
  it.each(ambientCorrectionTable.rows)('up to $celsius °C', (row) => {
    const printed = [
      [60, row.c60],
      [75, row.c75],
      [90, row.c90],
    ] as const;
    for (const [insulation, factor] of printed) {
      const found = ambientFactor(insulation, row.celsius);
      if (factor === null) continue;
      if ('noFigure' in found) throw new Error(found.noFigure);
      expect(Math.abs(found.value - factor), `${insulation} °C`).toBeLessThan(0.0051);
    }
    const at105 = ambientFactor(105, row.celsius);
    expect('noFigure' in at105 ? 0 : at105.value).toBeCloseTo(row.c105Computed, 3);
  });

  it('prints nothing where the air is as hot as the insulation', () => {
    for (const row of ambientCorrectionTable.rows) {
      expect('noFigure' in ambientFactor(60, row.celsius)).toBe(row.celsius >= 60);
    }
  });
});

describe('temperature of conductors (IEC 60228 annex, printed with 0.004 per K)', () => {
  it.each(conductorTemperatureTable.rows)('$celsius °C', (row) => {
    // The printed factor refers a reading to 20 °C, so it is the inverse of ours; 0.004 against 0.00393 makes
    // up to 0.45 %.
    expect(Math.abs(1 / copperFactor(row.celsius) / row.published - 1)).toBeLessThan(0.0045);
    expect(1 / copperFactor(row.celsius)).toBeCloseTo(row.iacs, 3);
    expect(1 / (1 + 0.004 * (row.celsius - 20))).toBeCloseTo(row.alpha004, 4);
  });
});
