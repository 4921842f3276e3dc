import { describe, expect, it } from 'vitest';
import { ambientFactor, bundleFactor, engineSpaceFactor, insulatedWallFactor } from './factors.ts';
import type { Figure } from './sourced.ts';

const number = (figure: Figure) => ('noFigure' in figure ? figure.noFigure : figure.value);

describe('factors on ampacity', () => {
  it('bundle: note 2 of 33 CFR 183.425', () => {
    const counts = [0, 1, 2, 3, 4, 5, 6, 7, 24, 25, 300];
    expect(counts.map((count) => bundleFactor(count).value)).toEqual([
      1, 1, 1, 0.7, 0.6, 0.6, 0.6, 0.5, 0.5, 0.4, 0.4,
    ]);
    expect(bundleFactor(5).prov).toBe('seen');
  });

  it('engine space: note 1 of 33 CFR 183.425; only the 105 °C figure was read', () => {
    const columns = [60, 75, 80, 90, 105, 125, 200];
    expect(columns.map((c) => number(engineSpaceFactor(c)))).toEqual([0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1]);
    const provs = columns.map((c) => {
      const figure = engineSpaceFactor(c);
      return 'noFigure' in figure ? '' : figure.prov;
    });
    expect(provs).toEqual(['memory', 'memory', 'memory', 'memory', 'seen', 'memory', 'memory']);
    expect(number(engineSpaceFactor(70))).toBe(0.58);
    expect(number(engineSpaceFactor(50))).toBe(
      '50 °C insulation is below the lowest column of the table, 60 °C',
    );
  });

  it('engine space: ISO 13297, from memory', () => {
    expect(number(engineSpaceFactor(105, 'iso13297'))).toBe(0.86);
    expect(number(engineSpaceFactor(90, 'iso13297'))).toBe(0.82);
    expect(number(engineSpaceFactor(60, 'iso13297'))).toBe('60 °C insulation is not for engine spaces');
  });

  it('ambient: sqrt((Tins - Tair)/(Tins - 30))', () => {
    expect(number(ambientFactor(105, 80))).toBeCloseTo(Math.sqrt(25 / 75), 12);
    expect(number(ambientFactor(105, 30))).toBe(1);
    expect(number(ambientFactor(75, 45))).toBeCloseTo(0.816, 3);
    expect(number(ambientFactor(105, 80, 55))).toBeCloseTo(Math.sqrt(25 / 50), 12);
    expect(number(ambientFactor(70, 70))).toBe('the air (70 °C) is as hot as the insulation allows (70 °C)');
    expect(number(ambientFactor(70, Number.NaN))).toContain('as hot as');
    expect(number(ambientFactor(30, 20))).toBe('insulation of 30 °C has no ampacity at 30 °C');
  });

  it('heat-insulated wall: 0.89 at 50 mm, 0.55 at 400 mm, 0.5 from 500 mm on', () => {
    expect([0, 0.049, 0.05, 0.4, 0.5, 3].map((metres) => insulatedWallFactor(metres).value)).toEqual([
      1, 1, 0.89, 0.55, 0.5, 0.5,
    ]);
    expect([
      insulatedWallFactor(0.05).prov,
      insulatedWallFactor(0.4).prov,
      insulatedWallFactor(3).prov,
      insulatedWallFactor(0.15).prov,
      insulatedWallFactor(0.45).prov,
    ]).toEqual(['seen', 'seen', 'seen', 'memory', 'computed']);
    let before = 1;
    for (let mm = 0; mm < 700; mm += 5) {
      const now = insulatedWallFactor(mm / 1000).value;
      expect(now).toBeLessThanOrEqual(before);
      before = now;
    }
  });
});
