/**
 * Rest voltage of 12 V batteries by state of charge, V. Lead: the common density table (flooded), the lower
 * edges of the bands of a
 * vehicle owner manual (AGM), memory (gel). LiFePO4: four cells by the electrode functions of Safari and
 * Delacourt, J. Electrochem.
 * Soc. 158 (2011), electrode windows x = 0.0085 + 0.7715 s (Schimpe et al. 2018) and y = 0.95 - 0.92 s
 * (assumed); hysteresis of
 * some 10 to 20 mV per cell is not included.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface RestVoltageRow {
  readonly chemistry: string;
  readonly percent: number;
  readonly volts: number;
  readonly density: number | null;
  readonly prov: Prov;
}

export const restVoltageTable: Table<RestVoltageRow> = {
  title: 'Rest voltage by state of charge',
  source: 'density table of handbooks; vehicle owner manual; Safari and Delacourt 2011',
  rows: [
    { chemistry: 'flooded', percent: 100, volts: 12.65, density: 1.265, prov: 'seen' },
    { chemistry: 'flooded', percent: 75, volts: 12.45, density: 1.225, prov: 'seen' },
    { chemistry: 'flooded', percent: 50, volts: 12.24, density: 1.19, prov: 'seen' },
    { chemistry: 'flooded', percent: 25, volts: 12.06, density: 1.155, prov: 'seen' },
    { chemistry: 'flooded', percent: 0, volts: 11.89, density: 1.12, prov: 'seen' },
    { chemistry: 'agm', percent: 100, volts: 12.8, density: null, prov: 'seen' },
    { chemistry: 'agm', percent: 75, volts: 12.6, density: null, prov: 'seen' },
    { chemistry: 'agm', percent: 50, volts: 12.3, density: null, prov: 'seen' },
    { chemistry: 'agm', percent: 25, volts: 12, density: null, prov: 'seen' },
    { chemistry: 'agm', percent: 0, volts: 11.8, density: null, prov: 'memory' },
    { chemistry: 'gel', percent: 100, volts: 12.85, density: null, prov: 'memory' },
    { chemistry: 'gel', percent: 75, volts: 12.65, density: null, prov: 'memory' },
    { chemistry: 'gel', percent: 50, volts: 12.35, density: null, prov: 'memory' },
    { chemistry: 'gel', percent: 25, volts: 12, density: null, prov: 'memory' },
    { chemistry: 'gel', percent: 0, volts: 11.8, density: null, prov: 'memory' },
    { chemistry: 'lifepo4', percent: 0, volts: 10.269, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 2, volts: 11.44, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 5, volts: 12.286, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 10, volts: 12.789, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 15, volts: 12.932, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 20, volts: 13.007, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 25, volts: 13.074, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 30, volts: 13.134, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 40, volts: 13.209, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 50, volts: 13.236, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 60, volts: 13.254, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 70, volts: 13.296, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 80, volts: 13.352, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 90, volts: 13.381, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 95, volts: 13.435, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 98, volts: 13.634, density: null, prov: 'computed' },
    { chemistry: 'lifepo4', percent: 100, volts: 14.079, density: null, prov: 'computed' },
  ],
};
