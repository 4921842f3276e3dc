/**
 * Opening times of breakers by percent of rating, s: a generic thermal breaker (two makers' application
 * articles), UL 489 and UL 1077,
 * and SAE J553 (memory, low confidence). `holds`: carries this current without opening.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface BreakerTimeRow {
  readonly standard: string;
  readonly type: string;
  readonly percent: number;
  readonly least: number | null;
  readonly greatest: number | null;
  readonly holds: boolean;
  readonly prov: Prov;
}

export const breakerTimeTable: Table<BreakerTimeRow> = {
  title: 'Breaker opening times',
  source: 'SAE J553; UL 489; UL 1077; application articles',
  rows: [
    { standard: 'SAE J553', type: 'all', percent: 100, least: 3600, greatest: null, holds: false, prov: 'memory' },
    { standard: 'SAE J553', type: 'all', percent: 135, least: null, greatest: 1800, holds: false, prov: 'memory' },
    { standard: 'SAE J553', type: 'all', percent: 200, least: 5, greatest: 60, holds: false, prov: 'memory' },
    { standard: 'UL 489', type: 'molded case', percent: 100, least: null, greatest: null, holds: true, prov: 'seen' },
    { standard: 'UL 489', type: 'molded case, 50 A and less', percent: 135, least: null, greatest: 3600, holds: false, prov: 'seen' },
    { standard: 'UL 489', type: 'molded case, 30 A and less', percent: 200, least: null, greatest: 120, holds: false, prov: 'seen' },
    { standard: 'UL 489', type: 'molded case, over 50 A', percent: 135, least: null, greatest: 7200, holds: false, prov: 'memory' },
    { standard: 'UL 489', type: 'molded case, 31 to 50 A', percent: 200, least: null, greatest: 240, holds: false, prov: 'memory' },
    { standard: 'UL 489', type: 'molded case, 51 to 100 A', percent: 200, least: null, greatest: 360, holds: false, prov: 'memory' },
    { standard: 'UL 489', type: 'molded case, 101 to 150 A', percent: 200, least: null, greatest: 480, holds: false, prov: 'memory' },
    { standard: 'UL 1077', type: 'supplementary', percent: 100, least: null, greatest: null, holds: true, prov: 'seen' },
    { standard: 'generic thermal', type: '12 and 24 V', percent: 100, least: null, greatest: null, holds: true, prov: 'seen' },
    { standard: 'generic thermal', type: '12 and 24 V', percent: 135, least: null, greatest: 3600, holds: false, prov: 'seen' },
    { standard: 'generic thermal', type: '12 and 24 V', percent: 200, least: 4, greatest: 40, holds: false, prov: 'seen' },
    { standard: 'generic thermal', type: '12 and 24 V', percent: 400, least: 0.6, greatest: 5, holds: false, prov: 'seen' },
    { standard: 'generic thermal', type: '12 and 24 V', percent: 600, least: 0.3, greatest: 1.8, holds: false, prov: 'seen' },
    { standard: 'generic thermal', type: '12 and 24 V', percent: 1000, least: 0.12, greatest: 0.4, holds: false, prov: 'seen' },
  ],
};
