/** Rest voltage of batteries by state of charge. */
import type { Figure, Prov } from './sourced.ts';
import { noFigure, weakest } from './sourced.ts';
import { restVoltageTable } from './tables/batteries-ocv.ts';

export type Chemistry = 'flooded' | 'agm' | 'gel' | 'lifepo4' | 'sodium-ion';

export const chemistries: readonly Chemistry[] = ['flooded', 'agm', 'gel', 'lifepo4', 'sodium-ion'];

interface Point {
  readonly charge: number;
  readonly volts: number;
  readonly prov: Prov;
}

function pointsOf(chemistry: Chemistry): readonly Point[] {
  if (chemistry === 'sodium-ion') {
    return [
      { charge: 0, volts: 12, prov: 'memory' },
      { charge: 1, volts: 15, prov: 'memory' },
    ];
  }
  const rows = restVoltageTable.rows.filter((row) => row.chemistry === chemistry);
  return rows
    .map((row) => ({ charge: row.percent / 100, volts: row.volts, prov: row.prov }))
    .toSorted((a, b) => a.charge - b.charge);
}

const POINTS: ReadonlyMap<Chemistry, readonly Point[]> = new Map(
  chemistries.map((chemistry) => [chemistry, pointsOf(chemistry)]),
);

const SOURCES: Readonly<Record<Chemistry, string>> = {
  flooded: 'density table of handbooks, rested flooded lead-acid',
  agm: 'vehicle owner manual, lower edges of the bands; 0 % from memory',
  gel: 'gel lead-acid, from memory',
  lifepo4: 'Safari and Delacourt 2011, equilibrium of four cells, without hysteresis',
  'sodium-ion': 'straight line from 12.0 to 15.0 V, from memory',
};

/**
 * Rest voltage of one 12 V block, V (double it at 24 V, fourfold at 48 V): straight lines between the points of
 * the table.
 * @param charge state of charge, 0 to 1; outside it no figure
 */
export function restVoltage(chemistry: Chemistry, charge: number): Figure {
  if (!(charge >= 0 && charge <= 1))
    return noFigure(`a state of charge lies between 0 and 1, not at ${charge}`);
  const points = POINTS.get(chemistry) ?? [];
  const above = points.find((point) => point.charge >= charge);
  if (above === undefined) return noFigure(`no rest voltage is known for ${chemistry}`);
  const below = points.findLast((point) => point.charge <= charge) ?? above;
  const span = above.charge - below.charge;
  const part = span === 0 ? 0 : (charge - below.charge) / span;
  return {
    value: below.volts + part * (above.volts - below.volts),
    unit: 'V',
    prov: weakest(below.prov, above.prov),
    source: SOURCES[chemistry],
    range: 'rested, near 25 °C, one 12 V block',
  };
}

/** Points of the curve, charge 0 to 1 and volts of a 12 V block, in rising order. */
export function restVoltagePoints(
  chemistry: Chemistry,
): readonly (readonly [charge: number, volts: number])[] {
  return (POINTS.get(chemistry) ?? []).map((point) => [point.charge, point.volts] as const);
}
