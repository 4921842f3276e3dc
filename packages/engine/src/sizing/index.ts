/** First design from six facts, and the automatic wire size. */
export { advise, CHARGER_SIZES, type Advice } from './advise.ts';
export { autoWires, sizeAuto, sizeList, type AutoSize } from './auto.ts';
export { designText, type Design } from './design.ts';
export {
  isDontKnow,
  QUESTIONS,
  readFacts,
  type Answers,
  type FactName,
  type Problem,
  type Question,
  type ReadFacts,
  type Return,
  type SixFacts,
} from './six.ts';
export { firstAnswer, type AnswerRow, type FirstRun, type RowId } from './answer.ts';
