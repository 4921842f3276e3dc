/** Those of the six facts that are not known, each with how it is had and what it could change. */
import type { Answers } from '@loomwright/engine';
import { houseOf, type FactId } from './facts.ts';

export interface Missing {
  readonly fact: FactId;
  readonly what: string;
  readonly how: string;
  readonly changes: string;
}

const ALL: readonly (Missing & { readonly open: (answers: Answers) => boolean })[] = [
  {
    fact: 'supply',
    what: 'The maker’s limit for added loads',
    how: 'read the maker’s instructions for body builders',
    changes: 'all six',
    open: ({ supply }) => supply === 'converter',
  },
  {
    fact: 'supply',
    what: 'What feeds the net',
    how: 'look for a sensor on the minus post; log the post on a drive',
    changes: 'hunts, run signal, Ah',
    open: ({ supply }) => supply === undefined,
  },
  {
    fact: 'way',
    what: 'The way, one way',
    how: 'lay a string and measure it',
    changes: 'cable, fuse',
    open: ({ length }) => length === undefined,
  },
  {
    fact: 'return',
    what: 'The way back',
    how: 'decide: a cable, or the body once its loop is measured',
    changes: 'cable, hunts',
    open: (answers) => answers.return === undefined,
  },
  {
    fact: 'house',
    what: 'The house battery',
    how: 'read its plate: chemistry, Ah, charge limit',
    changes: 'charger, highest volts',
    open: ({ house }) => houseOf(house).chemistry === undefined || houseOf(house).capacity === undefined,
  },
  {
    fact: 'stock',
    what: 'Sizes in stock',
    how: 'look on the shelf',
    changes: 'cable',
    open: ({ stock }) => stock === undefined,
  },
];

export const missingFacts = (answers: Answers): readonly Missing[] =>
  ALL.filter((each) => each.open(answers));
