/**
 * American Wire Gauge 4/0 to 22: geometry by ASTM B258 (d = 0.127 mm x 92^((36 - n)/39)), resistance of
 * stranded copper from NEC
 * chapter 9 table 8 at 75 °C, referred to 20 °C by 254.5/309.5; sizes without an NEC row: solid x 1.02.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface AwgRow {
  readonly awg: string;
  readonly diameterMm: number;
  readonly areaMm2: number;
  readonly circularMils: number;
  readonly necCircularMils: number | null;
  readonly solidOhmPerKm20: number;
  readonly necOhmPerKft75: number | null;
  readonly necOhmPerKm75: number | null;
  readonly strandedOhmPerKm20: number;
  /** Of the NEC columns; null where NEC has no row. */
  readonly provNec: Prov | null;
  readonly prov: Prov;
}

export const awgTable: Table<AwgRow> = {
  title: 'AWG: area and resistance',
  source: 'ASTM B258; NEC chapter 9 table 8 (2011 and later)',
  rows: [
    { awg: '4/0', diameterMm: 11.684, areaMm2: 107.2193, circularMils: 211600, necCircularMils: 211600, solidOhmPerKm20: 0.1608, necOhmPerKft75: 0.0608, necOhmPerKm75: 0.1995, strandedOhmPerKm20: 0.164, provNec: 'seen', prov: 'computed' },
    { awg: '3/0', diameterMm: 10.4049, areaMm2: 85.0288, circularMils: 167806.4, necCircularMils: 167800, solidOhmPerKm20: 0.2028, necOhmPerKft75: 0.0766, necOhmPerKm75: 0.2513, strandedOhmPerKm20: 0.2067, provNec: 'seen', prov: 'computed' },
    { awg: '2/0', diameterMm: 9.2658, areaMm2: 67.4309, circularMils: 133076.5, necCircularMils: 133100, solidOhmPerKm20: 0.2557, necOhmPerKft75: 0.0967, necOhmPerKm75: 0.3173, strandedOhmPerKm20: 0.2609, provNec: 'seen', prov: 'computed' },
    { awg: '1/0', diameterMm: 8.2515, areaMm2: 53.4751, circularMils: 105534.5, necCircularMils: 105600, solidOhmPerKm20: 0.3224, necOhmPerKft75: 0.122, necOhmPerKm75: 0.4003, strandedOhmPerKm20: 0.3291, provNec: 'seen', prov: 'computed' },
    { awg: '1', diameterMm: 7.3481, areaMm2: 42.4077, circularMils: 83692.7, necCircularMils: 83690, solidOhmPerKm20: 0.4066, necOhmPerKft75: 0.154, necOhmPerKm75: 0.5052, strandedOhmPerKm20: 0.4155, provNec: 'seen', prov: 'computed' },
    { awg: '2', diameterMm: 6.5437, areaMm2: 33.6308, circularMils: 66371.3, necCircularMils: 66360, solidOhmPerKm20: 0.5127, necOhmPerKft75: 0.194, necOhmPerKm75: 0.6365, strandedOhmPerKm20: 0.5234, provNec: 'seen', prov: 'computed' },
    { awg: '3', diameterMm: 5.8273, areaMm2: 26.6705, circularMils: 52634.8, necCircularMils: 52620, solidOhmPerKm20: 0.6464, necOhmPerKft75: 0.245, necOhmPerKm75: 0.8038, strandedOhmPerKm20: 0.661, provNec: 'seen', prov: 'computed' },
    { awg: '4', diameterMm: 5.1894, areaMm2: 21.1506, circularMils: 41741.3, necCircularMils: 41740, solidOhmPerKm20: 0.8152, necOhmPerKft75: 0.308, necOhmPerKm75: 1.0105, strandedOhmPerKm20: 0.8309, provNec: 'seen', prov: 'computed' },
    { awg: '5', diameterMm: 4.6213, areaMm2: 16.7732, circularMils: 33102.4, necCircularMils: null, solidOhmPerKm20: 1.0279, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 1.0484, provNec: null, prov: 'computed' },
    { awg: '6', diameterMm: 4.1154, areaMm2: 13.3018, circularMils: 26251.4, necCircularMils: 26240, solidOhmPerKm20: 1.2961, necOhmPerKft75: 0.491, necOhmPerKm75: 1.6109, strandedOhmPerKm20: 1.3246, provNec: 'seen', prov: 'computed' },
    { awg: '7', diameterMm: 3.6649, areaMm2: 10.5488, circularMils: 20818.3, necCircularMils: null, solidOhmPerKm20: 1.6344, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 1.6671, provNec: null, prov: 'computed' },
    { awg: '8', diameterMm: 3.2636, areaMm2: 8.3656, circularMils: 16509.7, necCircularMils: 16510, solidOhmPerKm20: 2.0609, necOhmPerKft75: 0.778, necOhmPerKm75: 2.5525, strandedOhmPerKm20: 2.0989, provNec: 'seen', prov: 'computed' },
    { awg: '9', diameterMm: 2.9064, areaMm2: 6.6342, circularMils: 13092.7, necCircularMils: null, solidOhmPerKm20: 2.5988, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 2.6508, provNec: null, prov: 'computed' },
    { awg: '10', diameterMm: 2.5882, areaMm2: 5.2612, circularMils: 10383, necCircularMils: 10380, solidOhmPerKm20: 3.277, necOhmPerKft75: 1.24, necOhmPerKm75: 4.0682, strandedOhmPerKm20: 3.3453, provNec: 'seen', prov: 'computed' },
    { awg: '11', diameterMm: 2.3048, areaMm2: 4.1723, circularMils: 8234.1, necCircularMils: null, solidOhmPerKm20: 4.1323, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 4.2149, provNec: null, prov: 'computed' },
    { awg: '12', diameterMm: 2.0525, areaMm2: 3.3088, circularMils: 6529.9, necCircularMils: 6530, solidOhmPerKm20: 5.2107, necOhmPerKft75: 1.98, necOhmPerKm75: 6.4961, strandedOhmPerKm20: 5.3417, provNec: 'seen', prov: 'computed' },
    { awg: '13', diameterMm: 1.8278, areaMm2: 2.624, circularMils: 5178.5, necCircularMils: null, solidOhmPerKm20: 6.5706, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 6.702, provNec: null, prov: 'computed' },
    { awg: '14', diameterMm: 1.6277, areaMm2: 2.0809, circularMils: 4106.7, necCircularMils: 4110, solidOhmPerKm20: 8.2853, necOhmPerKft75: 3.14, necOhmPerKm75: 10.3018, strandedOhmPerKm20: 8.4711, provNec: 'seen', prov: 'computed' },
    { awg: '15', diameterMm: 1.4495, areaMm2: 1.6502, circularMils: 3256.8, necCircularMils: null, solidOhmPerKm20: 10.4476, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 10.6566, provNec: null, prov: 'computed' },
    { awg: '16', diameterMm: 1.2908, areaMm2: 1.3087, circularMils: 2582.7, necCircularMils: 2580, solidOhmPerKm20: 13.1742, necOhmPerKft75: 4.99, necOhmPerKm75: 16.3714, strandedOhmPerKm20: 13.4621, provNec: 'seen', prov: 'computed' },
    { awg: '17', diameterMm: 1.1495, areaMm2: 1.0378, circularMils: 2048.2, necCircularMils: null, solidOhmPerKm20: 16.6123, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 16.9446, provNec: null, prov: 'computed' },
    { awg: '18', diameterMm: 1.0237, areaMm2: 0.823, circularMils: 1624.3, necCircularMils: 1620, solidOhmPerKm20: 20.9478, necOhmPerKft75: 7.95, necOhmPerKm75: 26.0827, strandedOhmPerKm20: 21.4476, provNec: 'seen', prov: 'computed' },
    { awg: '19', diameterMm: 0.9116, areaMm2: 0.6527, circularMils: 1288.1, necCircularMils: null, solidOhmPerKm20: 26.4147, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 26.9429, provNec: null, prov: 'computed' },
    { awg: '20', diameterMm: 0.8118, areaMm2: 0.5176, circularMils: 1021.5, necCircularMils: null, solidOhmPerKm20: 33.3083, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 33.9744, provNec: null, prov: 'computed' },
    { awg: '21', diameterMm: 0.7229, areaMm2: 0.4105, circularMils: 810.1, necCircularMils: null, solidOhmPerKm20: 42.0009, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 42.841, provNec: null, prov: 'computed' },
    { awg: '22', diameterMm: 0.6438, areaMm2: 0.3255, circularMils: 642.4, necCircularMils: null, solidOhmPerKm20: 52.9622, necOhmPerKft75: null, necOhmPerKm75: null, strandedOhmPerKm20: 54.0215, provNec: null, prov: 'computed' },
  ],
};
