/**
 * Low-voltage wiring of recreational vehicles: NEC article 552, part 10 (formerly 551.10). The cells of table
 * 552.10(E)(1) are from memory.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface Nec552Row {
  readonly item: string;
  readonly sizes: string;
  readonly value: string;
  readonly unit: string;
  readonly clause: string;
  readonly prov: Prov;
}

export const nec552Table: Table<Nec552Row> = {
  title: 'Low-voltage wiring of recreational vehicles',
  source: 'NEC 552.10',
  rows: [
    { item: 'max overcurrent rating', sizes: '18', value: '6', unit: 'A', clause: 'Table 552.10(E)(1) (same table formerly 551.10(E)(1))', prov: 'memory' },
    { item: 'max overcurrent rating', sizes: '16', value: '8', unit: 'A', clause: 'as above', prov: 'memory' },
    { item: 'max overcurrent rating', sizes: '14', value: '15', unit: 'A', clause: 'as above', prov: 'memory' },
    { item: 'max overcurrent rating', sizes: '12', value: '20', unit: 'A', clause: 'as above', prov: 'memory' },
    { item: 'max overcurrent rating', sizes: '10', value: '30', unit: 'A', clause: 'as above', prov: 'memory' },
    { item: 'distance of the overcurrent device from the supply connection', sizes: '', value: '457', unit: 'mm', clause: '552.10(E)(4)', prov: 'seen' },
    { item: 'overcurrent rating limit for other conductors', sizes: '', value: 'conductor ampacity', unit: '', clause: '552.10(E)(1)', prov: 'seen' },
    { item: 'conductor types', sizes: '', value: 'GXL HDT SGT SGR SXL, or building-wire insulation', unit: '', clause: '552.10(B)(2)', prov: 'seen' },
    { item: 'conductor sizes that must be listed', sizes: '18 to 6', value: '', unit: '', clause: '552.10(B)(2)', prov: 'seen' },
    { item: 'battery to chassis bonding conductor minimum', sizes: '8', value: '', unit: '', clause: '552.10(C)(4)', prov: 'seen' },
    { item: 'battery compartment vent area, top and bottom, each', sizes: '', value: '1100', unit: 'mm2', clause: '552.10(D)', prov: 'seen' },
    { item: 'marking interval of conductors', sizes: '', value: '1.2', unit: 'm', clause: '552.10(B)(3)', prov: 'seen' },
    { item: 'scope of article 551 since the 2008 code', sizes: '', value: 'excludes low-voltage and automotive circuits', unit: '', clause: '551.1', prov: 'seen' },
  ],
};
