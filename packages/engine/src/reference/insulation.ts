/**
 * Insulations of the document: rated temperature, final temperature of a short circuit, k of the adiabatic
 * limit.
 */
import type { Prov, Sourced } from './sourced.ts';
import { adiabaticKTable } from './tables/adiabatic-k.ts';

export const insulationNames = ['pvc-70', 'pvc-90', 'xlpe-90', 'pvc-105'] as const;

export type InsulationName = (typeof insulationNames)[number];

const ROW: Readonly<Record<InsulationName, string>> = {
  'pvc-70': 'PVC 70 C, up to 300 mm2',
  'pvc-90': 'PVC 90 C, up to 300 mm2',
  'xlpe-90': 'XLPE or EPR 90 C thermosetting',
  'pvc-105': 'insulation rated 105 C, final 160 C',
};

export interface Insulation {
  readonly name: InsulationName;
  /** Greatest continuous conductor temperature, °C. */
  readonly ratedC: number;
  /** Greatest conductor temperature at the end of a short circuit, °C. */
  readonly finalC: Sourced;
  /** k of I²t = (k S)², A√s/mm². */
  readonly k: Sourced;
}

/**
 * What is known of an insulation. The final temperature and k of pvc-105 are an assumption and computed from
 * it.
 */
export function insulation(name: InsulationName): Insulation {
  const row = adiabaticKTable.rows.find((candidate) => candidate.insulation === ROW[name]);
  if (row === undefined) throw new RangeError(`no insulation "${name}"`);
  const prov: Prov = row.prov;
  const source =
    row.published === null
      ? 'IEC 60949 formula, final temperature assumed'
      : 'BS 7671 table 43.1, IEC 60364-4-43';
  const range = 'up to 5 s, up to 300 mm², from the rated temperature';
  return {
    name,
    ratedC: row.initialC,
    finalC: { value: row.finalC, unit: '°C', prov, source },
    k: { value: row.published ?? Math.round(row.iec60949 * 10) / 10, unit: 'A√s/mm²', prov, source, range },
  };
}
