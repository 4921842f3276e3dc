/**
 * Voltage and breaking capacity of fuse types, as published; a range or a list stays text. DC ratings from
 * memory may never be assumed to hold.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface FuseRatingsRow {
  readonly type: string;
  readonly standard: string;
  readonly volts: string;
  readonly amps: string;
  readonly breaks: string;
  readonly atVolts: string;
  readonly prov: Prov;
}

export const fuseRatingsTable: Table<FuseRatingsRow> = {
  title: 'Fuse voltage and breaking capacity',
  source: 'ISO 8820-3:2015, ISO 8820-5:2015, UL 248',
  rows: [
    { type: 'blade types C, E, F', standard: 'ISO 8820-3:2015', volts: '32 or 58', amps: 'up to 100', breaks: '1000', atVolts: 'rated', prov: 'seen' },
    { type: 'strip SF30 and SF51', standard: 'ISO 8820-5:2015', volts: '32', amps: '30 to 500', breaks: '2000', atVolts: 'rated', prov: 'seen' },
    { type: 'blade (first edition)', standard: 'ISO 8820-1:1994', volts: '32', amps: 'up to 30', breaks: '', atVolts: '', prov: 'seen' },
    { type: 'strip SF30 and SF51, higher-voltage versions', standard: 'ISO 8820-5', volts: '58 or 70', amps: 'up to 500', breaks: '2000', atVolts: 'rated', prov: 'memory' },
    { type: 'glass cartridge', standard: 'SAE J554', volts: '32', amps: 'up to 30', breaks: '', atVolts: '', prov: 'memory' },
    { type: 'class T', standard: 'UL 248-15', volts: '125 to 160', amps: '1 to 1200', breaks: '20000', atVolts: '125', prov: 'memory' },
    { type: 'UL 248 classes, preferred DC interrupting ratings', standard: 'UL 248-2 and 248-12', volts: 'as marked', amps: '', breaks: '10000;20000;50000;100000;150000;200000', atVolts: 'rated', prov: 'seen' },
    { type: 'flat bolt-down limiter (marine practice, 32 V)', standard: 'SAE J1171 ignition protection', volts: '32', amps: '35 to 750', breaks: '6000', atVolts: '32', prov: 'memory' },
    { type: 'post-mount cube fuse (marine practice)', standard: 'ISO 8820-6 style single bolt', volts: '58', amps: '30 to 300', breaks: '10000', atVolts: '14', prov: 'memory' },
  ],
};
