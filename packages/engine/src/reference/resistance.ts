/** Resistance of conductors at 20 °C. */
import type { Size, SizeFamily } from '../quantity/size.ts';
import { copperResistivity20, strandingFactor } from './copper.ts';
import type { Figure, Prov, Sourced } from './sourced.ts';
import { noFigure, weakest } from './sourced.ts';
import { awgTable } from './tables/awg.ts';
import { metricConductorsTable } from './tables/metric-conductors.ts';

/**
 * How a conductor is made: flexible by IEC 60228 class 5, road-vehicle cable by ISO 6722, or to AWG or SAE
 * rules.
 */
export type Strand = 'iec-5' | 'iso-6722' | 'awg' | 'sae';

/** The strand by the way in which a size is written. */
export const STRAND_OF: Readonly<Record<SizeFamily, Strand>> = {
  metric: 'iec-5',
  awg: 'awg',
  sae: 'sae',
  auto: 'iec-5',
};

interface Point {
  readonly areaMm2: number;
  readonly ohmPerKm: number;
  readonly prov: Prov;
}

const IEC_5: readonly Point[] = metricConductorsTable.rows.flatMap((row) =>
  row.class5 === null ? [] : [{ areaMm2: row.areaMm2, ohmPerKm: row.class5, prov: row.provIec ?? 'memory' }],
);
const ISO_6722: readonly Point[] = metricConductorsTable.rows.map((row) => ({
  areaMm2: row.areaMm2,
  ohmPerKm: row.iso,
  prov: row.provIso,
}));

const IEC_SOURCE = 'IEC 60228:2004 class 5, plain copper, greatest value at 20 °C';
const ISO_SOURCE = 'ISO 6722-1 / ISO 19642-3, greatest value at 20 °C';

/**
 * Resistance of one metre of the conductor at 20 °C, Ω/m.
 *
 * The published value where the size is in the table of its strand. A metric size between two published ones:
 * the larger
 * product R·S of the two over its own area (so never too low; at most the value of the smaller one), beyond the
 * ends the product of the last. SAE sizes, and sizes of another
 * family made to AWG or SAE rules: 1.7241e-8 Ω·m x 1.02 / area (SAE prints no resistance). Cable sold by
 * outside diameter: IEC class 5
 * at its lowest quoted area, memory. `strand` not given: by the way the size is written.
 */
export function resistancePerMetre20(size: Size, strand: Strand = STRAND_OF[size.family]): Figure {
  if (!(size.areaMm2 > 0)) return noFigure('a conductor without copper area has no resistance');
  const figure = byStrand(size.areaMm2, strand);
  if (size.family !== 'auto') return figure;
  return { ...figure, prov: 'memory', source: `${figure.source}; area of ${size.name} from memory` };
}

function byStrand(areaMm2: number, strand: Strand): Sourced {
  if (strand === 'iec-5') return metric(areaMm2, IEC_5, IEC_SOURCE);
  if (strand === 'iso-6722') return metric(areaMm2, ISO_6722, ISO_SOURCE);
  const row = strand === 'awg' ? awgTable.rows.find((candidate) => candidate.areaMm2 === areaMm2) : undefined;
  return row === undefined ? byArea(areaMm2, strand) : ohms(row.strandedOhmPerKm20, row.prov, AWG_SOURCE);
}

const AWG_SOURCE =
  'NEC chapter 9 table 8, stranded uncoated copper at 75 °C, referred to 20 °C by 254.5/309.5 (sizes without a row: solid x 1.02)';

function byArea(areaMm2: number, strand: Strand): Sourced {
  const ohmPerKm = (copperResistivity20.value * 1e9 * strandingFactor.value) / areaMm2;
  // 0.508 mm² is 20 SAE, whose area itself is from memory.
  const prov: Prov = strand === 'sae' && areaMm2 === 0.508 ? 'memory' : 'computed';
  return ohms(ohmPerKm, prov, '1.7241e-8 Ω·m (IEC 60028) x 1.02 for stranding / copper area');
}

function metric(areaMm2: number, points: readonly Point[], source: string): Sourced {
  const exact = points.find((point) => point.areaMm2 === areaMm2);
  if (exact !== undefined) return ohms(exact.ohmPerKm, exact.prov, source);
  const below = points.findLast((point) => point.areaMm2 < areaMm2);
  const above = points.find((point) => point.areaMm2 > areaMm2);
  const near = [below, above].filter((point) => point !== undefined);
  const product = Math.max(...near.map((point) => point.ohmPerKm * point.areaMm2));
  const prov = weakest('computed', ...near.map((point) => point.prov));
  const names = near.map((point) => `${point.areaMm2} mm²`).join(' and ');
  // More copper than the next smaller size never has more resistance.
  const ohmPerKm = Math.min(product / areaMm2, below?.ohmPerKm ?? Number.POSITIVE_INFINITY);
  return ohms(ohmPerKm, prov, `${source}; from ${names} by the larger product of resistance and area`);
}

function ohms(ohmPerKm: number, prov: Prov, source: string): Sourced {
  return { value: ohmPerKm / 1000, unit: 'Ω/m', prov, source };
}
