/**
 * Factor for current-carrying conductors that lie together: note 2 of table 5, 33 CFR 183.425. The law asks for
 * it from 50 V up;
 * marine practice applies it to every circuit.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface BundlingRow {
  readonly from: number;
  readonly to: number | null;
  readonly factor: number;
  readonly prov: Prov;
}

export const bundlingTable: Table<BundlingRow> = {
  title: 'Bundling factors, 33 CFR 183.425 note 2',
  source: '33 CFR 183.425, table 5 note 2, as reprinted',
  rows: [
    { from: 1, to: 2, factor: 1, prov: 'seen' },
    { from: 3, to: 3, factor: 0.7, prov: 'seen' },
    { from: 4, to: 6, factor: 0.6, prov: 'seen' },
    { from: 7, to: 24, factor: 0.5, prov: 'seen' },
    { from: 25, to: null, factor: 0.4, prov: 'seen' },
  ],
};
