export { changeAt, makeLive, momentAt, type Live } from './live.ts';
export { LIVE_VOLTS } from './reading.ts';
export type * from './types.ts';
