/** Opening times of fuses and breakers. */
import type { NoFigure, Prov } from './sourced.ts';
import { noFigure, weakest } from './sourced.ts';
import { breakerTimeTable } from './tables/breaker-time-current.ts';
import { fuseTimeTable } from './tables/fuse-time-current.ts';

export type FuseFamily =
  | 'blade-f'
  | 'blade-c'
  | 'blade-e'
  | 'strip-30'
  | 'strip-51'
  | 'bolt-down'
  | 'cube'
  | 'cartridge'
  | 'class-t';

export const fuseFamilies: readonly FuseFamily[] = [
  'blade-f',
  'blade-c',
  'blade-e',
  'strip-30',
  'strip-51',
  'bolt-down',
  'cube',
  'cartridge',
  'class-t',
];

/** Opening times at one multiple of the rating. */
export interface TimePoint {
  /** Percent of the rated current. */
  readonly percent: number;
  /** Least opening time, s; absent where none is published. */
  readonly min?: number;
  /** Greatest opening time, s; absent where none is published. */
  readonly max?: number;
  readonly prov: Prov;
}

/** A published band of opening times. */
export interface TimeCurve {
  /**
   * The greatest current that it carries without opening, percent of the rating; `atLeastS`: for how long,
   * where a time is stated.
   */
  readonly hold: { readonly percent: number; readonly atLeastS?: number; readonly prov: Prov };
  /** By rising percent; rows of the hold current are not among them. */
  readonly points: readonly TimePoint[];
  /** Ratings that the rows hold for, A, both included. */
  readonly ratings: readonly [number, number];
  /** The least founded of all points. */
  readonly prov: Prov;
  readonly source: string;
}

interface TimeRow {
  readonly percent: number;
  readonly least: number | null;
  readonly greatest: number | null;
  readonly holds: boolean;
  readonly prov: Prov;
}

function curve(
  rows: readonly TimeRow[],
  ratings: readonly [number, number],
  source: string,
): TimeCurve | NoFigure {
  // A row without a greatest time and with an hour or more as the least says what the device holds.
  const isHold = (row: TimeRow) => row.holds || (row.greatest === null && (row.least ?? 0) >= 3600);
  const hold = rows.findLast(isHold);
  if (hold === undefined) return noFigure(`${source} states no current that is held`);
  const points = rows.filter((row) => !isHold(row)).map(point);
  return {
    hold: {
      percent: hold.percent,
      prov: hold.prov,
      ...(hold.least === null ? {} : { atLeastS: hold.least }),
    },
    points,
    ratings,
    prov: weakest(...rows.map((row) => row.prov)),
    source,
  };
}

function point(row: TimeRow): TimePoint {
  return {
    percent: row.percent,
    prov: row.prov,
    ...(row.least === null ? {} : { min: row.least }),
    ...(row.greatest === null ? {} : { max: row.greatest }),
  };
}

/**
 * The opening times published for a fuse family at a rating. No figure for bolt-down and cube fuses (makers'
 * curves differ) and for
 * ratings outside the table. Cartridge and class T end at 200 %.
 * @param ratingA rated current, A
 */
export function fuseCurve(family: FuseFamily, ratingA: number): TimeCurve | NoFigure {
  const ofFamily = fuseTimeTable.rows.filter((row) => row.family === family);
  if (ofFamily.length === 0)
    return noFigure(`no opening times are published for ${family} fuses: read them on the maker's sheet`);
  const rows = ofFamily.filter((row) => row.fromA <= ratingA && ratingA <= row.toA);
  const first = rows[0];
  if (first === undefined) {
    const ranges = [...new Set(ofFamily.map((row) => `${row.fromA} to ${row.toA} A`))].join(', ');
    return noFigure(`the opening times of ${family} fuses are published for ${ranges}, not for ${ratingA} A`);
  }
  return curve(rows, [first.fromA, first.toA], first.standard);
}

export type BreakerCurveName = 'generic-thermal';

/**
 * The time-current band of a thermal breaker, 12 and 24 V, from two makers' application articles; no fast edge
 * at 135 %.
 */
export function breakerCurve(name: BreakerCurveName): TimeCurve | NoFigure {
  if (name !== 'generic-thermal') return noFigure(`no breaker curve is called ${String(name)}`);
  const rows = breakerTimeTable.rows.filter((row) => row.standard === 'generic thermal');
  return curve(
    rows,
    [0, Number.POSITIVE_INFINITY],
    'generic thermal breaker, two makers\u2019 application articles',
  );
}
