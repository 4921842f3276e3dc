export { changeAt, momentAt } from './course.ts';
export { makeLive, type Live } from './live.ts';
export { LIVE_VOLTS } from './reading.ts';
export type * from './types.ts';
