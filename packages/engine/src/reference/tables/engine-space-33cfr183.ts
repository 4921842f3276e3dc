/**
 * Factor for conductors in an engine space (50 °C): note 1 of table 5, 33 CFR 183.425. Only the 105 °C factor
 * was read; the others
 * are from memory and, but for 200 °C, agree with sqrt((T - 50)/(T - 30)).
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface EngineSpaceRow {
  readonly insulationC: number;
  readonly factor: number;
  readonly prov: Prov;
}

export const engineSpace33cfrTable: Table<EngineSpaceRow> = {
  title: 'Engine-space factors, 33 CFR 183.425 note 1',
  source: '33 CFR 183.425, table 5 note 1',
  rows: [
    { insulationC: 60, factor: 0.58, prov: 'memory' },
    { insulationC: 75, factor: 0.75, prov: 'memory' },
    { insulationC: 80, factor: 0.78, prov: 'memory' },
    { insulationC: 90, factor: 0.82, prov: 'memory' },
    { insulationC: 105, factor: 0.85, prov: 'seen' },
    { insulationC: 125, factor: 0.89, prov: 'memory' },
    { insulationC: 200, factor: 1, prov: 'memory' },
  ],
};
