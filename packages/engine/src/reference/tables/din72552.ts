/**
 * Terminal numbers of road vehicles: DIN 72552.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface Din72552Row {
  readonly terminal: string;
  readonly meaning: string;
  readonly prov: Prov;
}

export const din72552Table: Table<Din72552Row> = {
  title: 'Terminal numbers',
  source: 'DIN 72552',
  rows: [
    { terminal: '15', meaning: 'positive switched by the ignition switch', prov: 'seen' },
    { terminal: '15a', meaning: 'from ballast resistor to coil and starter', prov: 'seen' },
    { terminal: '15e', meaning: 'switched positive that stays live while the starter runs', prov: 'seen' },
    { terminal: '30', meaning: 'positive straight from the battery', prov: 'seen' },
    { terminal: '30a', meaning: 'positive of a second battery, 12/24 V relay', prov: 'seen' },
    { terminal: '31', meaning: 'return to battery negative or chassis, direct', prov: 'seen' },
    { terminal: '31a', meaning: 'return to the second battery', prov: 'seen' },
    { terminal: '31b', meaning: 'return through a switch or relay', prov: 'seen' },
    { terminal: '31c', meaning: 'return to the first battery, 12/24 V relay', prov: 'seen' },
    { terminal: '50', meaning: 'starter control', prov: 'seen' },
    { terminal: '17', meaning: 'start (glow-plug switch)', prov: 'seen' },
    { terminal: '19', meaning: 'preheat', prov: 'seen' },
    { terminal: '45', meaning: 'starter relay, output', prov: 'seen' },
    { terminal: '85', meaning: 'relay coil, negative end', prov: 'memory' },
    { terminal: '86', meaning: 'relay coil, positive end', prov: 'memory' },
    { terminal: '87', meaning: 'relay contact, make', prov: 'memory' },
    { terminal: '87a', meaning: 'relay contact, break', prov: 'memory' },
    { terminal: 'B+', meaning: 'alternator output, to battery positive', prov: 'memory' },
    { terminal: 'B-', meaning: 'alternator negative', prov: 'memory' },
    { terminal: 'D+', meaning: 'alternator, charge lamp and dynamo-positive', prov: 'memory' },
    { terminal: 'W', meaning: 'alternator, phase tap for a tachometer', prov: 'memory' },
    { terminal: '58', meaning: 'side, tail and instrument lights', prov: 'memory' },
  ],
};
