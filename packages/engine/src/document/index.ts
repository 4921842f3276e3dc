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
