/** Documents: reading, writing, changing, migrating; what is wrong with them, in lines and columns. */
export { formatDiagnostic } from './format-diagnostic.ts';
export { readDocument } from './read.ts';
export type {
  Diagnostic,
  DocumentSource,
  Notation,
  ReadOptions,
  ReadResult,
  Severity,
  Span,
  Steps,
} from './types.ts';
export { applyChanges, editText, type Applied, type Edited } from './change.ts';
export { migrations, type Migration } from './migrations.ts';
export { jsonSchema, type JsonSchema } from './schema.ts';
export { commented, writeDocument, type Commented } from './write.ts';
export { isKnownEnd } from './ids.ts';
