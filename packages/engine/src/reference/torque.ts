/** Tightening torque of studs, where the part's own sheet is silent. */
import type { Figure } from './sourced.ts';
import { noFigure } from './sourced.ts';
import { torqueTable } from './tables/torque.ts';

/** What the stud or screw is made of and does. */
export type StudMaterial = 'brass' | 'copper' | 'steel';

const JOINTS: Readonly<Record<StudMaterial, readonly string[]>> = {
  brass: ['brass stud (CuZn37), current carrying'],
  copper: ['copper stud (E-Cu), current carrying'],
  // Steel studs of a power converter first, then a steel bolt through a copper busbar (DIN 43673, memory).
  steel: ['steel stud with ring lug, power converter', 'steel bolt on copper busbar, DIN 43673 nominal'],
};

/** Torque of a ring lug on a stud, N·m, by material and thread ("M8"). */
export function studTorque(material: StudMaterial, thread: string): Figure {
  for (const joint of JOINTS[material]) {
    const row = torqueTable.rows.find(
      (candidate) => candidate.joint === joint && candidate.thread === thread,
    );
    if (row !== undefined && row.torqueNm !== null) {
      return {
        value: row.torqueNm,
        unit: 'N·m',
        prov: row.prov,
        source: joint,
        range: 'the part\u2019s own sheet wins',
      };
    }
  }
  return noFigure(`no torque is published for a ${material} stud ${thread}`);
}
