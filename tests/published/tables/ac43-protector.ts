/**
 * Breaker and fuse by aircraft wire size: FAA AC 43.13-1B CHG 1, table 11-3.
 */
import type { Prov } from '../../../packages/engine/src/reference/sourced.ts';
import type { Table } from '../../../packages/engine/src/reference/table.ts';

export interface Ac43ProtectorRow {
  readonly awg: string;
  readonly breakerA: number | null;
  readonly fuseA: number;
  readonly prov: Prov;
}

export const ac43ProtectorTable: Table<Ac43ProtectorRow> = {
  title: 'Aircraft circuit protector',
  source: 'FAA AC 43.13-1B CHG 1, table 11-3',
  rows: [
    { awg: '22', breakerA: 5, fuseA: 5, prov: 'seen' },
    { awg: '20', breakerA: 7.5, fuseA: 5, prov: 'seen' },
    { awg: '18', breakerA: 10, fuseA: 10, prov: 'seen' },
    { awg: '16', breakerA: 15, fuseA: 10, prov: 'seen' },
    { awg: '14', breakerA: 20, fuseA: 15, prov: 'seen' },
    { awg: '12', breakerA: 30, fuseA: 20, prov: 'seen' },
    { awg: '10', breakerA: 40, fuseA: 30, prov: 'seen' },
    { awg: '8', breakerA: 50, fuseA: 50, prov: 'seen' },
    { awg: '6', breakerA: 80, fuseA: 70, prov: 'seen' },
    { awg: '4', breakerA: 100, fuseA: 70, prov: 'seen' },
    { awg: '2', breakerA: 125, fuseA: 100, prov: 'seen' },
    { awg: '1', breakerA: null, fuseA: 150, prov: 'seen' },
    { awg: '1/0', breakerA: null, fuseA: 150, prov: 'seen' },
  ],
};
