/**
 * Current of copper conductors, A, three loaded conductors (on the safe side for a pair), by installation
 * method (B2 in conduit,
 * C clipped, F single cores touching in free air), conductor temperature and air temperature: IEC 60364-5-52
 * table B.52 as printed,
 * rounded down, in three machine makers' instruction books. A standard for fixed low-voltage installations
 * (part 7-721: caravans).
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface AmpacityIecRow {
  readonly method: string;
  readonly conductorC: number;
  readonly areaMm2: number;
  readonly air30: number;
  readonly air40: number;
  readonly air45: number;
  readonly air50: number;
  readonly air55: number;
  readonly prov: Prov;
}

export const ampacityIecTable: Table<AmpacityIecRow> = {
  title: 'Ampacity, IEC 60364-5-52',
  source: 'IEC 60364-5-52 table B.52, as reprinted',
  rows: [
    { method: 'B2', conductorC: 70, areaMm2: 1.5, air30: 15, air40: 13, air45: 12, air50: 11, air55: 9, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 2.5, air30: 20, air40: 17, air45: 16, air50: 14, air55: 12, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 4, air30: 27, air40: 23, air45: 21, air50: 19, air55: 16, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 6, air30: 34, air40: 30, air45: 27, air50: 24, air55: 21, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 10, air30: 46, air40: 40, air45: 36, air50: 33, air55: 28, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 16, air30: 62, air40: 54, air45: 49, air50: 44, air55: 38, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 25, air30: 80, air40: 70, air45: 63, air50: 57, air55: 49, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 35, air30: 99, air40: 86, air45: 78, air50: 70, air55: 60, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 50, air30: 118, air40: 103, air45: 93, air50: 84, air55: 72, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 70, air30: 149, air40: 130, air45: 118, air50: 106, air55: 91, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 95, air30: 179, air40: 156, air45: 141, air50: 127, air55: 109, prov: 'seen' },
    { method: 'B2', conductorC: 70, areaMm2: 120, air30: 206, air40: 179, air45: 163, air50: 146, air55: 126, prov: 'seen' },
    { method: 'C', conductorC: 70, areaMm2: 1.5, air30: 17, air40: 15, air45: 14, air50: 12, air55: 11, prov: 'seen' },
    { method: 'C', conductorC: 70, areaMm2: 2.5, air30: 24, air40: 21, air45: 19, air50: 17, air55: 15, prov: 'seen' },
    { method: 'C', conductorC: 70, areaMm2: 4, air30: 32, air40: 28, air45: 25, air50: 23, air55: 20, prov: 'seen' },
    { method: 'C', conductorC: 70, areaMm2: 6, air30: 41, air40: 36, air45: 32, air50: 29, air55: 25, prov: 'seen' },
    { method: 'C', conductorC: 70, areaMm2: 10, air30: 57, air40: 50, air45: 45, air50: 40, air55: 35, prov: 'seen' },
    { method: 'C', conductorC: 70, areaMm2: 16, air30: 76, air40: 66, air45: 60, air50: 54, air55: 46, prov: 'seen' },
    { method: 'C', conductorC: 70, areaMm2: 25, air30: 96, air40: 84, air45: 76, air50: 68, air55: 59, prov: 'seen' },
    { method: 'C', conductorC: 70, areaMm2: 35, air30: 119, air40: 104, air45: 94, air50: 84, air55: 73, prov: 'seen' },
    { method: 'F', conductorC: 70, areaMm2: 25, air30: 110, air40: 96, air45: 87, air50: 78, air55: 67, prov: 'seen' },
    { method: 'F', conductorC: 70, areaMm2: 35, air30: 137, air40: 119, air45: 108, air50: 97, air55: 84, prov: 'seen' },
    { method: 'F', conductorC: 70, areaMm2: 50, air30: 167, air40: 145, air45: 132, air50: 119, air55: 102, prov: 'seen' },
    { method: 'F', conductorC: 70, areaMm2: 70, air30: 216, air40: 188, air45: 171, air50: 153, air55: 132, prov: 'seen' },
    { method: 'F', conductorC: 70, areaMm2: 95, air30: 264, air40: 230, air45: 209, air50: 187, air55: 161, prov: 'seen' },
    { method: 'F', conductorC: 70, areaMm2: 120, air30: 308, air40: 268, air45: 243, air50: 219, air55: 188, prov: 'seen' },
    { method: 'F', conductorC: 90, areaMm2: 25, air30: 135, air40: 123, air45: 117, air50: 110, air55: 103, prov: 'seen' },
    { method: 'F', conductorC: 90, areaMm2: 35, air30: 169, air40: 154, air45: 147, air50: 139, air55: 128, prov: 'seen' },
    { method: 'F', conductorC: 90, areaMm2: 50, air30: 207, air40: 188, air45: 180, air50: 170, air55: 157, prov: 'seen' },
    { method: 'F', conductorC: 90, areaMm2: 70, air30: 268, air40: 244, air45: 233, air50: 220, air55: 204, prov: 'seen' },
    { method: 'F', conductorC: 90, areaMm2: 95, air30: 328, air40: 298, air45: 285, air50: 269, air55: 249, prov: 'seen' },
    { method: 'F', conductorC: 90, areaMm2: 120, air30: 383, air40: 349, air45: 333, air50: 314, air55: 291, prov: 'seen' },
  ],
};
