/** What heat takes from the rating of protective devices, and their resistance. */
import type { Figure, Sourced } from './sourced.ts';
import { noFigure } from './sourced.ts';
import { fuseTypicalTable } from './tables/fuse-typical.ts';

/** Share of its rating that a thermal breaker in heat may carry, where the part states nothing. */
export const breakerHeatFactor: Sourced = {
  value: 0.8,
  unit: '',
  prov: 'seen',
  band: [0.7, 0.9],
  source: 'a breaker maker\u2019s article, engine space',
  range: 'up to 80 °C',
};

/** Share of its rating that a fuse may carry continuously, where the part states nothing. */
export const fuseHeatFactor: Sourced = {
  value: 0.8,
  unit: '',
  prov: 'practice',
  band: [0.75, 0.85],
  source: 'common practice, no source; a blade type E at 65 to 85 °C carries 0.85 to 0.75 of its rating',
  range: 'up to 80 °C',
};

type HeatPoint = readonly [celsius: number, factor: number];

/**
 * Heat factors of one panel-breaker table, [°C, share of the rating]: to be used only where the part asks for
 * it.
 */
export const panelBreakerHeat: Sourced<readonly HeatPoint[]> = {
  value: [
    [40, 1],
    [55, 0.92],
    [60, 0.85],
    [70, 0.69],
  ],
  unit: '',
  prov: 'seen',
  source: 'one panel-breaker table',
  range: 'up to 70 °C',
};

const BLADE_E: readonly HeatPoint[] = fuseTypicalTable.rows.flatMap((row) =>
  row.ambientC === null || row.usableA === null ? [] : [[row.ambientC, row.usableA / row.ratingA] as const],
);

/**
 * Share of its rating that a blade type E carries at an ambient temperature in °C: read for 40 A (40, 34, 30,
 * 25, 22 A at 20, 65, 85, 110,
 * 125 °C), straight lines between, 1 below 20 °C. Other ratings in proportion (computed). Above 125 °C no
 * figure.
 */
export function bladeEHeatFactor(celsius: number, ratingA: number): Figure {
  const source = 'typical data-sheet figures, blade type E 40 A';
  const factor = along(BLADE_E, celsius);
  if (factor === undefined) return noFigure(`no heat factor is published at ${celsius} °C`);
  return {
    value: factor,
    unit: '',
    prov: ratingA === 40 ? 'seen' : 'computed',
    source,
    range: 'up to 125 °C',
  };
}

/**
 * Share of its rating that a panel breaker carries at a temperature in °C; 1 below 40 °C, no figure above 70
 * °C.
 */
export function panelBreakerHeatFactor(celsius: number): Figure {
  const factor = along(panelBreakerHeat.value, celsius);
  if (factor === undefined) return noFigure(`the panel-breaker table ends at 70 °C, below ${celsius} °C`);
  const { prov, source, range } = panelBreakerHeat;
  return { value: factor, unit: '', prov, source, ...(range === undefined ? {} : { range }) };
}

/**
 * Straight lines between points of rising temperature; the first value below the first; nothing beyond the
 * last.
 */
function along(points: readonly HeatPoint[], celsius: number): number | undefined {
  const above = points.find((point) => point[0] >= celsius);
  if (above === undefined) return undefined;
  const below = points.findLast((point) => point[0] <= celsius) ?? above;
  if (below[0] === above[0]) return above[1];
  return below[1] + ((celsius - below[0]) / (above[0] - below[0])) * (above[1] - below[1]);
}

/** Voltage lost across a fuse at its rated current; its resistance is this over the rating. */
export const fuseDropAtRating: Sourced = {
  value: 0.1,
  unit: 'V',
  prov: 'seen',
  band: [0.075, 0.15],
  source: 'typical data-sheet figures, blades of 40 A: 75 and 96 mV; the upper end by practice',
};

/** Voltage lost across a breaker at its rated current. */
export const breakerDropAtRating: Sourced = {
  value: 0.1,
  unit: 'V',
  prov: 'practice',
  band: [0.075, 0.15],
  source: 'common practice, no source',
};
