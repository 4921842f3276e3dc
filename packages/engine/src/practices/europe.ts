/** Europe: ISO 13297 (small craft, dc; formerly ISO 10133) with the tables of IEC 60364-5-52. Not vehicle law. */
import type { Practice, Statement } from '../contracts/index.ts';
import { bundleFactor } from '../reference/index.ts';
import { distance, dropLimit, published } from './basis.ts';
import { GENERAL } from './general.ts';
import { numbered } from './numbered.ts';
import { tableIec, tableIso } from './tables.ts';

const OWN: readonly Statement[] = [
  {
    id: 'EU-1',
    text: 'The continuous current of a conductor stays within IEC 60364-5-52: method B2 in conduit, loom or bundle, C free below 25 mm², F from there on. That standard is for fixed installations (caravans: part 7-721), not for road-vehicle looms, and lies on the safe side; what fails it but holds by ISO 13297, whose table is written here from memory, stays open until somebody confirms that table.',
    source: 'IEC 60364-5-52 table B.52, as reprinted; ISO 13297 annex A from memory',
    prov: 'seen',
  },
  {
    id: 'EU-2',
    text: 'Three or more loaded conductors together carry less: 0.7 for three, 0.6 for four to six, 0.5 for seven to twenty-four, 0.4 above. (Borrowed from 33 CFR 183.425 note 2; common practice here.)',
    source: '33 CFR 183.425 table 5 note 2, used as practice',
    prov: 'practice',
  },
  {
    id: 'EU-3',
    text: 'The next hotter column of air of IEC 60364-5-52 applies, beyond 55 °C the square-root rule from there; an engine space counts as 50 °C at least. With ISO 13297 the engine-space factor or the factor of the air, whichever is smaller.',
    source: 'IEC 60364-5-52; ISO 13297 annex A from memory',
    prov: 'seen',
  },
  {
    id: 'EU-4',
    text: 'Each positive conductor has a fuse or breaker within 200 mm of every source that can feed it. The 200 mm are from memory: up to 178 mm, which 33 CFR prints, it is met; between the two it is open; beyond, a danger. (Sheathed lengths up to 1.8 m from a battery are quoted and not used.)',
    source: 'ISO 13297 clause 8 from memory; 33 CFR 183.455(b)',
    prov: 'memory',
  },
  {
    id: 'EU-5',
    text: 'The devices that feed a conductor allow it no more than 100 % of its ampacity. (33 CFR 183.455(c) and ISO 13590 permit up to 150 %: printed beside the verdict as advice.)',
    source: 'ISO 13297',
    prov: 'seen',
  },
  {
    id: 'EU-6',
    text: 'Breakers are reset by hand and trip free of their handle.',
    source: 'ISO 13297 from memory; 33 CFR 183.455(a)',
    prov: 'memory',
  },
  {
    id: 'EU-7',
    text: 'A consumer marked critical loses at most 3 % of nominal volts around its whole loop. Converter inputs and battery charging have no limit of their own: 3 % is advice there.',
    source: 'ISO 10133',
    prov: 'seen',
  },
  {
    id: 'EU-8',
    text: 'Any other consumer loses at most 10 % of nominal volts around its whole loop.',
    source: 'ISO 10133',
    prov: 'seen',
  },
  {
    id: 'EU-9',
    text: 'No single conductor longer than 200 mm is smaller than 1 mm²; 0.75 mm² only inside a common sheath, which it leaves by 800 mm at most. (North America: 16 AWG, 18 AWG in a sheath.)',
    source: 'ISO 10133:2012, 7.7',
    prov: 'seen',
  },
  {
    id: 'EU-10',
    text: 'No more than four lugs share a stud, the largest underneath.',
    source: 'marine practice (ABYC E-10), used as practice',
    prov: 'practice',
  },
  {
    id: 'EU-11',
    text: 'The main device at a battery breaks the short-circuit current of that battery; for lithium that of the cells, whatever their protection electronics do.',
    source: 'ISO 13297 from memory; interrupting rating of the part',
    prov: 'memory',
  },
  {
    id: 'EU-12',
    text: 'A battery moves at most 10 mm under twice its weight; a vehicle in a crash asks for much more.',
    source: 'ISO 10133:2012',
    prov: 'seen',
  },
  {
    id: 'EU-13',
    text: 'The bond to the chassis is no smaller than the largest live conductor of the battery. (A rule of the NEC; common practice here.)',
    source: 'NEC article 551, used as practice',
    prov: 'practice',
  },
  {
    id: 'EU-14',
    text: 'A cable surrounded by heat-insulating wall carries 0.89 of its current from 50 mm on, 0.55 from 400 mm, half from 500 mm.',
    source: 'BS 7671, older edition, as reprinted',
    prov: 'seen',
  },
  {
    id: 'EU-15',
    text: 'Conductors are supported at least every 450 mm, those between battery and isolator every 300 mm, unless in conduit or trunking.',
    source: 'ISO 10133:2012, 7.3 and 7.4',
    prov: 'seen',
  },
];

const NEAR = distance(
  'table:reach/europe/plain',
  'unprotected length',
  0.178,
  'seen',
  '33 CFR 183.455(b), 7 in: within the 200 mm of ISO 13297, which are from memory',
);

export const europe: Practice = {
  id: 'europe',
  title: 'Europe (ISO 13297, IEC 60364-5-52)',
  statements: numbered([...GENERAL, ...OWN]),
  ratingFactor: 1,
  reach: {
    plain: NEAR,
    // No figure for sheathed lengths is known well enough to be used.
    sheathed: NEAR,
    doubtful: distance(
      'table:reach/europe/iso-13297',
      'unprotected length',
      0.2,
      'memory',
      'ISO 13297 clause 8',
    ),
  },
  tables: [tableIec, tableIso],
  bundle: (count) =>
    published('table:bundle/europe', `factor for ${count} loaded conductors together`, {
      ...bundleFactor(count),
      prov: 'practice',
      source: '33 CFR 183.425 table 5 note 2, used as practice',
    }),
  dropLimits: {
    critical: dropLimit(
      'table:drop/europe/critical',
      'greatest loss of a critical consumer',
      0.03,
      'ISO 10133',
    ),
    other: dropLimit('table:drop/europe/other', 'greatest loss of a consumer', 0.1, 'ISO 10133'),
  },
};
