/**
 * Colours of dc conductors by practice and function.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface ConductorColourRow {
  readonly practice: string;
  readonly function: string;
  readonly colour: string;
  readonly prov: Prov;
}

export const conductorColoursTable: Table<ConductorColourRow> = {
  title: 'Conductor colours',
  source: 'ABYC E-11, IEC 60445, ISO 13297, DIN 72551, NEC 552',
  rows: [
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'DC positive', colour: 'red', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'DC negative', colour: 'black or yellow (yellow preferred)', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'DC grounding, bonding', colour: 'green or green with yellow stripe', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'starting circuit', colour: 'yellow with red stripe', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'blowers', colour: 'brown with yellow stripe (yellow if the negative is black)', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'pumps, alternator charge light', colour: 'brown', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'navigation lights, tachometer', colour: 'dark grey', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'cabin and instrument lights', colour: 'dark blue', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'accessory and common feed', colour: 'orange', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'ignition, instrument feed', colour: 'purple', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'oil pressure sender', colour: 'light blue', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'water temperature sender', colour: 'tan', prov: 'seen' },
    { practice: 'marine practice (ABYC E-11), under 50 V DC', function: 'fuel gauge sender', colour: 'pink', prov: 'seen' },
    { practice: 'ISO 13297 (ISO 10133)', function: 'DC negative', colour: 'black or yellow', prov: 'memory' },
    { practice: 'ISO 13297 (ISO 10133)', function: 'DC positive', colour: 'red or any other colour than negative, protective or AC', prov: 'memory' },
    { practice: 'IEC 60445 / IEC 60364', function: 'DC positive', colour: 'red', prov: 'memory' },
    { practice: 'IEC 60445 / IEC 60364', function: 'DC negative', colour: 'white', prov: 'memory' },
    { practice: 'IEC 60445 / IEC 60364', function: 'DC mid-point', colour: 'blue', prov: 'memory' },
    { practice: 'IEC 60445', function: 'protective conductor', colour: 'green-and-yellow only', prov: 'seen' },
    { practice: 'road vehicles, DIN 72551 practice', function: 'battery positive (terminal 30)', colour: 'red', prov: 'memory' },
    { practice: 'road vehicles, DIN 72551 practice', function: 'switched positive (terminal 15)', colour: 'black', prov: 'memory' },
    { practice: 'road vehicles, DIN 72551 practice', function: 'return to battery or chassis (terminal 31)', colour: 'brown', prov: 'memory' },
    { practice: 'NEC 552 / recreational-vehicle practice', function: 'DC positive', colour: 'red or as marked', prov: 'memory' },
    { practice: 'NEC 552 / recreational-vehicle practice', function: 'DC negative to chassis', colour: 'white or black', prov: 'memory' },
  ],
};
