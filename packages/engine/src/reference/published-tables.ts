/**
 * All transcribed tables by name: for the list of sources, for confirming a table, and for the fingerprints in
 * the tests.
 */
import type { Table } from './table.ts';
import { adiabaticKTable } from './tables/adiabatic-k.ts';
import { ampacity33cfrTable } from './tables/ampacity-33cfr183.ts';
import { ampacityIecTable } from './tables/ampacity-iec60364.ts';
import { ampacityIso13297Table } from './tables/ampacity-iso13297.ts';
import { awgTable } from './tables/awg.ts';
import { restVoltageTable } from './tables/batteries-ocv.ts';
import { breakerTimeTable } from './tables/breaker-time-current.ts';
import { bundlingTable } from './tables/bundling-33cfr183.ts';
import { conductorColoursTable } from './tables/conductor-colours.ts';
import { din72552Table } from './tables/din72552.ts';
import { engineSpace33cfrTable } from './tables/engine-space-33cfr183.ts';
import { engineSpaceIso13297Table } from './tables/engine-space-iso13297.ts';
import { fuseColoursTable } from './tables/fuse-colours.ts';
import { fuseRatingsTable } from './tables/fuse-ratings.ts';
import { fuseTimeTable } from './tables/fuse-time-current.ts';
import { fuseTypicalTable } from './tables/fuse-typical.ts';
import { iec60757Table } from './tables/iec60757.ts';
import { iec81346Table } from './tables/iec81346.ts';
import { interruptingMarineTable } from './tables/interrupting-marine.ts';
import { metricConductorsTable } from './tables/metric-conductors.ts';
import { minimumsTable } from './tables/minimums.ts';
import { nec552Table } from './tables/nec-552.ts';
import { saeTable } from './tables/sae.ts';
import { torqueTable } from './tables/torque.ts';

export const publishedTables: Readonly<Record<string, Table<object>>> = {
  'adiabatic-k': adiabaticKTable,
  'ampacity-33cfr183': ampacity33cfrTable,
  'ampacity-iec60364': ampacityIecTable,
  'ampacity-iso13297': ampacityIso13297Table,
  awg: awgTable,
  'breaker-time-current': breakerTimeTable,
  'bundling-33cfr183': bundlingTable,
  'conductor-colours': conductorColoursTable,
  din72552: din72552Table,
  'engine-space-33cfr183': engineSpace33cfrTable,
  'engine-space-iso13297': engineSpaceIso13297Table,
  'fuse-colours': fuseColoursTable,
  'fuse-ratings': fuseRatingsTable,
  'fuse-time-current': fuseTimeTable,
  'fuse-typical': fuseTypicalTable,
  iec60757: iec60757Table,
  iec81346: iec81346Table,
  'interrupting-marine': interruptingMarineTable,
  'metric-conductors': metricConductorsTable,
  minimums: minimumsTable,
  'nec-552': nec552Table,
  'rest-voltage': restVoltageTable,
  sae: saeTable,
  torque: torqueTable,
};
