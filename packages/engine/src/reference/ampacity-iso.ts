/** Ampacity by ISO 13297, from memory. */
import type { AmpacityFigure } from './ampacity.ts';
import { columnBelow, rowBelow } from './ampacity.ts';
import { ampacityIso13297Table } from './tables/ampacity-iso13297.ts';

const COLUMNS = [60, 70, 85, 105, 125, 200] as const;

/**
 * Continuous current of a single copper conductor in air at 30 °C; every cell is from memory, so what passes on
 * it stays unconfirmed.
 *
 * Next smaller row, next lower column (85 °C serves 85 to 90 °C); nothing beyond the ends (0.75 to 150 mm², 60
 * to 200 °C).
 * @param areaMm2 copper area, mm² @param insulationC rated temperature of the insulation, °C
 */
export function ampacityIso13297(areaMm2: number, insulationC: number): AmpacityFigure {
  const row = rowBelow(ampacityIso13297Table.rows, areaMm2);
  if ('noFigure' in row) return row;
  const column = columnBelow(COLUMNS, insulationC);
  if (typeof column !== 'number') return column;
  const amps = { 60: row.c60, 70: row.c70, 85: row.c85, 105: row.c105, 125: row.c125, 200: row.c200 };
  return {
    value: amps[column],
    unit: 'A',
    prov: row.prov,
    source: `${ampacityIso13297Table.source}, ${row.areaMm2} mm², ${column} °C`,
    range: 'copper, single conductor, 30 °C',
    row: { name: `${row.areaMm2}\u00A0mm²`, areaMm2: row.areaMm2 },
    insulationC: column,
    airC: 30,
  };
}
