/** Smallest conductors that rules permit. */
import type { Sourced } from './sourced.ts';

/** Smallest conductors of the rules, mm² of copper. */
export const smallestConductor = {
  /** 16 AWG, single conductor. */
  cfr: { value: 1.3087, unit: 'mm²', prov: 'seen', source: '33 CFR 183.425(e): 16 AWG' },
  /** 18 AWG, in a multiconductor sheath. */
  cfrSheathed: { value: 0.823, unit: 'mm²', prov: 'seen', source: '33 CFR 183.425(d): 18 AWG' },
  iso: {
    value: 1,
    unit: 'mm²',
    prov: 'seen',
    source: 'ISO 10133:2012 7.7 (now ISO 13297)',
    range: 'single conductor longer than 200 mm',
  },
  isoSheathed: { value: 0.75, unit: 'mm²', prov: 'seen', source: 'ISO 10133:2012 7.7 (now ISO 13297)' },
} as const satisfies Record<string, Sourced>;
