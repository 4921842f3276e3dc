/**
 * Colour of blade fuses by rating; empty where a rating lies outside the colour code.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface FuseColourRow {
  readonly types: string;
  readonly ratingA: number;
  readonly colour: string;
  readonly prov: Prov;
}

export const fuseColoursTable: Table<FuseColourRow> = {
  title: 'Fuse colours',
  source: 'ISO 8820-3; SAE J1284, J2077, J1888',
  rows: [
    { types: 'C F', ratingA: 1, colour: 'black', prov: 'seen' },
    { types: 'C F', ratingA: 2, colour: 'grey', prov: 'seen' },
    { types: 'C F', ratingA: 3, colour: 'violet', prov: 'seen' },
    { types: 'C F', ratingA: 4, colour: 'pink', prov: 'memory' },
    { types: 'C F', ratingA: 5, colour: 'tan', prov: 'memory' },
    { types: 'C F', ratingA: 7.5, colour: 'brown', prov: 'memory' },
    { types: 'C F', ratingA: 10, colour: 'red', prov: 'seen' },
    { types: 'C F', ratingA: 15, colour: 'blue', prov: 'seen' },
    { types: 'C F', ratingA: 20, colour: 'yellow', prov: 'seen' },
    { types: 'C F', ratingA: 25, colour: 'natural (clear or white)', prov: 'memory' },
    { types: 'C F', ratingA: 30, colour: 'green', prov: 'seen' },
    { types: 'C F', ratingA: 35, colour: 'blue-green', prov: 'memory' },
    { types: 'C F', ratingA: 40, colour: 'orange (amber)', prov: 'memory' },
    { types: 'E', ratingA: 20, colour: 'yellow', prov: 'seen' },
    { types: 'E', ratingA: 30, colour: 'green', prov: 'seen' },
    { types: 'E', ratingA: 40, colour: 'orange', prov: 'seen' },
    { types: 'E', ratingA: 50, colour: 'red', prov: 'seen' },
    { types: 'E', ratingA: 60, colour: 'blue', prov: 'seen' },
    { types: 'E', ratingA: 70, colour: 'brown (tan)', prov: 'seen' },
    { types: 'E', ratingA: 80, colour: 'natural (clear)', prov: 'seen' },
    { types: 'E', ratingA: 100, colour: 'violet', prov: 'memory' },
    { types: 'E', ratingA: 25, colour: '', prov: 'memory' },
    { types: 'E', ratingA: 35, colour: '', prov: 'memory' },
  ],
};
