import { describe, expect, it } from 'vitest';
import { chemistries, restVoltage, restVoltagePoints } from './rest-voltage.ts';
import type { Chemistry } from './rest-voltage.ts';

const volts = (chemistry: Chemistry, charge: number) => {
  const figure = restVoltage(chemistry, charge);
  if ('noFigure' in figure) throw new Error(figure.noFigure);
  return figure.value;
};
const prov = (chemistry: Chemistry, charge: number) => {
  const figure = restVoltage(chemistry, charge);
  return 'noFigure' in figure ? 'none' : figure.prov;
};

// Safari and Delacourt 2011 electrode functions, four cells, percent:volts.
const LIFEPO4 =
  '0:10.269 2:11.440 5:12.286 10:12.789 15:12.932 20:13.007 25:13.074 30:13.134 40:13.209 50:13.236 60:13.254 70:13.296 80:13.352 90:13.381 95:13.435 98:13.634 100:14.079';

describe('rest voltage', () => {
  it('of flooded lead is that of the density table', () => {
    expect([1, 0.75, 0.5, 0.25, 0].map((charge) => volts('flooded', charge))).toEqual([
      12.65, 12.45, 12.24, 12.06, 11.89,
    ]);
    expect(prov('flooded', 0.6)).toBe('seen');
  });

  it('of AGM is that of a vehicle owner manual, its empty end from memory', () => {
    expect([1, 0.75, 0.5, 0.25, 0].map((charge) => volts('agm', charge))).toEqual([
      12.8, 12.6, 12.3, 12, 11.8,
    ]);
    expect([prov('agm', 0.5), prov('agm', 0.25), prov('agm', 0.2)]).toEqual(['seen', 'seen', 'memory']);
  });

  it('of gel is from memory', () => {
    expect(volts('gel', 0.5)).toBe(12.35);
    expect(prov('gel', 0.5)).toBe('memory');
  });

  it('of lithium iron phosphate is the equilibrium curve', () => {
    for (const pair of LIFEPO4.split(' ')) {
      const [percent = 0, expected = 0] = pair.split(':').map(Number);
      expect(volts('lifepo4', percent / 100), pair).toBeCloseTo(expected, 9);
    }
    expect(prov('lifepo4', 0.55)).toBe('computed');
    expect(Math.abs(volts('lifepo4', 0.2) - 13.007)).toBeLessThan(0.02);
    expect(Math.abs(volts('lifepo4', 0.8) - 13.352)).toBeLessThan(0.02);
  });

  it('of sodium-ion is a straight line from memory', () => {
    expect([0, 0.5, 1].map((charge) => volts('sodium-ion', charge))).toEqual([12, 13.5, 15]);
    expect(prov('sodium-ion', 0.5)).toBe('memory');
  });

  it('lies between its neighbours and never falls with charge', () => {
    expect(volts('flooded', 0.625)).toBeCloseTo((12.45 + 12.24) / 2, 12);
    for (const chemistry of chemistries) {
      let before = 0;
      for (let percent = 0; percent <= 100; percent++) {
        const now = volts(chemistry, percent / 100);
        expect(now, `${chemistry} ${percent}`).toBeGreaterThanOrEqual(before);
        before = now;
      }
      expect(restVoltagePoints(chemistry)[0]?.[0]).toBe(0);
      expect(restVoltagePoints(chemistry).at(-1)?.[0]).toBe(1);
    }
  });

  it('gives nothing outside 0 to 1', () => {
    expect(restVoltage('agm', 1.01)).toEqual({
      noFigure: 'a state of charge lies between 0 and 1, not at 1.01',
    });
    expect(restVoltage('agm', Number.NaN)).toHaveProperty('noFigure');
  });
});
