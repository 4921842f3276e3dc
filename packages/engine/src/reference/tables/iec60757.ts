/**
 * Letter codes of colours, in the order of the standard: IEC 60757:1983.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface Iec60757Row {
  readonly order: number;
  readonly colour: string;
  readonly code: string;
  readonly prov: Prov;
}

export const iec60757Table: Table<Iec60757Row> = {
  title: 'Colour codes',
  source: 'IEC 60757:1983',
  rows: [
    { order: 1, colour: 'black', code: 'BK', prov: 'seen' },
    { order: 2, colour: 'brown', code: 'BN', prov: 'seen' },
    { order: 3, colour: 'red', code: 'RD', prov: 'seen' },
    { order: 4, colour: 'orange', code: 'OG', prov: 'seen' },
    { order: 5, colour: 'yellow', code: 'YE', prov: 'seen' },
    { order: 6, colour: 'green', code: 'GN', prov: 'seen' },
    { order: 7, colour: 'blue (including light blue)', code: 'BU', prov: 'seen' },
    { order: 8, colour: 'violet (purple)', code: 'VT', prov: 'seen' },
    { order: 9, colour: 'grey (slate)', code: 'GY', prov: 'seen' },
    { order: 10, colour: 'white', code: 'WH', prov: 'seen' },
    { order: 11, colour: 'pink', code: 'PK', prov: 'seen' },
    { order: 12, colour: 'gold', code: 'GD', prov: 'seen' },
    { order: 13, colour: 'turquoise', code: 'TQ', prov: 'seen' },
    { order: 14, colour: 'silver', code: 'SR', prov: 'seen' },
    { order: 15, colour: 'green-and-yellow', code: 'GNYE', prov: 'seen' },
  ],
};
