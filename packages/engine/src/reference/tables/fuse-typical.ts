/**
 * Typical (not limiting) figures of blade fuses: cold resistance, drop at the rated current, melting I²t, and
 * the current usable at an
 * ambient temperature; data-sheet figures in a public design note.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface FuseTypicalRow {
  readonly family: string;
  readonly ratingA: number;
  readonly coldMilliohm: number | null;
  readonly dropMillivolt: number | null;
  readonly meltingA2s: number | null;
  readonly ambientC: number | null;
  readonly usableA: number | null;
  readonly prov: Prov;
}

export const fuseTypicalTable: Table<FuseTypicalRow> = {
  title: 'Fuses: typical figures',
  source: 'data-sheet figures in a public design note',
  rows: [
    { family: 'blade-c', ratingA: 40, coldMilliohm: 1.44, dropMillivolt: 96, meltingA2s: 3300, ambientC: null, usableA: null, prov: 'seen' },
    { family: 'blade-e', ratingA: 30, coldMilliohm: 1.9, dropMillivolt: null, meltingA2s: 4100, ambientC: null, usableA: null, prov: 'seen' },
    { family: 'blade-e', ratingA: 35, coldMilliohm: 1.7, dropMillivolt: null, meltingA2s: 6000, ambientC: null, usableA: null, prov: 'seen' },
    { family: 'blade-e', ratingA: 40, coldMilliohm: 1.4, dropMillivolt: 75, meltingA2s: 8500, ambientC: null, usableA: null, prov: 'seen' },
    { family: 'blade-e', ratingA: 40, coldMilliohm: null, dropMillivolt: null, meltingA2s: null, ambientC: 20, usableA: 40, prov: 'seen' },
    { family: 'blade-e', ratingA: 40, coldMilliohm: null, dropMillivolt: null, meltingA2s: null, ambientC: 65, usableA: 34, prov: 'seen' },
    { family: 'blade-e', ratingA: 40, coldMilliohm: null, dropMillivolt: null, meltingA2s: null, ambientC: 85, usableA: 30, prov: 'seen' },
    { family: 'blade-e', ratingA: 40, coldMilliohm: null, dropMillivolt: null, meltingA2s: null, ambientC: 110, usableA: 25, prov: 'seen' },
    { family: 'blade-e', ratingA: 40, coldMilliohm: null, dropMillivolt: null, meltingA2s: null, ambientC: 125, usableA: 22, prov: 'seen' },
  ],
};
