import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Dimension } from './dimension.ts';
import { parsePlate, parseThreshold } from './forms.ts';
import { parseQuantity, parseQuantityOf } from './parse.ts';
import type { QuantityOptions } from './parse.ts';
import { parseSize } from './size.ts';
import { baseUnit, dimensions, findUnit, spellingsOf } from './units.ts';

function value(text: string, dimension: Dimension, options?: QuantityOptions): number {
  const result = parseQuantity(text, dimension, options);
  if (!result.ok) throw new Error(result.message);
  return result.value;
}

function message(text: string, dimension: Dimension, options?: QuantityOptions): string {
  const result = parseQuantity(text, dimension, options);
  return result.ok ? `accepted as ${result.value}` : result.message;
}

describe('a quantity', () => {
  it.each<[string, Dimension, number]>([
    ['2.5 m', 'length', 2.5],
    ['12 cm', 'length', 0.12],
    ['25mm', 'length', 0.025],
    ['10 ft', 'length', 3.048],
    ['12 ft 6 in', 'length', 3.81],
    ['12\' 6"', 'length', 3.81],
    ['12′6″', 'length', 3.81],
    ['25 mm²', 'area', 25],
    ['25 sqmm', 'area', 25],
    ['13.2 V', 'voltage', 13.2],
    ['13,2 V', 'voltage', 13.2],
    ['0,125 V', 'voltage', 0.125],
    ['13.200 V', 'voltage', 13.2],
    ['350 mV', 'voltage', 0.35],
    ['30 A', 'current', 30],
    ['20 mA', 'current', 0.02],
    ['6 kA', 'current', 6000],
    ['1.5 kW', 'power', 1500],
    ['200 Ah', 'charge', 200],
    ['800 mAh', 'charge', 0.8],
    ['2.4 kWh', 'energy', 2400],
    ['5 mΩ', 'resistance', 0.005],
    ['5 m\u2126', 'resistance', 0.005],
    ['0.85 mohm', 'resistance', 0.00085],
    ['20 µΩ', 'resistance', 0.00002],
    ['20 \u03BCohm', 'resistance', 0.00002],
    ['10 kΩ', 'resistance', 10_000],
    ['10 MΩ', 'resistance', 10_000_000],
    ['9000 A²s', 'let-through', 9000],
    ['9000 A2s', 'let-through', 9000],
    ['-12 °C', 'temperature', -12],
    ['\u221212\u00A0°C', 'temperature', -12],
    ['–12 °C', 'temperature', -12],
    ['45 C', 'temperature', 45],
    ['32 °F', 'temperature', 0],
    ['212 °F', 'temperature', 100],
    ['10 K', 'temperature-difference', 10],
    ['-10 mV/K', 'gradient', -0.01],
    ['15 s', 'time', 15],
    ['200 ms', 'time', 0.2],
    ['3 min', 'time', 180],
    ['12 h', 'time', 43_200],
    ['60 days', 'time', 5_184_000],
    ['1 day', 'time', 86_400],
    ['2 h 40 min', 'time', 9600],
    ['5 min 30 s', 'time', 330],
    ['3 days 4 h', 'time', 273_600],
    ['88 %', 'share', 0.88],
    ['0.88', 'share', 0.88],
    ['110%', 'share', 1.1],
    ['6', 'factor', 6],
    ['x6', 'factor', 6],
    ['× 6', 'factor', 6],
    ['23 kg', 'mass', 23],
    ['500 g', 'mass', 0.5],
    ['10 N·m', 'torque', 10],
    ['10 Nm', 'torque', 10],
  ])('%s is read', (text, dimension, expected) => {
    expect(value(text, dimension)).toBeCloseTo(expected, 12);
  });

  // NIST SP 811 appendix B.8: 1 lbf·in = 0.112 984 8 N·m, 1 lbf·ft = 1.355 818 N·m, 1 lb = 0.453 592 37 kg.
  it.each<[string, Dimension, number]>([
    ['1 lb·in', 'torque', 0.1129848],
    ['1 lb-ft', 'torque', 1.355818],
    ['1 lb', 'mass', 0.45359237],
  ])('%s converts as NIST SP 811 says', (text, dimension, expected) => {
    expect(value(text, dimension)).toBeCloseTo(expected, 6);
  });

  it('moves the decimal point in the text, so that decimals stay exact', () => {
    expect(value('0.85 mΩ', 'resistance')).toBe(0.00085);
    expect(value('1.1 mΩ', 'resistance')).toBe(0.0011);
    expect(value('0.3 %', 'share')).toBe(0.003);
  });

  it('keeps what was typed', () => {
    expect(parseQuantity(' 13,2 V ', 'voltage')).toEqual({
      ok: true,
      dimension: 'voltage',
      value: 13.2,
      unit: 'V',
      text: '13,2 V',
    });
  });

  it('never gives minus zero', () => {
    expect(Object.is(value('-0 V', 'voltage'), 0)).toBe(true);
  });

  it.each(dimensions)('accepts every listed spelling of %s', (dimension) => {
    for (const spelling of spellingsOf(dimension)) {
      const unit = findUnit(dimension, spelling);
      const expected = 2 * 10 ** (unit?.exponent ?? 0) * (unit?.factor ?? 1) + (unit?.offset ?? 0);
      expect(value(`2 ${spelling}`, dimension), spelling).toBeCloseTo(expected, 9);
      expect(value(`2${spelling}`, dimension), spelling).toBeCloseTo(expected, 9);
    }
  });
});

describe('a band', () => {
  it('has the midpoint as its value', () => {
    expect(parseQuantity('3..8 mΩ', 'resistance')).toEqual({
      ok: true,
      dimension: 'resistance',
      value: 0.0055,
      band: [0.003, 0.008],
      unit: 'mΩ',
      text: '3..8 mΩ',
    });
  });

  it.each<[string, Dimension, readonly [number, number]]>([
    ['3 mΩ..8 mΩ', 'resistance', [0.003, 0.008]],
    ['3 mΩ .. 1 Ω', 'resistance', [0.003, 1]],
    ['3 to 8 mΩ', 'resistance', [0.003, 0.008]],
    ['13,2..13,4 V', 'voltage', [13.2, 13.4]],
    ['-20..5 °C', 'temperature', [-20, 5]],
    ['−20..−5 °C', 'temperature', [-20, -5]],
    ['0.85..0.9', 'share', [0.85, 0.9]],
    ['85..90 %', 'share', [0.85, 0.9]],
    ['5..5 A', 'current', [5, 5]],
    ['27 min to 2 h 30 min', 'time', [1620, 9000]],
  ])('%s', (text, dimension, band) => {
    const result = parseQuantity(text, dimension);
    expect(result.ok && result.band).toEqual(band);
  });

  it('may end in never, where that is asked for', () => {
    const slow = parseQuantity('never..14400 s', 'time', { never: true });
    expect(slow.ok && [slow.value, slow.band]).toEqual([14_400, [Number.POSITIVE_INFINITY, 14_400]]);
    const hold = parseQuantity('3600 s..never', 'time', { never: true });
    expect(hold.ok && [hold.value, hold.band]).toEqual([3600, [3600, Number.POSITIVE_INFINITY]]);
    expect(value('never', 'time', { never: true })).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('a refusal says what to write instead', () => {
  it.each<[string, Dimension, string]>([
    ['1,300 A', 'current', '"1,300 A" has two meanings: write 1.300 A or 1300 A'],
    ['-1,300 A', 'current', '"-1,300 A" has two meanings: write -1.300 A or -1300 A'],
    [
      '1.300,5 A',
      'current',
      '"1.300,5 A" has more than one decimal mark: write it without thousands marks, such as 1300.5',
    ],
    ['1 300 A', 'current', '"1 300 A": no space inside a number: write it such as 1300'],
    ["1'300 A", 'current', '"1\'300 A": no space inside a number: write it such as 1300'],
    ['25', 'length', '"25" is a length without a unit: write 25 m, 25 cm, 25 mm, 25 ft or 25 in'],
    ['13.2', 'voltage', '"13.2" is a voltage without a unit: write 13.2 V or 13.2 mV'],
    ['5', 'time', '"5" is a time without a unit: write 5 s, 5 min, 5 h or 5 days'],
    ['', 'voltage', 'nothing is written here: a voltage is expected, such as 13.2 V'],
    ['unknown', 'voltage', '"unknown" is not accepted here: a voltage is expected, such as 13.2 V'],
    ['5 A', 'voltage', '"5 A" is a current: a voltage is expected, such as 13.2 V'],
    ['5 Vt', 'voltage', '"5 Vt": "Vt" is not a unit of voltage (nearest: V): write 5 V or 5 mV'],
    ['200 A', 'charge', '"200 A": A is a current: write a capacity in Ah'],
    ['10 K', 'temperature', '"10 K": K is for differences: write a temperature in °C or °F'],
    ['10 °C', 'temperature-difference', '"10 °C": °C is for temperatures: write a difference in K'],
    ['5 m', 'time', '"5 m": m means metres: write min for minutes'],
    ['6 mm', 'area', '"6 mm": mm is a diameter or a length: write a copper cross-section in mm2'],
    ['-3 m', 'length', '"-3 m" is too small: at least 0 m is expected here'],
    ['-300 °C', 'temperature', '"-300 °C" is too small: at least -273.15 °C is expected here'],
    ['NaN V', 'voltage', '"NaN V" is no number that can be measured: a voltage is expected, such as 13.2 V'],
    ['.nan', 'voltage', '".nan" is no number that can be measured: a voltage is expected, such as 13.2 V'],
    [
      '-.inf V',
      'voltage',
      '"-.inf V" is no number that can be measured: a voltage is expected, such as 13.2 V',
    ],
    [
      'Infinity V',
      'voltage',
      '"Infinity V" is no number that can be measured: a voltage is expected, such as 13.2 V',
    ],
    ['1e400 A', 'current', '"1e400 A": write the number out, without an exponent'],
    ['1e3 A', 'current', '"1e3 A": write the number out, without an exponent'],
    ['0x10 A', 'current', '"0x10 A": write an ordinary decimal number'],
    ['0b11 A', 'current', '"0b11 A": write an ordinary decimal number'],
    ['1/2 m', 'length', '"1/2 m": write a fraction as a decimal number, such as 0.5'],
    ['8..3 mΩ', 'resistance', '"8..3 mΩ": the lower end of a band comes first: write 3..8 mΩ'],
    ['8 mΩ..3 mΩ', 'resistance', '"8 mΩ..3 mΩ": the lower end of a band comes first: write 3..8 mΩ'],
    ['3...8 mΩ', 'resistance', '"3...8 mΩ": a band is written with two points, such as 3..8 mΩ'],
    ['..8 mΩ', 'resistance', '"..8 mΩ": a band has two ends, such as 3..8 mΩ'],
    ['3-8 mΩ', 'resistance', '"3-8 mΩ": write a band as 3..8 mΩ'],
    ['3–8 mΩ', 'resistance', '"3–8 mΩ": write a band as 3..8 mΩ'],
    ['5 ± 1 A', 'current', '"5 ± 1 A": write both ends of the band, such as 3..8 A'],
    ['3..8', 'resistance', '"3..8" is a resistance without a unit: write 8 mΩ, 8 Ω or 8 kΩ'],
    ['never', 'time', '"never" is not accepted here: a time is expected, such as 15 s'],
    ['12 ft 6', 'length', '"12 ft 6": after ft comes in: write 12 ft 6 in'],
    ['12 ft 14 in', 'length', '"12 ft 14 in": the second number must be below 12'],
    ['1.5 h 20 min', 'time', '"1.5 h 20 min": the first number must be a whole number, not negative'],
    ['about 5 m', 'length', '"about 5 m" is not understood: a length is expected, such as 2.5 m'],
    ['m 5', 'length', '"m 5" is not understood: a length is expected, such as 2.5 m'],
  ])('%j as %s', (text, dimension, expected) => {
    expect(message(text, dimension)).toBe(expected);
  });

  it('names the range and the percent', () => {
    expect(message('88', 'share', { max: 1 })).toBe(
      '"88" is too large: at most 1 (100 %) is expected here; percent are written 88 %',
    );
    expect(message('400 V', 'voltage', { max: 60 })).toBe(
      '"400 V" is too large: at most 60 V is expected here',
    );
    expect(message('3..80 V', 'voltage', { max: 60 })).toBe(
      '"3..80 V" is too large: at most 60 V is expected here',
    );
  });

  it('refuses a band where one value is asked for', () => {
    expect(message('3..8 V', 'voltage', { band: false })).toBe(
      '"3..8 V" is a band: one value is expected here, such as 13.2 V',
    );
  });

  it('refuses absurdly long numbers', () => {
    expect(message(`${'9'.repeat(100)} A`, 'current')).toContain('has too many digits');
  });

  it('refuses texts of any length without labouring over them', () => {
    for (const piece of ['.', '1', '1.', ' ', '-', '1 to ', '5 V after ', 'x']) {
      const text = piece.repeat(1_000_000);
      for (const dimension of dimensions) expect(parseQuantity(text, dimension).ok).toBe(false);
      expect(parseSize(text).ok).toBe(false);
      expect(parsePlate(text).ok).toBe(false);
      expect(parseThreshold(text).ok).toBe(false);
    }
    expect(message(`5 V${' '.repeat(1000)}x`, 'voltage')).toContain('"V x" is not a unit of voltage');
    expect(message(`5 V ${'x'.repeat(1000)}`, 'voltage')).toContain('is too long: a voltage is expected');
  });

  it('refuses both ends never', () => {
    expect(message('never..never', 'time', { never: true })).toBe(
      '"never..never": one end of a band must be a time',
    );
  });
});

describe('one of several dimensions', () => {
  it('is told by the unit', () => {
    const ohms = parseQuantityOf('85 Ω', ['resistance', 'current']);
    const amps = parseQuantityOf('150 mA', ['resistance', 'current']);
    expect(ohms.ok && [ohms.dimension, ohms.value]).toEqual(['resistance', 85]);
    expect(amps.ok && [amps.dimension, amps.value]).toEqual(['current', 0.15]);
  });

  it('names all of them in its refusal', () => {
    expect(parseQuantityOf('85 V', ['resistance', 'current'])).toEqual({
      ok: false,
      message: '"85 V" is not understood: write a resistance such as 5 mΩ or a current such as 30 A',
    });
  });

  it('gives the reason of the dimension whose unit was used', () => {
    expect(parseQuantityOf('-85 Ω', ['current', 'resistance'])).toEqual({
      ok: false,
      message: '"-85 Ω" is too small: at least 0 Ω is expected here',
    });
  });
});

describe('no text does harm', () => {
  it('any string gives a value or a sentence, finite and in range', () => {
    fc.assert(
      fc.property(
        fc.string({ maxLength: 40, unit: 'binary' }),
        fc.constantFrom(...dimensions),
        (text, dimension) => {
          const result = parseQuantity(text, dimension);
          if (result.ok) expect(Number.isFinite(result.value)).toBe(true);
          else expect(result.message.length).toBeGreaterThan(10);
        },
      ),
      { seed: 11, numRuns: 3000 },
    );
  });

  it('texts made of the right characters too', () => {
    const character = fc.constantFrom(...Array.from('0123456789.,-+ xeEVAmΩk%°CKhs/..to'));
    fc.assert(
      fc.property(
        fc.array(character, { maxLength: 14 }).map((list) => list.join('')),
        fc.constantFrom(...dimensions),
        (text, dimension) => {
          const result = parseQuantity(text, dimension);
          if (!result.ok) return;
          expect(Number.isFinite(result.value)).toBe(true);
          if (result.band !== undefined) expect(result.band[0]).toBeLessThanOrEqual(result.band[1]);
        },
      ),
      { seed: 12, numRuns: 5000 },
    );
  });

  it('has a base unit for every dimension', () => {
    expect(dimensions.map((dimension) => baseUnit(dimension))).toEqual([
      'm',
      'mm²',
      'V',
      'A',
      'W',
      'Ah',
      'Wh',
      'Ω',
      'A²s',
      '°C',
      'K',
      'V/K',
      's',
      '',
      '',
      'kg',
      'N·m',
    ]);
  });
});
