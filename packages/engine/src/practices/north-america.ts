/** North America: 33 CFR part 183, with the marine practice that follows it. Not vehicle law: published numbers for low-voltage dc wiring. */
import type { Practice, Statement } from '../contracts/index.ts';
import { bundleFactor } from '../reference/index.ts';
import { distance, dropLimit, published } from './basis.ts';
import { GENERAL } from './general.ts';
import { numbered } from './numbered.ts';
import { table33cfr } from './tables.ts';

const OWN: readonly Statement[] = [
  {
    id: 'NA-1',
    text: 'The continuous current of a conductor stays within table 5, by its copper and its insulation; a size between two of the table counts as the smaller. (The European tables give the same copper less: 6 AWG, 13.3 mm², at 105 °C 120 A here, 16 mm² in conduit 62 A there.)',
    source: '33 CFR 183.425, table 5',
    prov: 'seen',
  },
  {
    id: 'NA-2',
    text: 'Three or more loaded conductors together carry less: 0.7 for three, 0.6 for four to six, 0.5 for seven to twenty-four, 0.4 above. The regulation asks it from 50 V up; marine practice, and this practice, in every circuit.',
    source: '33 CFR 183.425 table 5 note 2, 183.435',
    prov: 'seen',
  },
  {
    id: 'NA-3',
    text: 'In an engine space the engine-space factor or the factor of the air at the place applies, whichever is smaller; elsewhere the factor of the air from 30 °C.',
    source: '33 CFR 183.425 table 5 note 1; square-root rule of NEC 310.15(B)',
    prov: 'seen',
  },
  {
    id: 'NA-4',
    text: 'Each ungrounded conductor has a fuse or breaker within 178 mm (7 in) of every source that can feed it, 1,016 mm (40 in) where it is sheathed or enclosed all the way. (A longer 72 in from a battery is quoted from 183.460; it is not used. Europe: 200 mm.)',
    source: '33 CFR 183.455(b)',
    prov: 'seen',
  },
  {
    id: 'NA-5',
    text: 'The devices that feed a conductor allow it no more than 100 % of its ampacity. (33 CFR 183.455(c) permits up to 150 % under 50 V: printed beside the verdict as advice. ISO 13297 asks for 100 %.)',
    source: 'this practice, stricter than 33 CFR 183.455(c)',
    prov: 'practice',
  },
  {
    id: 'NA-6',
    text: 'Breakers are reset by hand and trip free of their handle.',
    source: '33 CFR 183.455(a)',
    prov: 'seen',
  },
  {
    id: 'NA-7',
    text: 'A consumer marked critical loses at most 3 % of nominal volts around its whole loop. Converter inputs and battery charging have no limit of their own: 3 % is advice there.',
    source: 'marine practice (ABYC E-11)',
    prov: 'seen',
  },
  {
    id: 'NA-8',
    text: 'Any other consumer loses at most 10 % of nominal volts around its whole loop.',
    source: 'marine practice (ABYC E-11)',
    prov: 'seen',
  },
  {
    id: 'NA-9',
    text: 'No single conductor is smaller than 16 AWG; 18 AWG only inside a common sheath, which it leaves by 762 mm (30 in) at most. Circuits under 1 A and pigtails under 178 mm are left out. (Europe: 1 mm², 0.75 mm² in a sheath.)',
    source: '33 CFR 183.425(d) to (f)',
    prov: 'seen',
  },
  {
    id: 'NA-10',
    text: 'No more than four lugs share a stud, the largest underneath; no wing nuts from 6 AWG up.',
    source: 'marine practice (ABYC E-10, E-11)',
    prov: 'seen',
  },
  {
    id: 'NA-11',
    text: 'The main device at a battery breaks at least 1,500 A up to 650 A of cold cranking current, 3,000 A to 1,100 A, 5,000 A above; the table knows no lithium: there the fault current of the cells is computed and 20 kA is usual.',
    source: 'marine practice (ABYC E-11), 12 to 24 V',
    prov: 'seen',
  },
  {
    id: 'NA-12',
    text: 'A battery moves at most 25.4 mm under 400 N or twice its weight, whichever is less.',
    source: '33 CFR 183.420',
    prov: 'seen',
  },
  {
    id: 'NA-13',
    text: 'The bond to the chassis is at least 8 AWG and no smaller than the largest live conductor of the battery.',
    source: 'NEC article 551',
    prov: 'seen',
  },
  {
    id: 'NA-14',
    text: 'A cable surrounded by heat-insulating wall carries 0.89 of its current from 50 mm on, 0.55 from 400 mm, half from 500 mm. (A European rule; no figure of this practice is known.)',
    source: 'BS 7671, older edition, as reprinted',
    prov: 'seen',
  },
];

const MARINE = 'marine practice (ABYC E-11)';

export const northAmerica: Practice = {
  id: 'north-america',
  title: 'North America (33 CFR part 183 and marine practice)',
  statements: numbered([...GENERAL, ...OWN]),
  ratingFactor: 1,
  reach: {
    plain: distance(
      'table:reach/north-america/plain',
      'unprotected length',
      0.178,
      'seen',
      '33 CFR 183.455(b), 7 in',
    ),
    sheathed: distance(
      'table:reach/north-america/sheathed',
      'unprotected length in a sheath or enclosure',
      1.016,
      'seen',
      '33 CFR 183.455(b), 40 in',
    ),
    doubtful: null,
  },
  tables: [table33cfr],
  bundle: (count) =>
    published(
      'table:bundle/33-cfr-183',
      `factor for ${count} loaded conductors together`,
      bundleFactor(count),
    ),
  dropLimits: {
    critical: dropLimit(
      'table:drop/north-america/critical',
      'greatest loss of a critical consumer',
      0.03,
      MARINE,
    ),
    other: dropLimit('table:drop/north-america/other', 'greatest loss of a consumer', 0.1, MARINE),
  },
};
