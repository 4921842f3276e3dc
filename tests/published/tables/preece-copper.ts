/**
 * Diameter of copper wire that melts at a steady current: handbook table after Preece, inches.
 */
import type { Prov } from '../../../packages/engine/src/reference/sourced.ts';
import type { Table } from '../../../packages/engine/src/reference/table.ts';

export interface PreeceRow {
  readonly amps: number;
  readonly inches: number;
  readonly prov: Prov;
}

export const preeceCopperTable: Table<PreeceRow> = {
  title: 'Preece fusing diameters',
  source: 'handbook table',
  rows: [
    { amps: 1, inches: 0.0021, prov: 'seen' },
    { amps: 2, inches: 0.0034, prov: 'seen' },
    { amps: 3, inches: 0.0044, prov: 'seen' },
    { amps: 4, inches: 0.0053, prov: 'seen' },
    { amps: 5, inches: 0.0062, prov: 'seen' },
    { amps: 10, inches: 0.0098, prov: 'seen' },
    { amps: 15, inches: 0.0129, prov: 'seen' },
    { amps: 20, inches: 0.0156, prov: 'seen' },
    { amps: 25, inches: 0.0181, prov: 'seen' },
    { amps: 30, inches: 0.0205, prov: 'seen' },
    { amps: 35, inches: 0.0227, prov: 'seen' },
    { amps: 40, inches: 0.0248, prov: 'seen' },
    { amps: 45, inches: 0.0268, prov: 'seen' },
    { amps: 50, inches: 0.0288, prov: 'seen' },
    { amps: 60, inches: 0.0325, prov: 'seen' },
    { amps: 70, inches: 0.036, prov: 'seen' },
    { amps: 80, inches: 0.0394, prov: 'seen' },
    { amps: 90, inches: 0.0426, prov: 'seen' },
    { amps: 100, inches: 0.0457, prov: 'seen' },
    { amps: 120, inches: 0.0516, prov: 'seen' },
    { amps: 140, inches: 0.0572, prov: 'seen' },
    { amps: 160, inches: 0.0625, prov: 'seen' },
    { amps: 180, inches: 0.0676, prov: 'seen' },
    { amps: 200, inches: 0.0725, prov: 'seen' },
    { amps: 225, inches: 0.0784, prov: 'seen' },
    { amps: 250, inches: 0.0841, prov: 'seen' },
    { amps: 275, inches: 0.0897, prov: 'seen' },
    { amps: 300, inches: 0.095, prov: 'seen' },
  ],
};
