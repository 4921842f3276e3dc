/** Factors on ampacity: bundle, engine space, hot air, heat-insulated walls, very small conductors. */
import { columnBelow } from './ampacity.ts';
import type { Figure, Sourced } from './sourced.ts';
import { noFigure } from './sourced.ts';
import { bundlingTable } from './tables/bundling-33cfr183.ts';
import { engineSpace33cfrTable } from './tables/engine-space-33cfr183.ts';
import { engineSpaceIso13297Table } from './tables/engine-space-iso13297.ts';

/**
 * Factor for `count` current-carrying conductors that lie together (33 CFR 183.425 note 2): 1-2: 1, 3: 0.7,
 * 4-6: 0.6, 7-24: 0.5,
 * 25 and more: 0.4. Fewer than one counts as one.
 */
export function bundleFactor(count: number): Sourced {
  const row = bundlingTable.rows.find((candidate) => count <= (candidate.to ?? Number.POSITIVE_INFINITY));
  return {
    value: row?.factor ?? 0.4,
    unit: '',
    prov: row?.prov ?? 'seen',
    source: bundlingTable.source,
    range: 'by law from 50 V up; marine practice in every circuit',
  };
}

/**
 * Factor for an engine space (50 °C), by insulation temperature, next lower column: 33 CFR 183.425 note 1 (only
 * 105 °C was read),
 * or ISO 13297 (memory; 60 °C insulation is not for engine spaces).
 */
export function engineSpaceFactor(insulationC: number, table: '33cfr' | 'iso13297' = '33cfr'): Figure {
  const { rows, source } = table === '33cfr' ? engineSpace33cfrTable : engineSpaceIso13297Table;
  const column = columnBelow(
    rows.map((row) => row.insulationC),
    insulationC,
  );
  if (typeof column !== 'number') return column;
  const row = rows.find((candidate) => candidate.insulationC === column);
  const factor = row?.factor ?? null;
  if (row === undefined || factor === null)
    return noFigure(`${column} °C insulation is not for engine spaces`);
  return {
    value: factor,
    unit: '',
    prov: row.prov,
    source: `${source}, ${column} °C`,
    range: 'engine space, 50 °C',
  };
}

/**
 * Factor of ampacity for air at `airC` when the table holds for `baseC`: sqrt((Tins - Tair)/(Tins - Tbase)),
 * all °C. The printed factors
 * of NEC table 310.15(B)(1) equal it at the top of each of their ranges. Air as hot as the insulation allows:
 * no ampacity at all.
 */
export function ambientFactor(insulationC: number, airC: number, baseC = 30): Figure {
  if (!(airC < insulationC))
    return noFigure(`the air (${airC} °C) is as hot as the insulation allows (${insulationC} °C)`);
  if (!(baseC < insulationC))
    return noFigure(`insulation of ${insulationC} °C has no ampacity at ${baseC} °C`);
  return {
    value: Math.sqrt((insulationC - airC) / (insulationC - baseC)),
    unit: '',
    prov: 'computed',
    source: 'sqrt((Tins - Tair)/(Tins - Tbase)); equals NEC table 310.15(B)(1) at the top of each range',
  };
}

interface WallPoint {
  readonly metres: number;
  readonly factor: number;
  readonly prov: 'seen' | 'memory';
}

const WALL: readonly WallPoint[] = [
  { metres: 0.05, factor: 0.89, prov: 'seen' },
  { metres: 0.1, factor: 0.81, prov: 'memory' },
  { metres: 0.2, factor: 0.68, prov: 'memory' },
  { metres: 0.4, factor: 0.55, prov: 'seen' },
  { metres: 0.5, factor: 0.5, prov: 'seen' },
];

/**
 * Factor for a conductor that lies in heat-insulating wall for an unbroken length in metres: 1 below 50 mm,
 * 0.89 at 50 mm, 0.55 at
 * 400 mm, 0.5 from 500 mm on (BS 7671, older edition, as reprinted); straight lines between the points of the
 * table, of which 100 and
 * 200 mm are from memory.
 */
export function insulatedWallFactor(metres: number): Sourced {
  const source = 'BS 7671, cables surrounded by thermal insulation, older edition as reprinted';
  const first = WALL[0];
  const last = WALL.at(-1);
  if (first === undefined || last === undefined || metres < first.metres)
    return { value: 1, unit: '', prov: 'seen', source };
  const above = WALL.find((point) => point.metres >= metres) ?? last;
  if (metres >= above.metres) return { value: above.factor, unit: '', prov: above.prov, source };
  const below = WALL.findLast((point) => point.metres < metres) ?? first;
  const part = (metres - below.metres) / (above.metres - below.metres);
  const prov = below.prov === 'memory' || above.prov === 'memory' ? 'memory' : 'computed';
  return { value: below.factor + part * (above.factor - below.factor), unit: '', prov, source };
}

/** Current density assumed below the smallest size of a table. */
export const smallConductorDensity: Sourced = {
  value: 5,
  unit: 'A/mm²',
  prov: 'practice',
  band: [3, 6],
  source: 'common practice, no source',
};
