import { describe, expect, it } from 'vitest';
import {
  adiabaticKAluminium,
  atTemperature,
  currentForTemperature,
  heatFraction,
  steadyTemperature,
  withstandSeconds,
} from './heat.ts';

describe('resistance at temperature', () => {
  it('agrees with the printed reading corrections of IEC 60228 annex B to the difference of their coefficients', () => {
    // IEC 60228 annex: factor 0.820 at 75 °C, 0.926 at 40 °C, 1.064 at 5 °C, with 0.004 per K.
    expect(1 / atTemperature(1, 75)).toBeCloseTo(0.82, 2);
    expect(1 / atTemperature(1, 40)).toBeCloseTo(0.926, 2);
    expect(1 / atTemperature(1, 5)).toBeCloseTo(1.064, 2);
  });

  it('gives NEC chapter 9 table 8 for 4 AWG at 75 °C from its 20 °C value', () => {
    // 0.308 ohm/kft = 1.0105 ohm/km at 75 °C; 0.8309 ohm/km at 20 °C by the 234.5 rule.
    expect(atTemperature(0.8309, 75)).toBeCloseTo(1.0105, 3);
  });
});

describe('steady temperature', () => {
  it('reaches the rating at the ampacity', () => {
    expect(steadyTemperature(50, 105, 68, 68)?.celsius).toBe(105);
  });

  it('of 8 AWG, 68 A in an engine space of 50 °C, is about 169 °C at 100 A and 267 °C at 135 A, the latter beyond the model', () => {
    const at100 = steadyTemperature(50, 105, 100, 68);
    const at135 = steadyTemperature(50, 105, 135, 68);
    expect(at100?.celsius).toBeCloseTo(168.9, 1);
    expect(at100?.beyondModel).toBe(false);
    expect(at135?.celsius).toBeCloseTo(266.8, 1);
    expect(at135?.beyondModel).toBe(true);
  });

  it('knows no rise without an ampacity', () => {
    expect(steadyTemperature(20, 70, 10, null)).toBeNull();
    expect(steadyTemperature(20, 70, 10, 0)).toBeNull();
  });

  it('does not mind the direction of the current', () => {
    expect(steadyTemperature(20, 70, -30, 60)).toEqual(steadyTemperature(20, 70, 30, 60));
  });

  it('is inverted by the current for a temperature', () => {
    const amps = currentForTemperature(50, 105, 68, 160);
    expect(steadyTemperature(50, 105, amps, 68)?.celsius).toBeCloseTo(160, 9);
    expect(currentForTemperature(50, 105, 68, 40)).toBe(0);
  });
});

describe('adiabatic limit', () => {
  it.each([
    // BS 7671 table 43.1, aluminium: 76 and 94.
    [70, 160, 76],
    [90, 250, 94],
  ])('k of aluminium from %d to %d °C is %d', (initial, final, printed) => {
    expect(Math.abs(adiabaticKAluminium(initial, final) - printed)).toBeLessThan(0.5);
  });

  it('12 kA for 0.02 s at k = 143 needs 11.9 mm² (published worked example)', () => {
    expect(withstandSeconds(143, 11.87, 12_000)).toBeCloseTo(0.02, 4);
  });

  it('2.5 mm² of PVC lasts 3.9 s at 145 A, 25 mm² 2.6 s at 1800 A, 11 s at 862 A', () => {
    expect(withstandSeconds(115, 2.5, 145)).toBeCloseTo(3.93, 2);
    expect(withstandSeconds(115, 25, 1800)).toBeCloseTo(2.55, 2);
    expect(withstandSeconds(115, 25, 862)).toBeCloseTo(11.1, 1);
  });

  it('heat is the share of the withstand', () => {
    expect(heatFraction(145 * 145 * 3.93, 115, 2.5)).toBeCloseTo(1, 2);
    expect(heatFraction(1, 115, 0)).toBe(Infinity);
  });
});
