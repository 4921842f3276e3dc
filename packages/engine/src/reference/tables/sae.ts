/**
 * SAE wire sizes: circular mils as printed in general tables (seen), the area from them, and the metric minimum
 * of J1128 (memory).
 * SAE copper lies 3 to 12 % below AWG of the same number.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface SaeRow {
  readonly sae: string;
  readonly circularMils: number | null;
  readonly areaMm2: number | null;
  /** From memory in every row. */
  readonly leastAreaMm2: number | null;
  /** Of the circular mils; 20 SAE has the minimum area only, from memory. */
  readonly prov: Prov;
}

export const saeTable: Table<SaeRow> = {
  title: 'SAE sizes',
  source: 'SAE J1127 / J1128',
  rows: [
    { sae: '20', circularMils: null, areaMm2: null, leastAreaMm2: 0.508, prov: 'memory' },
    { sae: '18', circularMils: 1537, areaMm2: 0.779, leastAreaMm2: 0.76, prov: 'seen' },
    { sae: '16', circularMils: 2336, areaMm2: 1.184, leastAreaMm2: 1.12, prov: 'seen' },
    { sae: '14', circularMils: 3702, areaMm2: 1.876, leastAreaMm2: 1.85, prov: 'seen' },
    { sae: '12', circularMils: 5833, areaMm2: 2.956, leastAreaMm2: 2.91, prov: 'seen' },
    { sae: '10', circularMils: 9343, areaMm2: 4.734, leastAreaMm2: 4.65, prov: 'seen' },
    { sae: '8', circularMils: 14810, areaMm2: 7.504, leastAreaMm2: 7.23, prov: 'seen' },
    { sae: '6', circularMils: 24538, areaMm2: 12.434, leastAreaMm2: 12.1, prov: 'seen' },
    { sae: '4', circularMils: 37360, areaMm2: 18.931, leastAreaMm2: 18.3, prov: 'seen' },
    { sae: '2', circularMils: 62450, areaMm2: 31.644, leastAreaMm2: null, prov: 'seen' },
    { sae: '1', circularMils: 77790, areaMm2: 39.417, leastAreaMm2: null, prov: 'seen' },
    { sae: '1/0', circularMils: 98980, areaMm2: 50.154, leastAreaMm2: null, prov: 'seen' },
    { sae: '2/0', circularMils: 125100, areaMm2: 63.389, leastAreaMm2: null, prov: 'seen' },
    { sae: '3/0', circularMils: 158600, areaMm2: 80.364, leastAreaMm2: null, prov: 'seen' },
    { sae: '4/0', circularMils: 205500, areaMm2: 104.128, leastAreaMm2: null, prov: 'seen' },
  ],
};
