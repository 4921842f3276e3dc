import { describe, expect, it } from 'vitest';
import { parseSize } from '../quantity/index.ts';
import { ampacityTable33cfr } from './ampacity-33cfr.ts';
import { ampacityIec, type IecMethod } from './ampacity-iec.ts';
import { ampacityIso13297 } from './ampacity-iso.ts';
import type { AmpacityFigure } from './ampacity.ts';

const amps = (figure: AmpacityFigure) => ('noFigure' in figure ? figure.noFigure : figure.value);
const area = (text: string) => {
  const result = parseSize(text);
  if (!result.ok) throw new Error(result.message);
  return result.size.areaMm2;
};

/** "name: 1 2 3" per line. */
const cells = (block: string) =>
  block
    .trim()
    .split('\n')
    .map((line) => {
      const [name = '', values = ''] = line.trim().split(': ');
      return { name, values: values.split(' ').map(Number) };
    });

// 33 CFR 183.425, table 5, all cells; columns 60, 75, 80, 90, 105, 125, 200 °C.
const CFR = `
  18: 10 10 15 20 20 25 25
  16: 15 15 20 25 25 30 35
  14: 20 20 25 30 35 40 45
  12: 25 25 35 40 45 50 55
  10: 40 40 50 55 60 70 70
  8: 55 65 70 70 80 90 100
  6: 80 95 100 100 120 125 135
  4: 105 125 130 135 160 170 180
  3: 120 145 150 155 180 195 210
  2: 140 170 175 180 210 225 240
  1: 165 195 210 210 245 265 280
  1/0: 195 230 245 245 285 305 325
  2/0: 225 265 285 285 330 355 370
  3/0: 260 310 330 330 385 410 430
  4/0: 300 360 385 385 445 475 510
`;

// IEC 60364-5-52 table B.52 as reprinted in machine makers' instruction books, all cells; air 30, 40, 45, 50,
// 55 °C.
const IEC = `
  B2 70 1.5: 15 13 12 11 9
  B2 70 2.5: 20 17 16 14 12
  B2 70 4: 27 23 21 19 16
  B2 70 6: 34 30 27 24 21
  B2 70 10: 46 40 36 33 28
  B2 70 16: 62 54 49 44 38
  B2 70 25: 80 70 63 57 49
  B2 70 35: 99 86 78 70 60
  B2 70 50: 118 103 93 84 72
  B2 70 70: 149 130 118 106 91
  B2 70 95: 179 156 141 127 109
  B2 70 120: 206 179 163 146 126
  C 70 1.5: 17 15 14 12 11
  C 70 2.5: 24 21 19 17 15
  C 70 4: 32 28 25 23 20
  C 70 6: 41 36 32 29 25
  C 70 10: 57 50 45 40 35
  C 70 16: 76 66 60 54 46
  C 70 25: 96 84 76 68 59
  C 70 35: 119 104 94 84 73
  F 70 25: 110 96 87 78 67
  F 70 35: 137 119 108 97 84
  F 70 50: 167 145 132 119 102
  F 70 70: 216 188 171 153 132
  F 70 95: 264 230 209 187 161
  F 70 120: 308 268 243 219 188
  F 90 25: 135 123 117 110 103
  F 90 35: 169 154 147 139 128
  F 90 50: 207 188 180 170 157
  F 90 70: 268 244 233 220 204
  F 90 95: 328 298 285 269 249
  F 90 120: 383 349 333 314 291
`;

// ISO 13297 annex A, from memory, all cells; columns 60, 70, 85, 105, 125, 200 °C.
const ISO = `
  0.75: 6 10 12 16 20 25
  1: 8 14 18 20 25 35
  1.5: 12 18 21 25 30 40
  2.5: 17 25 30 35 40 45
  4: 22 35 40 45 50 55
  6: 29 45 50 60 70 75
  10: 40 65 70 90 100 120
  16: 54 90 100 130 150 170
  25: 71 120 140 170 185 200
  35: 87 160 185 210 225 240
  50: 105 210 230 270 300 325
  70: 135 265 285 330 360 375
  95: 165 310 330 390 410 430
  120: 190 360 400 450 480 520
  150: 220 380 430 475 520 560
`;

describe('33 CFR 183.425 table 5', () => {
  it('gives every cell', () => {
    const table = cells(CFR);
    expect(table.flatMap((row) => row.values)).toHaveLength(105);
    for (const { name, values } of table) {
      const read = [60, 75, 80, 90, 105, 125, 200].map((c) =>
        amps(ampacityTable33cfr(area(`${name} AWG`), c)),
      );
      expect(read, name).toEqual(values);
    }
  });

  it('takes the next smaller row and the next lower column', () => {
    expect(ampacityTable33cfr(25, 105)).toMatchObject({
      value: 160,
      prov: 'seen',
      row: { name: '4\u00A0AWG', areaMm2: 21.1506 },
      insulationC: 105,
      airC: 30,
    });
    expect(amps(ampacityTable33cfr(35, 105))).toBe(210);
    expect(amps(ampacityTable33cfr(25, 70))).toBe(105);
    expect(amps(ampacityTable33cfr(area('4 SAE'), 105))).toBe(120);
    expect(amps(ampacityTable33cfr(area('5 AWG'), 105))).toBe(120);
  });

  it('gives nothing beyond its ends', () => {
    expect(amps(ampacityTable33cfr(120, 105))).toBe(
      '120 mm² is above the largest size of the table, 107.2 mm²',
    );
    expect(amps(ampacityTable33cfr(0.75, 105))).toBe(
      '0.75 mm² is below the smallest size of the table, 0.823 mm²',
    );
    expect(amps(ampacityTable33cfr(25, 55))).toBe(
      '55 °C insulation is below the lowest column of the table, 60 °C',
    );
    expect(amps(ampacityTable33cfr(25, 250))).toBe(
      '250 °C insulation is above the highest column of the table, 200 °C',
    );
  });
});

describe('IEC 60364-5-52', () => {
  it('gives every cell', () => {
    const table = cells(IEC);
    expect(table).toHaveLength(32);
    for (const { name, values } of table) {
      const [method = '', insulation = '', size = ''] = name.split(' ');
      const read = [30, 40, 45, 50, 55].map((air) =>
        amps(ampacityIec(Number(size), Number(insulation), method as IecMethod, air)),
      );
      expect(read, name).toEqual(values);
    }
  });

  it('takes the next hotter air, the next lower insulation, the next smaller size', () => {
    expect(ampacityIec(25, 105, 'B2', 38)).toMatchObject({
      value: 70,
      insulationC: 70,
      airC: 40,
      prov: 'seen',
    });
    expect(ampacityIec(25, 105, 'F', 20)).toMatchObject({ value: 135, insulationC: 90, airC: 30 });
    expect(ampacityIec(area('4 AWG'), 70, 'C', 30)).toMatchObject({ value: 76, row: { areaMm2: 16 } });
  });

  it('stays in the 55 °C column in hotter air and says so', () => {
    expect(ampacityIec(50, 105, 'F', 80)).toMatchObject({ value: 157, airC: 55 });
  });

  it('gives nothing beyond its ends', () => {
    expect(amps(ampacityIec(16, 70, 'F', 30))).toBe('16 mm² is below the smallest size of the table, 25 mm²');
    expect(amps(ampacityIec(50, 70, 'C', 30))).toBe('50 mm² is above the largest size of the table, 35 mm²');
    expect(amps(ampacityIec(25, 60, 'B2', 30))).toBe(
      '60 °C insulation is below the lowest column of the table, 70 °C',
    );
    expect(amps(ampacityIec(25, 70, 'B2', Number.NaN))).toBe('the air temperature is not known');
  });
});

describe('ISO 13297', () => {
  it('gives every cell and calls every one memory', () => {
    for (const { name, values } of cells(ISO)) {
      const read = [60, 70, 85, 105, 125, 200].map((c) => ampacityIso13297(Number(name), c));
      expect(read.map(amps), name).toEqual(values);
      for (const figure of read) expect('noFigure' in figure || figure.prov).toBe('memory');
    }
  });

  it('serves 90 °C by the column of 85 to 90 °C and AWG by the next smaller size', () => {
    expect(amps(ampacityIso13297(25, 90))).toBe(140);
    expect(amps(ampacityIso13297(area('4 AWG'), 105))).toBe(130);
    expect(amps(ampacityIso13297(185, 105))).toBe('185 mm² is above the largest size of the table, 150 mm²');
  });
});
