import { describe, expect, it } from 'vitest';
import { breakerCurve, fuseCurve, fuseFamilies } from './fuse-curve.ts';
import type { FuseFamily, TimeCurve } from './fuse-curve.ts';
import { fuseInterrupting, fuseVoltage } from './fuse-rating.ts';
import {
  bladeEHeatFactor,
  breakerHeatFactor,
  fuseDropAtRating,
  fuseHeatFactor,
  panelBreakerHeatFactor,
} from './heat.ts';
import type { Figure, NoFigure } from './sourced.ts';
import { standardRatings } from './standard-ratings.ts';

const number = (figure: Figure) => ('noFigure' in figure ? figure.noFigure : figure.value);
const prov = (figure: Figure) => ('noFigure' in figure ? 'none' : figure.prov);

function curve(found: TimeCurve | NoFigure): TimeCurve {
  if ('noFigure' in found) throw new Error(found.noFigure);
  return found;
}

const rows = (found: TimeCurve | NoFigure) =>
  curve(found).points.map((point) => [point.percent, point.min ?? null, point.max ?? null, point.prov]);

describe('opening times of fuses', () => {
  it('blade F (ISO 8820-3, data sheets); the 160 % row is from memory', () => {
    expect(rows(fuseCurve('blade-f', 10))).toEqual([
      [135, 0.75, 600, 'seen'],
      [160, 0.25, 50, 'memory'],
      [200, 0.15, 5, 'seen'],
      [350, 0.08, 0.5, 'seen'],
      [600, 0.03, 0.1, 'seen'],
    ]);
    expect(curve(fuseCurve('blade-f', 10)).hold).toEqual({ percent: 110, atLeastS: 360_000, prov: 'seen' });
    expect(curve(fuseCurve('blade-f', 10)).prov).toBe('memory');
  });

  it('blade C: memory up to 30 A, seen for 35 and 40 A', () => {
    expect(curve(fuseCurve('blade-c', 20)).prov).toBe('memory');
    expect(curve(fuseCurve('blade-c', 40)).prov).toBe('seen');
    expect(rows(fuseCurve('blade-c', 40)).at(-1)).toEqual([600, null, 0.15, 'seen']);
    expect(curve(fuseCurve('blade-c', 40)).hold.percent).toBe(100);
  });

  it('blade E (ISO 8820-3, data sheets)', () => {
    expect(rows(fuseCurve('blade-e', 60))).toEqual([
      [135, 60, 1800, 'seen'],
      [200, 2, 50, 'seen'],
      [350, 0.2, 7, 'seen'],
      [600, 0.04, 1, 'seen'],
    ]);
  });

  it('strips (ISO 8820-5) are from memory throughout', () => {
    for (const family of ['strip-30', 'strip-51'] as const) {
      expect(rows(fuseCurve(family, 100))).toEqual([
        [135, 120, 1800, 'memory'],
        [200, 1, 15, 'memory'],
        [350, 0.3, 5, 'memory'],
        [600, 0.1, 1, 'memory'],
      ]);
    }
  });

  it('cartridges (UL 248-14, seen) and class T (memory) end at 200 % and have no fast edge', () => {
    expect(rows(fuseCurve('cartridge', 20))).toEqual([
      [135, null, 3600, 'seen'],
      [200, null, 120, 'seen'],
    ]);
    expect(rows(fuseCurve('class-t', 150))).toEqual([
      [135, null, 7200, 'memory'],
      [200, null, 480, 'memory'],
    ]);
    expect(curve(fuseCurve('cartridge', 20)).hold).toEqual({ percent: 100, prov: 'seen' });
    const last = [30, 60, 100, 200, 400, 600].map((rating) => rows(fuseCurve('class-t', rating)).at(-1)?.[2]);
    expect(last).toEqual([120, 240, 360, 480, 600, 720]);
  });

  it('are not invented', () => {
    expect(fuseCurve('cube', 100)).toEqual({
      noFigure: "no opening times are published for cube fuses: read them on the maker's sheet",
    });
    expect(fuseCurve('bolt-down', 100)).toHaveProperty('noFigure');
    expect(fuseCurve('blade-f', 40)).toEqual({
      noFigure: 'the opening times of blade-f fuses are published for 2 to 30 A, not for 40 A',
    });
    expect(fuseCurve('blade-c', 32)).toEqual({
      noFigure: 'the opening times of blade-c fuses are published for 3 to 30 A, 35 to 40 A, not for 32 A',
    });
  });

  it('fall with current, fast edge never above slow edge', () => {
    const ratings: Readonly<Record<FuseFamily, number>> = {
      'blade-f': 10,
      'blade-c': 20,
      'blade-e': 40,
      'strip-30': 100,
      'strip-51': 200,
      'bolt-down': 100,
      cube: 100,
      cartridge: 20,
      'class-t': 200,
    };
    const found = [
      ...fuseFamilies.map((family) => fuseCurve(family, ratings[family])),
      breakerCurve('generic-thermal'),
    ];
    for (const one of found) {
      if ('noFigure' in one) continue;
      let slow = Number.POSITIVE_INFINITY;
      let fast = Number.POSITIVE_INFINITY;
      for (const { percent, min, max } of one.points) {
        expect(percent).toBeGreaterThan(one.hold.percent);
        if (max !== undefined) expect(max, one.source).toBeLessThan(slow);
        if (min !== undefined) expect(min, one.source).toBeLessThan(fast);
        if (min !== undefined && max !== undefined) expect(min).toBeLessThan(max);
        slow = max ?? slow;
        fast = min ?? fast;
      }
    }
  });
});

describe('breakers', () => {
  it('generic thermal curve (two application articles)', () => {
    expect(rows(breakerCurve('generic-thermal'))).toEqual([
      [135, null, 3600, 'seen'],
      [200, 4, 40, 'seen'],
      [400, 0.6, 5, 'seen'],
      [600, 0.3, 1.8, 'seen'],
      [1000, 0.12, 0.4, 'seen'],
    ]);
    expect(curve(breakerCurve('generic-thermal')).hold).toEqual({ percent: 100, prov: 'seen' });
  });
});

describe('voltage and breaking capacity', () => {
  it('of blades and strips are seen (scopes of ISO 8820-3 and 8820-5), the rest memory', () => {
    expect(
      fuseFamilies.map((family) => [family, number(fuseVoltage(family)), prov(fuseVoltage(family))]),
    ).toEqual([
      ['blade-f', 32, 'seen'],
      ['blade-c', 32, 'seen'],
      ['blade-e', 32, 'seen'],
      ['strip-30', 32, 'seen'],
      ['strip-51', 32, 'seen'],
      ['bolt-down', 32, 'memory'],
      ['cube', 58, 'memory'],
      ['cartridge', 32, 'memory'],
      ['class-t', 125, 'memory'],
    ]);
    expect([number(fuseInterrupting('blade-f', 14)), prov(fuseInterrupting('blade-f', 14))]).toEqual([
      1000,
      'seen',
    ]);
    expect([number(fuseInterrupting('strip-30', 14)), prov(fuseInterrupting('strip-30', 14))]).toEqual([
      2000,
      'seen',
    ]);
    expect([number(fuseInterrupting('class-t', 58)), prov(fuseInterrupting('class-t', 58))]).toEqual([
      20_000,
      'memory',
    ]);
    expect(prov(fuseInterrupting('bolt-down', 14))).toBe('memory');
  });

  it('of cube fuses falls with voltage', () => {
    expect([14, 14.6, 32, 58].map((volts) => number(fuseInterrupting('cube', volts)))).toEqual([
      10_000, 5000, 5000, 2000,
    ]);
    expect(prov(fuseInterrupting('cube', 60))).toBe('none');
  });

  it('are not stretched', () => {
    expect(prov(fuseInterrupting('cartridge', 12))).toBe('none');
    expect(prov(fuseInterrupting('blade-e', 48))).toBe('none');
    expect(prov(fuseInterrupting('blade-e', 12, 120))).toBe('none');
    expect(prov(fuseInterrupting('strip-51', 12, 20))).toBe('none');
    expect(number(fuseInterrupting('blade-e', 12, 60))).toBe(1000);
  });
});

describe('heat and resistance', () => {
  it('general factors have bands', () => {
    expect([breakerHeatFactor.value, breakerHeatFactor.band]).toEqual([0.8, [0.7, 0.9]]);
    expect([fuseHeatFactor.value, fuseHeatFactor.band, fuseHeatFactor.prov]).toEqual([
      0.8,
      [0.75, 0.85],
      'practice',
    ]);
  });

  it('blade E 40 A by data sheet: 40, 34, 30, 25, 22 A at 20, 65, 85, 110, 125 °C', () => {
    const amps = [0, 20, 65, 85, 110, 125].map(
      (celsius) => Number(number(bladeEHeatFactor(celsius, 40))) * 40,
    );
    expect(amps.map((a) => Math.round(a * 1e9) / 1e9)).toEqual([40, 40, 34, 30, 25, 22]);
    expect(number(bladeEHeatFactor(75, 40))).toBeCloseTo(32 / 40, 12);
    expect([prov(bladeEHeatFactor(65, 40)), prov(bladeEHeatFactor(65, 60))]).toEqual(['seen', 'computed']);
    expect(prov(bladeEHeatFactor(130, 40))).toBe('none');
  });

  it('panel-breaker table: 1, 0.92, 0.85, 0.69 at 40, 55, 60, 70 °C', () => {
    expect([20, 40, 55, 60, 70].map((celsius) => number(panelBreakerHeatFactor(celsius)))).toEqual([
      1, 1, 0.92, 0.85, 0.69,
    ]);
    expect(number(panelBreakerHeatFactor(65))).toBeCloseTo(0.77, 12);
    expect(number(panelBreakerHeatFactor(80))).toBe('the panel-breaker table ends at 70 °C, below 80 °C');
  });

  it('a fuse loses about a tenth of a volt at its rating', () => {
    expect(fuseDropAtRating.band).toEqual([0.075, 0.15]);
  });

  it('standard ratings rise and are common practice', () => {
    expect(standardRatings.prov).toBe('practice');
    expect(standardRatings.value).toHaveLength(23);
    expect(standardRatings.value.toSorted((a, b) => a - b)).toEqual(standardRatings.value);
  });
});
