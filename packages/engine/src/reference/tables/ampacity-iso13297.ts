/**
 * Current of single copper conductors in air at 30 °C, A, by insulation temperature: ISO 13297 (formerly ISO
 * 10133:2012) annex A.
 * NOT read: every cell is from memory.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface AmpacityIso13297Row {
  readonly areaMm2: number;
  readonly c60: number;
  readonly c70: number;
  /** 85 °C to 90 °C. */
  readonly c85: number;
  readonly c105: number;
  readonly c125: number;
  readonly c200: number;
  readonly prov: Prov;
}

export const ampacityIso13297Table: Table<AmpacityIso13297Row> = {
  title: 'Ampacity, ISO 13297',
  source: 'ISO 10133:2012 / ISO 13297 annex A',
  rows: [
    { areaMm2: 0.75, c60: 6, c70: 10, c85: 12, c105: 16, c125: 20, c200: 25, prov: 'memory' },
    { areaMm2: 1, c60: 8, c70: 14, c85: 18, c105: 20, c125: 25, c200: 35, prov: 'memory' },
    { areaMm2: 1.5, c60: 12, c70: 18, c85: 21, c105: 25, c125: 30, c200: 40, prov: 'memory' },
    { areaMm2: 2.5, c60: 17, c70: 25, c85: 30, c105: 35, c125: 40, c200: 45, prov: 'memory' },
    { areaMm2: 4, c60: 22, c70: 35, c85: 40, c105: 45, c125: 50, c200: 55, prov: 'memory' },
    { areaMm2: 6, c60: 29, c70: 45, c85: 50, c105: 60, c125: 70, c200: 75, prov: 'memory' },
    { areaMm2: 10, c60: 40, c70: 65, c85: 70, c105: 90, c125: 100, c200: 120, prov: 'memory' },
    { areaMm2: 16, c60: 54, c70: 90, c85: 100, c105: 130, c125: 150, c200: 170, prov: 'memory' },
    { areaMm2: 25, c60: 71, c70: 120, c85: 140, c105: 170, c125: 185, c200: 200, prov: 'memory' },
    { areaMm2: 35, c60: 87, c70: 160, c85: 185, c105: 210, c125: 225, c200: 240, prov: 'memory' },
    { areaMm2: 50, c60: 105, c70: 210, c85: 230, c105: 270, c125: 300, c200: 325, prov: 'memory' },
    { areaMm2: 70, c60: 135, c70: 265, c85: 285, c105: 330, c125: 360, c200: 375, prov: 'memory' },
    { areaMm2: 95, c60: 165, c70: 310, c85: 330, c105: 390, c125: 410, c200: 430, prov: 'memory' },
    { areaMm2: 120, c60: 190, c70: 360, c85: 400, c105: 450, c125: 480, c200: 520, prov: 'memory' },
    { areaMm2: 150, c60: 220, c70: 380, c85: 430, c105: 475, c125: 520, c200: 560, prov: 'memory' },
  ],
};
