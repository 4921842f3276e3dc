import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Dimension } from './dimension.ts';
import { formatBand, formatQuantity, writeQuantity } from './format.ts';
import type { FormatOptions } from './format.ts';
import { parseQuantity } from './parse.ts';
import { dimensions } from './units.ts';

const plain = (text: string) => text.replaceAll('\u00A0', ' ');

describe('printing', () => {
  it.each<[number, Dimension, FormatOptions, string]>([
    [13.2, 'voltage', {}, '13.20 V'],
    [-0.5, 'voltage', {}, '−0.50 V'],
    [-0.001, 'voltage', {}, '0.00 V'],
    [0.0482, 'voltage', { millivolts: true }, '48 mV'],
    [0.0482, 'voltage', {}, '0.05 V'],
    [54.52, 'current', {}, '54.5 A'],
    [48, 'current', {}, '48.0 A'],
    [48, 'current', { trim: true }, '48 A'],
    [0.066, 'current', {}, '66.0 mA'],
    [3e-13, 'current', {}, '0.0 A'],
    [0.25, 'current', {}, '0.250 A'],
    [0.25, 'current', { trim: true }, '0.25 A'],
    [999.7, 'current', {}, '1000 A'],
    [1636, 'current', {}, '1636 A'],
    [12_040, 'current', {}, '12.0 kA'],
    [0, 'current', {}, '0.0 A'],
    [631, 'power', {}, '631 W'],
    [12_345, 'power', {}, '12.3 kW'],
    [200, 'charge', { trim: true }, '200 Ah'],
    [12_000, 'charge', {}, '12000 Ah'],
    [0.01, 'resistance', {}, '10.00 mΩ'],
    [0.00998, 'resistance', {}, '9.98 mΩ'],
    [85, 'resistance', {}, '85.0 Ω'],
    [10_000, 'resistance', { trim: true }, '10 kΩ'],
    [10e6, 'resistance', { trim: true }, '10 MΩ'],
    [9000, 'let-through', {}, '9000 A²s'],
    [-12, 'temperature', {}, '−12 °C'],
    [38, 'temperature', { units: 'imperial' }, '100 °F'],
    [10, 'temperature-difference', {}, '10.0 K'],
    [-0.01, 'gradient', {}, '−10.0 mV/K'],
    [0.88, 'share', {}, '88 %'],
    [0.0337, 'share', {}, '3.4 %'],
    [1.25, 'factor', {}, '1.25'],
    [3.6, 'length', {}, '3.60 m'],
    [3.81, 'length', { units: 'imperial' }, '12 ft 6 in'],
    [3.6576, 'length', { units: 'imperial' }, '12 ft'],
    [0.12, 'length', { units: 'imperial' }, '4.7 in'],
    [0.3048, 'length', { units: 'imperial' }, '1 ft'],
    [25, 'area', {}, '25 mm²'],
    [21.1506, 'area', {}, '21.2 mm²'],
    [23, 'mass', {}, '23.0 kg'],
    [10, 'torque', {}, '10.0 N·m'],
    [10, 'torque', { units: 'imperial' }, '7.4 lb·ft'],
    [54.52, 'current', { decimals: 2 }, '54.52 A'],
  ])('%s %s %o', (value, dimension, options, expected) => {
    expect(plain(formatQuantity(value, dimension, options))).toBe(expected);
  });

  it('joins number and unit by a no-break space', () => {
    expect(formatQuantity(13.2, 'voltage')).toBe('13.20\u00A0V');
  });

  it.each<[number, FormatOptions, string]>([
    [0, {}, '0 s'],
    [0.1, {}, '100 ms'],
    [3.1, {}, '3.10 s'],
    [47, {}, '47 s'],
    [150, {}, '2 min 30 s'],
    [1620, {}, '27 min'],
    [9600, {}, '2 h 40 min'],
    [7200, {}, '2 h'],
    [86_400 * 17, {}, '17 days'],
    [86_400 * 17.9, { round: 'down' }, '17 days'],
    [9659, { round: 'down' }, '2 h 40 min'],
    [9601, { round: 'up' }, '2 h 41 min'],
    [Number.POSITIVE_INFINITY, {}, 'never'],
    [Number.NaN, {}, '\u2014'],
  ])('time %s %o', (seconds, options, expected) => {
    expect(plain(formatQuantity(seconds, 'time', options))).toBe(expected);
  });

  it.each<[readonly [number, number], Dimension, FormatOptions, string]>([
    [[16, 50], 'area', {}, '16 to 50 mm²'],
    [[0.003, 0.008], 'resistance', {}, '3.00 to 8.00 mΩ'],
    [[0.5, 2], 'resistance', {}, '500.00 mΩ to 2.00 Ω'],
    [[1620, 9000], 'time', {}, '27 min to 2 h 30 min'],
    [[-20, -5], 'temperature', {}, '−20 to −5 °C'],
    [[0.85, 0.9], 'share', {}, '85 to 90 %'],
    [[13.2, 13.2], 'voltage', {}, '13.20 V'],
  ])('band %o %s', (band, dimension, options, expected) => {
    expect(plain(formatBand(band, dimension, options))).toBe(expected);
  });
});

const MAGNITUDE = fc.double({ min: 1e-4, max: 5e4, noNaN: true });

describe('round trips', () => {
  it('what is printed is read again, within its printed figures', () => {
    fc.assert(
      fc.property(MAGNITUDE, fc.constantFrom(...dimensions), fc.boolean(), (value, dimension, imperial) => {
        const printed = formatQuantity(value, dimension, { units: imperial ? 'imperial' : 'metric' });
        const read = parseQuantity(printed, dimension);
        if (!read.ok) throw new Error(`${printed}: ${read.message}`);
        expect(Math.abs(read.value - value), printed).toBeLessThanOrEqual(
          tolerance(value, dimension, imperial),
        );
      }),
      { seed: 21, numRuns: 4000 },
    );
  });

  it('a printed band is read again', () => {
    fc.assert(
      fc.property(MAGNITUDE, MAGNITUDE, fc.constantFrom(...dimensions), (a, b, dimension) => {
        const printed = formatBand([Math.min(a, b), Math.max(a, b)], dimension);
        const read = parseQuantity(printed, dimension);
        expect(read.ok, printed).toBe(true);
      }),
      { seed: 22, numRuns: 1500 },
    );
  });

  it('what is written into a build is read again exactly', () => {
    const number = fc.double({ min: 1e-7, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(number, fc.constantFrom(...dimensions), (value, dimension) => {
        const written = writeQuantity(value, dimension);
        const read = parseQuantity(written, dimension);
        expect(read.ok ? read.value : read.message, written).toBe(value);
      }),
      { seed: 23, numRuns: 4000 },
    );
  });

  it.each<[number, Dimension, string]>([
    [0.005, 'resistance', '5 mΩ'],
    [0.00085, 'resistance', '850 µΩ'],
    [13.2, 'voltage', '13.2 V'],
    [-12, 'temperature', '-12 °C'],
    [0.88, 'share', '0.88'],
    [0, 'length', '0 m'],
  ])('%s %s is written %s', (value, dimension, expected) => {
    expect(writeQuantity(value, dimension)).toBe(expected);
  });
});

/** Half of the last printed place. */
function tolerance(value: number, dimension: Dimension, imperial: boolean): number {
  const threeFigures = value * 0.006;
  switch (dimension) {
    case 'voltage':
    case 'length':
      return imperial && dimension === 'length' ? 0.0128 : 0.00501;
    case 'resistance':
      return Math.max(0.00000501, threeFigures);
    case 'temperature':
      return 0.51;
    case 'share':
      return value < 0.0995 ? 0.00051 : 0.0051;
    case 'factor':
      return 0.00501;
    case 'gradient':
      return 0.0000501;
    case 'torque':
      return 0.07;
    case 'temperature-difference':
    case 'mass':
      return 0.0501;
    case 'time':
      return value < 10 ? 0.00501 : Math.max(0.51, value * 0.05);
    default:
      return Math.max(threeFigures, 1e-4);
  }
}
