/** The public surface of the engine: command line, server and app import only this. */
import { jsonSchema, type JsonSchema } from './document/index.ts';
import { makeRegistry } from './kinds/registry.ts';
import { kindEntries, type KindEntry } from './session/index.ts';

export * from './contracts/index.ts';
export * from './report/index.ts';
export { formatDiagnostic, type Diagnostic, type DocumentSource, type JsonSchema } from './document/index.ts';
export { WAITING, type Asked, type Company, type Pushed, type Waiting } from './checks/company.ts';
export { checks } from './checks/registry.ts';
export * from './drawing/index.ts';
export {
  editDistance,
  formatQuantity,
  formatSize,
  inOtherSystem,
  NO_BREAK_SPACE,
  nearest,
  parseQuantity,
  parseSize,
  type Size,
} from './quantity/index.ts';
export {
  handChoices,
  handsOfState,
  positionWords,
  stateOfHands,
  turned,
  type HandChoice,
  type HandName,
  type StateOfHands,
  type VehicleHands,
} from './conditions/index.ts';
export * from './operate/live/index.ts';
export type { JudgedRemedy } from './remedies/index.ts';
export {
  Companion,
  Companions,
  openSession,
  type Beside,
  type FromCompanion,
  type Judged,
  type KindEntry,
  type Post,
  type ScheduleRow,
  type Session,
  type SessionOptions,
  type Slip,
  type SlipField,
  type SlipFigure,
  type ToCompanion,
} from './session/index.ts';
export * from './sizing/index.ts';

/** JSON Schema of the build document, for editors. */
export function documentSchema(): JsonSchema {
  return jsonSchema(makeRegistry());
}

/** The kinds of parts that can be added to a build. */
export function partKinds(): readonly KindEntry[] {
  return kindEntries(makeRegistry());
}
