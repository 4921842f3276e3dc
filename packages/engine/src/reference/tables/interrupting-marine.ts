/**
 * Interrupting rating asked of breakers by the total cold cranking current of the connected batteries, A: ABYC
 * E-11 as reproduced on an
 * industry page. Says nothing of lithium batteries, whose fault current is not tied to cranking amperes.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface InterruptingRow {
  readonly fromVolts: number;
  readonly toVolts: number;
  readonly fromCca: number;
  readonly toCca: number | null;
  readonly mainA: number;
  readonly branchA: number;
  readonly prov: Prov;
}

export const interruptingMarineTable: Table<InterruptingRow> = {
  title: 'Breaker interrupting rating by cranking current',
  source: 'ABYC E-11, as reproduced',
  rows: [
    { fromVolts: 12, toVolts: 24, fromCca: 0, toCca: 650, mainA: 1500, branchA: 750, prov: 'seen' },
    { fromVolts: 12, toVolts: 24, fromCca: 651, toCca: 1100, mainA: 3000, branchA: 1500, prov: 'seen' },
    { fromVolts: 12, toVolts: 24, fromCca: 1101, toCca: null, mainA: 5000, branchA: 2500, prov: 'seen' },
    { fromVolts: 32, toVolts: 32, fromCca: 0, toCca: 1250, mainA: 3000, branchA: 1500, prov: 'memory' },
    { fromVolts: 32, toVolts: 32, fromCca: 1251, toCca: null, mainA: 5000, branchA: 2500, prov: 'memory' },
  ],
};
