/** Ampacity by IEC 60364-5-52. */
import type { AmpacityFigure } from './ampacity.ts';
import { columnBelow, rowBelow } from './ampacity.ts';
import { noFigure } from './sourced.ts';
import { ampacityIecTable } from './tables/ampacity-iec60364.ts';

/** Installation method: B2 in conduit, C clipped to a surface, F single cores touching in free air. */
export type IecMethod = 'B2' | 'C' | 'F';

const AIR = [30, 40, 45, 50, 55] as const;

/** Hottest air of the table, °C: beyond it the look-up stays in this column and says so. */
export const IEC_HOTTEST_AIR_C = 55;

/**
 * Continuous current of a copper conductor of fixed low-voltage installations (three loaded conductors: on the
 * safe side for a pair).
 *
 * Next smaller row, next lower insulation column, next hotter air column. Above 55 °C air the 55 °C column is
 * returned with `airC` 55: the
 * caller reduces it from there with `ambientFactor(insulation, air, 55)`. Nothing beyond the ends of the sizes:
 * B2 1.5 to 120, C 1.5 to 35,
 * F 25 to 120 mm²; 90 °C only for F (B2 and C use the 70 °C column).
 * @param areaMm2 copper area, mm² @param insulationC rated temperature of the insulation, °C @param airC air
 * temperature, °C
 */
export function ampacityIec(
  areaMm2: number,
  insulationC: number,
  method: IecMethod,
  airC: number,
): AmpacityFigure {
  const ofMethod = ampacityIecTable.rows.filter((row) => row.method === method);
  const temperatures = [...new Set(ofMethod.map((row) => row.conductorC))];
  // Insulation hotter than the last column may always run cooler: the last column is the next lower one.
  const column = columnBelow(temperatures, Math.min(insulationC, temperatures.at(-1) ?? insulationC));
  if (typeof column !== 'number') return column;
  if (Number.isNaN(airC)) return noFigure('the air temperature is not known');
  const row = rowBelow(
    ofMethod.filter((candidate) => candidate.conductorC === column),
    areaMm2,
  );
  if ('noFigure' in row) return row;
  const air = AIR.find((candidate) => candidate >= airC) ?? IEC_HOTTEST_AIR_C;
  const amps = { 30: row.air30, 40: row.air40, 45: row.air45, 50: row.air50, 55: row.air55 };
  return {
    value: amps[air],
    unit: 'A',
    prov: row.prov,
    source: `${ampacityIecTable.source}, method ${method}, ${row.areaMm2} mm², ${column} °C, air ${air} °C`,
    range: 'copper, three loaded conductors, fixed low-voltage installations',
    row: { name: `${row.areaMm2}\u00A0mm²`, areaMm2: row.areaMm2 },
    insulationC: column,
    airC: air,
  };
}
