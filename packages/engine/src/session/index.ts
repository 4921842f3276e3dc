export type { Beside } from './beside.ts';
export { Companion } from './companion.ts';
export { Companions, type FromCompanion, type Post, type ToCompanion } from './companions.ts';
export { openSession, type Judged, type Session, type SessionOptions } from './session.ts';
export { kindEntries, type KindEntry, type Slip, type SlipField, type SlipFigure } from './slips.ts';
export type { ScheduleRow } from './schedule.ts';
