/** What crosses from the engine's worker to the screens: plain data only, so that it can be cloned. */
import type {
  AnswerRow,
  Basis,
  Build,
  Change,
  Diagnostic,
  DocumentSource,
  Fact,
  Finding,
  Size,
  StateTable,
  Tally,
} from '@loomwright/engine';

/** A value of a document as it is written: with units in strings. */
export type Notation = NonNullable<ReturnType<DocumentSource['notation']>>;

/** A document as read. */
export interface Opened {
  readonly text: string;
  /** null when the document has errors. */
  readonly build: Build | null;
  readonly diagnostics: readonly Diagnostic[];
}

/** What an edit made of a text. `refused`: nothing was changed, and why. */
export interface EditResult {
  readonly opened: Opened;
  readonly refused: readonly Diagnostic[];
}

/** The size that the engine found for all wires of `size: auto`. */
export interface AutoView {
  readonly size: Size;
  readonly wires: readonly string[];
  readonly governedBy: string | null;
  readonly serves: boolean;
  readonly onceConfirmed: Size | null;
}

/** The findings of a text. */
export interface JudgedView {
  readonly text: string;
  readonly findings: readonly Finding[];
  readonly tally: Tally;
  readonly firstLine: string;
  readonly exitCode: 0 | 1;
  readonly assumed: readonly Basis[];
  readonly auto: AutoView | null;
}

/** A change that clears a finding, judged on a copy. */
export interface RemedyView {
  readonly title: string;
  readonly changes: readonly Change[];
  readonly before: Finding;
  /** null: the finding no longer exists. */
  readonly after: Finding | null;
  readonly fresh: readonly Finding[];
  readonly cleared: readonly Finding[];
  readonly tally: Tally;
}

export type { AnswerRow, Build, Change, Diagnostic, Fact, Finding, StateTable, Tally };
