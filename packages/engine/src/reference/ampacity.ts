/**
 * What every ampacity look-up shares: the next smaller row, the next lower or hotter column, never beyond the
 * ends.
 */
import type { NoFigure, Sourced } from './sourced.ts';
import { noFigure } from './sourced.ts';

/** A continuous current, A, with the cell of the table that it was read from. */
export interface Ampacity extends Sourced {
  /** Row used: its name ("4 AWG", "25 mm²") and copper area. */
  readonly row: { readonly name: string; readonly areaMm2: number };
  /** Column used: insulation temperature, °C. */
  readonly insulationC: number;
  /** Air temperature that the figure holds for, °C. */
  readonly airC: number;
}

/** A current found in a table, or why there is none. */
export type AmpacityFigure = Ampacity | NoFigure;

/** Areas typed as the same size may differ in the last digit. */
const SAME = 1e-9;

/** The row of the greatest area not above `areaMm2`; none below the first, none above the last. */
export function rowBelow<R extends { readonly areaMm2: number }>(
  rows: readonly R[],
  areaMm2: number,
): R | NoFigure {
  const last = rows.at(-1);
  if (last === undefined) return noFigure('the table has no rows');
  if (areaMm2 > last.areaMm2 * (1 + SAME)) {
    return noFigure(
      `${shown(areaMm2)} mm² is above the largest size of the table, ${shown(last.areaMm2)} mm²`,
    );
  }
  const row = rows.findLast((candidate) => candidate.areaMm2 <= areaMm2 * (1 + SAME));
  if (row !== undefined) return row;
  return noFigure(
    `${shown(areaMm2)} mm² is below the smallest size of the table, ${shown(rows[0]?.areaMm2 ?? 0)} mm²`,
  );
}

/** The greatest column not above `celsius`; none below the first, none above the last. */
export function columnBelow<C extends number>(columns: readonly C[], celsius: number): C | NoFigure {
  const last = columns.at(-1);
  const column = columns.findLast((candidate) => candidate <= celsius);
  if (last === undefined || column === undefined) {
    return noFigure(
      `${celsius} °C insulation is below the lowest column of the table, ${columns[0] ?? 0} °C`,
    );
  }
  return celsius > last
    ? noFigure(`${celsius} °C insulation is above the highest column of the table, ${last} °C`)
    : column;
}

function shown(areaMm2: number): string {
  return String(Number(areaMm2.toPrecision(4)));
}
