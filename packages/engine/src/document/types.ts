/** What the document room gives out. */
import type { Build, Path } from '../contracts/index.ts';

export type Severity = 'error' | 'warning' | 'info';

/** One thing to say about a document, with the place it stands at. Lines and columns count from 1, columns in UTF-16 units. */
export interface Diagnostic {
  readonly severity: Severity;
  readonly line: number;
  readonly column: number;
  /** The text that was found, as typed; empty when something is missing. */
  readonly found: string;
  /** What is expected there, in words. */
  readonly expected: string;
  /** The valid name nearest to what was found. */
  readonly nearest?: string;
  /** The whole sentence for the person who wrote the document: found, expected, what to do. */
  readonly message: string;
  /** Path in the document; empty for the document as a whole. */
  readonly path: Path;
  /** Another place that belongs to it, such as the first of two equal keys. */
  readonly related?: { readonly line: number; readonly column: number; readonly says: string };
}

/** A stretch of text; `endColumn` is behind the last character. */
export interface Span {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/**
 * A value in the notation of documents: what a person would write, with units in strings (`'40 A'`). Numbers and booleans
 * are written as they are (true = yes).
 */
export type Notation = string | number | boolean | readonly Notation[] | { readonly [key: string]: Notation };

/** The text of a document with the places of its values. */
export interface DocumentSource {
  /** The text as given (of a migrated document: as migrated), byte-order mark included. */
  readonly text: string;
  readonly file: string;
  /** Where the value at a path stands; null when there is none. */
  span(path: Path): Span | null;
  /** Where the key of a path stands; null when there is none. */
  keySpan(path: Path): Span | null;
  /** The value at a path as written, comments left out; undefined when there is none. */
  notation(path: Path): Notation | undefined;
}

/** Counts the work of reading, for tests of the work bound. */
export interface Steps {
  nodes: number;
}

export interface ReadOptions {
  /** Name for messages; default `document`. */
  readonly file?: string;
  readonly steps?: Steps;
  /** An earlier state of the document: what did not change is taken over. The result is the same without. */
  readonly before?: DocumentSource;
}

/** A document as read: the build when there is no error, all diagnostics in the order of the text, and the source. */
export interface ReadResult {
  readonly build: Build | null;
  readonly diagnostics: readonly Diagnostic[];
  readonly source: DocumentSource;
}
