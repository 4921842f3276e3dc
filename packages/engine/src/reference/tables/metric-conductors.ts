/**
 * Greatest resistance of metric copper conductors at 20 °C, Ω/km: IEC 60228 class 5 (flexible; plain and
 * tinned) and class 2, and
 * ISO 6722-1 / ISO 19642-3 (road-vehicle cable). The ISO column is from memory but for 0.5 and 1.5 mm².
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface MetricConductorRow {
  readonly areaMm2: number;
  readonly class5: number | null;
  readonly class5Tinned: number | null;
  readonly class2: number | null;
  readonly provIec: Prov | null;
  readonly iso: number;
  readonly provIso: Prov;
}

export const metricConductorsTable: Table<MetricConductorRow> = {
  title: 'Metric conductors: resistance',
  source: 'IEC 60228:2004 as reprinted; ISO 6722-1 / ISO 19642-3',
  rows: [
    { areaMm2: 0.35, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 54.4, provIso: 'memory' },
    { areaMm2: 0.5, class5: 39, class5Tinned: 40.1, class2: 36, provIec: 'seen', iso: 37.1, provIso: 'seen' },
    { areaMm2: 0.75, class5: 26, class5Tinned: 26.7, class2: 24.5, provIec: 'seen', iso: 24.7, provIso: 'memory' },
    { areaMm2: 1, class5: 19.5, class5Tinned: 20, class2: 18.1, provIec: 'seen', iso: 18.5, provIso: 'memory' },
    { areaMm2: 1.25, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 14.9, provIso: 'memory' },
    { areaMm2: 1.5, class5: 13.3, class5Tinned: 13.7, class2: 12.1, provIec: 'seen', iso: 12.7, provIso: 'seen' },
    { areaMm2: 2, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 9.42, provIso: 'memory' },
    { areaMm2: 2.5, class5: 7.98, class5Tinned: 8.21, class2: 7.41, provIec: 'seen', iso: 7.6, provIso: 'memory' },
    { areaMm2: 3, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 6.15, provIso: 'memory' },
    { areaMm2: 4, class5: 4.95, class5Tinned: 5.09, class2: 4.61, provIec: 'seen', iso: 4.71, provIso: 'memory' },
    { areaMm2: 5, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 3.94, provIso: 'memory' },
    { areaMm2: 6, class5: 3.3, class5Tinned: 3.39, class2: 3.08, provIec: 'seen', iso: 3.14, provIso: 'memory' },
    { areaMm2: 8, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 2.38, provIso: 'memory' },
    { areaMm2: 10, class5: 1.91, class5Tinned: 1.95, class2: 1.83, provIec: 'seen', iso: 1.82, provIso: 'memory' },
    { areaMm2: 12, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 1.52, provIso: 'memory' },
    { areaMm2: 16, class5: 1.21, class5Tinned: 1.24, class2: 1.15, provIec: 'seen', iso: 1.16, provIso: 'memory' },
    { areaMm2: 20, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 0.955, provIso: 'memory' },
    { areaMm2: 25, class5: 0.78, class5Tinned: 0.795, class2: 0.727, provIec: 'seen', iso: 0.743, provIso: 'memory' },
    { areaMm2: 30, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 0.647, provIso: 'memory' },
    { areaMm2: 35, class5: 0.554, class5Tinned: 0.565, class2: 0.524, provIec: 'seen', iso: 0.527, provIso: 'memory' },
    { areaMm2: 40, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 0.473, provIso: 'memory' },
    { areaMm2: 50, class5: 0.386, class5Tinned: 0.393, class2: 0.387, provIec: 'seen', iso: 0.368, provIso: 'memory' },
    { areaMm2: 60, class5: null, class5Tinned: null, class2: null, provIec: null, iso: 0.315, provIso: 'memory' },
    { areaMm2: 70, class5: 0.272, class5Tinned: 0.277, class2: 0.268, provIec: 'seen', iso: 0.259, provIso: 'memory' },
    { areaMm2: 95, class5: 0.206, class5Tinned: 0.21, class2: 0.193, provIec: 'seen', iso: 0.196, provIso: 'memory' },
    { areaMm2: 120, class5: 0.161, class5Tinned: 0.164, class2: 0.153, provIec: 'seen', iso: 0.153, provIso: 'memory' },
  ],
};
