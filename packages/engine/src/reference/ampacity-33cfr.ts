/** Ampacity by 33 CFR 183.425 table 5. */
import { AWG_AREAS_MM2 } from '../quantity/size.ts';
import type { AmpacityFigure } from './ampacity.ts';
import { columnBelow, rowBelow } from './ampacity.ts';
import { ampacity33cfrTable } from './tables/ampacity-33cfr183.ts';

const COLUMNS = [60, 75, 80, 90, 105, 125, 200] as const;

const ROWS = ampacity33cfrTable.rows.map((row) => ({
  areaMm2: AWG_AREAS_MM2[row.awg] ?? Number.NaN,
  name: `${row.awg}\u00A0AWG`,
  prov: row.prov,
  amps: { 60: row.c60, 75: row.c75, 80: row.c80, 90: row.c90, 105: row.c105, 125: row.c125, 200: row.c200 },
}));

/**
 * Continuous current of a copper conductor outside engine spaces, at most two conductors together, 30 °C.
 *
 * A size not in the table takes the next smaller row, an insulation temperature not in it the next lower
 * column; nothing beyond the ends
 * (18 to 4/0 AWG, 60 to 200 °C).
 * @param areaMm2 copper area, mm² @param insulationC rated temperature of the insulation, °C
 */
export function ampacityTable33cfr(areaMm2: number, insulationC: number): AmpacityFigure {
  const row = rowBelow(ROWS, areaMm2);
  if ('noFigure' in row) return row;
  const column = columnBelow(COLUMNS, insulationC);
  if (typeof column !== 'number') return column;
  return {
    value: row.amps[column],
    unit: 'A',
    prov: row.prov,
    source: `${ampacity33cfrTable.source}, ${row.name}, ${column} °C`,
    range: 'copper, up to two conductors, 30 °C, under 50 V',
    row: { name: row.name, areaMm2: row.areaMm2 },
    insulationC: column,
    airC: 30,
  };
}
