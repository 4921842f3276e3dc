/** Types that all rooms share. */
export type * from './build.ts';
export { REQUIREMENTS } from './build.ts';
export type * from './element.ts';
export type * from './field.ts';
export type * from './finding.ts';
export { VERDICTS } from './finding.ts';
export type * from './ids.ts';
export { CORNER_IDS, STATE_IDS } from './ids.ts';
export type * from './kind.ts';
export type * from './operation.ts';
export type * from './symbol.ts';
export type * from './values.ts';
