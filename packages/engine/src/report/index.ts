/** Text shown to people, made once and from data: pure functions, no width, no colour. */
export {
  bandLine,
  basisAmount,
  basisOrigin,
  basisText,
  factText,
  groupBases,
  measureLine,
  needLine,
  saysLine,
  stepText,
  worstLine,
  type BasisGroup,
  type FactText,
  type StepText,
} from './finding.ts';
export { figures, printBand, printMeasure, printValue } from './measure.ts';
export { firstLine, inOrder, plural, tallyOf, type Tally } from './tally.ts';
export {
  conditionWords,
  cornerWords,
  handWords,
  MARKS,
  provWords,
  sentence,
  stateWords,
  verdictWords,
  wayOf,
  WAYS,
  type Way,
} from './words.ts';
export { readingPoints, type AmpsOf, type ReadingPoint } from './points.ts';
export {
  stateTable,
  type ChargerLine,
  type ReadingCell,
  type ReadingColumn,
  type StateLine,
  type StateTable,
} from './states.ts';
