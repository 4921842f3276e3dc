/**
 * Factor for conductors in an engine space: ISO 13297 annex A, from memory. 60 °C insulation is not for engine
 * spaces (null).
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface EngineSpaceIsoRow {
  readonly insulationC: number;
  readonly factor: number | null;
  readonly prov: Prov;
}

export const engineSpaceIso13297Table: Table<EngineSpaceIsoRow> = {
  title: 'Engine-space factors, ISO 13297',
  source: 'ISO 10133:2012 / ISO 13297 annex A',
  rows: [
    { insulationC: 60, factor: null, prov: 'memory' },
    { insulationC: 70, factor: 0.75, prov: 'memory' },
    { insulationC: 85, factor: 0.82, prov: 'memory' },
    { insulationC: 105, factor: 0.86, prov: 'memory' },
    { insulationC: 125, factor: 0.89, prov: 'memory' },
    { insulationC: 200, factor: 1, prov: 'memory' },
  ],
};
