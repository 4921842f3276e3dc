/** Permitted distances from a source to its protective device, and other published minimums that checks use. */
import type { Prov, Sourced } from './sourced.ts';

const metres = (value: number, prov: Prov, source: string, range?: string): Sourced => ({
  value,
  unit: 'm',
  prov,
  source,
  ...(range === undefined ? {} : { range }),
});

/** Greatest conductor length from the source to the first protective device, m. */
export const protectionDistance = {
  /** 7 in. */
  cfr: metres(0.178, 'seen', '33 CFR 183.455(a)'),
  /** 40 in, in a sheath or an enclosure over the whole distance. */
  cfrEnclosed: metres(
    1.016,
    'seen',
    '33 CFR 183.455(a)',
    'conductor in a sheath or enclosure over the whole distance',
  ),
  /** 72 in, ungrounded conductor at a battery. */
  cfrBattery: metres(1.829, 'memory', '33 CFR 183.460', 'ungrounded conductor that leaves a battery'),
  iso: metres(0.2, 'memory', 'ISO 10133:2012 / ISO 13297 clause 8'),
  isoCraft: metres(0.18, 'seen', 'ISO 13590:2018', 'personal watercraft'),
  isoCraftSheathed: metres(0.5, 'seen', 'ISO 13590:2018', 'personal watercraft, sheathed'),
  isoCraftBattery: metres(
    0.9,
    'seen',
    'ISO 13590:2018',
    'personal watercraft, conductor that starts at a battery',
  ),
  /** 18 in from where the supply enters the vehicle. */
  nec: metres(0.457, 'seen', 'NEC 552.10(E)(4)', 'recreational vehicles, from the supply connection'),
} as const;

/** Greatest rating of a protective device over the ampacity of its conductor. */
export const protectionShare = {
  cfr: { value: 1.5, unit: '', prov: 'seen', source: '33 CFR 183.455(c), under 50 V' },
  iso: { value: 1.5, unit: '', prov: 'seen', source: 'ISO 13590:2018' },
} as const satisfies Record<string, Sourced>;

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

/** Greatest distance between supports of a conductor, m. */
export const supportInterval = {
  iso: metres(0.45, 'seen', 'ISO 10133:2012 7.3', 'unless in conduit, trunking or tray'),
  isoBattery: metres(0.3, 'seen', 'ISO 10133:2012 7.4', 'battery conductors to the isolator'),
} as const;

/** Greatest voltage drop as a share of the nominal voltage. */
export const dropShare = {
  critical: {
    value: 0.03,
    unit: '',
    prov: 'seen',
    source: 'marine practice (ABYC E-11): feeds, blowers, navigation lights',
  },
  other: { value: 0.1, unit: '', prov: 'seen', source: 'marine practice (ABYC E-11): other circuits' },
} as const satisfies Record<string, Sourced>;

/** Free area of each of the two vents, low and high, of a battery compartment. */
export const batteryVentArea: Sourced = {
  value: 1100,
  unit: 'mm²',
  prov: 'seen',
  source: 'NEC 552.10(D): 1.7 in² each',
};
