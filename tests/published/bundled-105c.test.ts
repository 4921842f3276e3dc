import { describe, expect, it } from 'vitest';
import { AWG_AREAS_MM2 } from '../../packages/engine/src/quantity/index.ts';
import {
  ampacityTable33cfr,
  bundleFactor,
  engineSpaceFactor,
} from '../../packages/engine/src/reference/index.ts';
import { bundled105cTable } from './tables/bundled-105c.ts';

describe('continuous current of 105 °C boat cable, as printed by a cable maker (UL 1426)', () => {
  it.each(bundled105cTable.rows)('$awg AWG, $conductors conductors, $location: $amps A', (row) => {
    const base = ampacityTable33cfr(AWG_AREAS_MM2[row.awg] ?? 0, 105);
    const engine = engineSpaceFactor(105);
    if ('noFigure' in base || 'noFigure' in engine) throw new Error('no figure');
    const count = Number(row.conductors.split('-').at(-1));
    const place = row.location === 'inside engine space' ? engine.value : 1;
    // Printed to 0.1 A, some cells cut off rather than rounded.
    expect(Math.abs(base.value * bundleFactor(count).value * place - row.amps)).toBeLessThan(0.0501);
  });

  it('10 AWG, 4 to 6 conductors in an engine space carry 30.6 A; one carries 51 A (33 CFR 183.425)', () => {
    const base = ampacityTable33cfr(AWG_AREAS_MM2['10'] ?? 0, 105);
    const engine = engineSpaceFactor(105);
    if ('noFigure' in base || 'noFigure' in engine) throw new Error('no figure');
    expect(base.value * engine.value).toBeCloseTo(51, 9);
    expect(base.value * bundleFactor(5).value * engine.value).toBeCloseTo(30.6, 9);
    expect(base.value * 1.5).toBe(90);
  });
});
