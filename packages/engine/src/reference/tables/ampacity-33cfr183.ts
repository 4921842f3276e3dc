/**
 * Continuous current of copper conductors by insulation temperature, A, up to two conductors, 30 °C, under 50
 * V: table 5 of
 * 33 CFR 183.425.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface Ampacity33cfrRow {
  readonly awg: string;
  readonly c60: number;
  readonly c75: number;
  readonly c80: number;
  readonly c90: number;
  readonly c105: number;
  readonly c125: number;
  readonly c200: number;
  readonly prov: Prov;
}

export const ampacity33cfrTable: Table<Ampacity33cfrRow> = {
  title: 'Ampacity, 33 CFR 183.425 table 5',
  source: '33 CFR 183.425, table 5',
  rows: [
    { awg: '18', c60: 10, c75: 10, c80: 15, c90: 20, c105: 20, c125: 25, c200: 25, prov: 'seen' },
    { awg: '16', c60: 15, c75: 15, c80: 20, c90: 25, c105: 25, c125: 30, c200: 35, prov: 'seen' },
    { awg: '14', c60: 20, c75: 20, c80: 25, c90: 30, c105: 35, c125: 40, c200: 45, prov: 'seen' },
    { awg: '12', c60: 25, c75: 25, c80: 35, c90: 40, c105: 45, c125: 50, c200: 55, prov: 'seen' },
    { awg: '10', c60: 40, c75: 40, c80: 50, c90: 55, c105: 60, c125: 70, c200: 70, prov: 'seen' },
    { awg: '8', c60: 55, c75: 65, c80: 70, c90: 70, c105: 80, c125: 90, c200: 100, prov: 'seen' },
    { awg: '6', c60: 80, c75: 95, c80: 100, c90: 100, c105: 120, c125: 125, c200: 135, prov: 'seen' },
    { awg: '4', c60: 105, c75: 125, c80: 130, c90: 135, c105: 160, c125: 170, c200: 180, prov: 'seen' },
    { awg: '3', c60: 120, c75: 145, c80: 150, c90: 155, c105: 180, c125: 195, c200: 210, prov: 'seen' },
    { awg: '2', c60: 140, c75: 170, c80: 175, c90: 180, c105: 210, c125: 225, c200: 240, prov: 'seen' },
    { awg: '1', c60: 165, c75: 195, c80: 210, c90: 210, c105: 245, c125: 265, c200: 280, prov: 'seen' },
    { awg: '1/0', c60: 195, c75: 230, c80: 245, c90: 245, c105: 285, c125: 305, c200: 325, prov: 'seen' },
    { awg: '2/0', c60: 225, c75: 265, c80: 285, c90: 285, c105: 330, c125: 355, c200: 370, prov: 'seen' },
    { awg: '3/0', c60: 260, c75: 310, c80: 330, c90: 330, c105: 385, c125: 410, c200: 430, prov: 'seen' },
    { awg: '4/0', c60: 300, c75: 360, c80: 385, c90: 385, c105: 445, c125: 475, c200: 510, prov: 'seen' },
  ],
};
