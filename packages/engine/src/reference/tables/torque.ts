/**
 * Tightening torque and current of studs and screws by material and thread: tables of terminal and switchgear
 * makers; the part's own
 * sheet always wins.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface TorqueRow {
  readonly joint: string;
  readonly thread: string;
  readonly torqueNm: number | null;
  readonly studA: number | null;
  readonly prov: Prov;
}

export const torqueTable: Table<TorqueRow> = {
  title: 'Torque',
  source: 'tables of terminal-board, drive and switchgear makers; DIN 43673',
  rows: [
    { joint: 'brass stud (CuZn37), current carrying', thread: 'M4', torqueNm: 1.2, studA: 16, prov: 'seen' },
    { joint: 'brass stud (CuZn37), current carrying', thread: 'M5', torqueNm: 2, studA: 25, prov: 'seen' },
    { joint: 'brass stud (CuZn37), current carrying', thread: 'M6', torqueNm: 3, studA: 63, prov: 'seen' },
    { joint: 'brass stud (CuZn37), current carrying', thread: 'M8', torqueNm: 6, studA: 100, prov: 'seen' },
    { joint: 'brass stud (CuZn37), current carrying', thread: 'M10', torqueNm: 10, studA: 160, prov: 'seen' },
    { joint: 'brass stud (CuZn37), current carrying', thread: 'M12', torqueNm: 15.5, studA: 250, prov: 'seen' },
    { joint: 'brass stud (CuZn37), current carrying', thread: 'M16', torqueNm: 30, studA: 315, prov: 'seen' },
    { joint: 'copper stud (E-Cu), current carrying', thread: 'M10', torqueNm: 10, studA: 200, prov: 'seen' },
    { joint: 'copper stud (E-Cu), current carrying', thread: 'M12', torqueNm: 15.5, studA: 315, prov: 'seen' },
    { joint: 'copper stud (E-Cu), current carrying', thread: 'M16', torqueNm: 30, studA: 400, prov: 'seen' },
    { joint: 'steel stud, clamping only, not the current path', thread: 'M4', torqueNm: null, studA: 35, prov: 'seen' },
    { joint: 'steel stud, clamping only, not the current path', thread: 'M5', torqueNm: null, studA: 75, prov: 'seen' },
    { joint: 'steel stud, clamping only, not the current path', thread: 'M6', torqueNm: null, studA: 125, prov: 'seen' },
    { joint: 'steel stud, clamping only, not the current path', thread: 'M8', torqueNm: null, studA: 150, prov: 'seen' },
    { joint: 'steel stud, clamping only, not the current path', thread: 'M10', torqueNm: null, studA: 200, prov: 'seen' },
    { joint: 'steel stud, clamping only, not the current path', thread: 'M12', torqueNm: null, studA: 350, prov: 'seen' },
    { joint: 'steel stud, clamping only, not the current path', thread: 'M16', torqueNm: null, studA: 500, prov: 'seen' },
    { joint: 'screw terminal with ring lug', thread: 'M3.5', torqueNm: 0.8, studA: null, prov: 'seen' },
    { joint: 'screw terminal with ring lug', thread: 'M4', torqueNm: 1.2, studA: null, prov: 'seen' },
    { joint: 'screw terminal with ring lug', thread: 'M5', torqueNm: 2, studA: null, prov: 'seen' },
    { joint: 'screw terminal with ring lug', thread: 'M6', torqueNm: 2.5, studA: null, prov: 'seen' },
    { joint: 'screw terminal with ring lug', thread: 'M8', torqueNm: 6, studA: null, prov: 'seen' },
    { joint: 'screw terminal with ring lug', thread: 'M10', torqueNm: 10, studA: null, prov: 'seen' },
    { joint: 'screw terminal with ring lug', thread: 'M12', torqueNm: 14, studA: null, prov: 'seen' },
    { joint: 'screw terminal with ring lug', thread: 'M16', torqueNm: 25, studA: null, prov: 'seen' },
    { joint: 'steel bolt 8.8, general joint', thread: 'M5', torqueNm: 5, studA: null, prov: 'seen' },
    { joint: 'steel bolt 8.8, general joint', thread: 'M6', torqueNm: 8.8, studA: null, prov: 'seen' },
    { joint: 'steel bolt 8.8, general joint', thread: 'M8', torqueNm: 21, studA: null, prov: 'seen' },
    { joint: 'steel bolt 8.8, general joint', thread: 'M10', torqueNm: 42, studA: null, prov: 'seen' },
    { joint: 'steel bolt 8.8, general joint', thread: 'M12', torqueNm: 70, studA: null, prov: 'seen' },
    { joint: 'steel bolt 8.8, general joint', thread: 'M16', torqueNm: 170, studA: null, prov: 'seen' },
    { joint: 'steel bolt, copper busbar main circuit', thread: 'M6', torqueNm: 6.5, studA: null, prov: 'seen' },
    { joint: 'steel bolt, copper busbar main circuit', thread: 'M8', torqueNm: 17, studA: null, prov: 'seen' },
    { joint: 'steel bolt, copper busbar main circuit', thread: 'M10', torqueNm: 35, studA: null, prov: 'seen' },
    { joint: 'steel bolt, copper busbar main circuit', thread: 'M12', torqueNm: 68, studA: null, prov: 'seen' },
    { joint: 'steel bolt, copper busbar main circuit', thread: 'M16', torqueNm: 135, studA: null, prov: 'seen' },
    { joint: 'steel screw, secondary connection', thread: 'M5', torqueNm: 2.5, studA: null, prov: 'seen' },
    { joint: 'steel screw, secondary connection', thread: 'M6', torqueNm: 3.5, studA: null, prov: 'seen' },
    { joint: 'steel stud with ring lug, power converter', thread: 'M10', torqueNm: 25, studA: null, prov: 'seen' },
    { joint: 'steel stud with ring lug, power converter', thread: 'M12', torqueNm: 35, studA: null, prov: 'seen' },
    { joint: 'steel bolt on copper busbar, DIN 43673 nominal', thread: 'M5', torqueNm: 2.5, studA: null, prov: 'memory' },
    { joint: 'steel bolt on copper busbar, DIN 43673 nominal', thread: 'M6', torqueNm: 4.5, studA: null, prov: 'memory' },
    { joint: 'steel bolt on copper busbar, DIN 43673 nominal', thread: 'M8', torqueNm: 10, studA: null, prov: 'memory' },
    { joint: 'steel bolt on copper busbar, DIN 43673 nominal', thread: 'M10', torqueNm: 20, studA: null, prov: 'memory' },
    { joint: 'steel bolt on copper busbar, DIN 43673 nominal', thread: 'M12', torqueNm: 40, studA: null, prov: 'memory' },
  ],
};
