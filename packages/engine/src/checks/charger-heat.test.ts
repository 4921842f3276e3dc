/** Derating and heat of a charger, against numbers worked out by hand. */
import { describe, expect, it } from 'vitest';
import { chargerHeat } from './charger-heat.ts';
import { van } from './support/examples.ts';
import { judgeText } from './testing/judge-text.ts';

const CHARGER =
  '{ kind: dc-charger, at: locker, current: 30 A, enable: signal, starts: 12.3 V after 15 s, stops: 12.0 V after 5 s, low-input: stops, negative: common, efficiency: 0.88, derates: 45 °C, voltage: { absorption: 14.4 V, float: 13.5 V } }';

const inAir = (hottest: string) =>
  judgeText(
    van('A charger in hot air', {
      places: { locker: `{ label: Locker, hottest: ${hottest}, coldest: 5 °C }` },
      parts: { charger: CHARGER },
    }),
    [chargerHeat],
  ).finding('charger-heat/charger');

describe('charger-heat', () => {
  it('gives three quarters half way down: 22.5 A of 30 A, and 12 % of the power taken in as heat', () => {
    const f = inAir('55 °C');
    expect(f.verdict).toBe('advice');
    expect(f.dangerFamily).toBe(false);
    expect(f.value).toEqual({ value: 22.5, unit: 'A' });
    expect(f.margin).toBeCloseTo(-7.5, 9);
    // 14.4 × 22.5 / 0.88 = 368.18 W, of which 12 % = 44.18 W
    expect(f.working.at(-1)?.value).toBeCloseTo(44.1818, 3);
    expect(f.says).toMatch(/22\.5.A of 30\.0.A in the heat.*44\.2.W to be carried away/);
  });

  it('gives half from 20 K above on, and everything up to the temperature stated', () => {
    expect(inAir('65 °C').value.value).toBe(15);
    expect(inAir('80 °C').value.value).toBe(15);
    expect(inAir('45 °C').verdict).toBe('met');
  });
});
