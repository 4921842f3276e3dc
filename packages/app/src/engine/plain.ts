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
import type { DrawWish, Sketch } from './drawer.ts';

/** A value of a document as it is written: with units in strings. */
export type Notation = NonNullable<ReturnType<DocumentSource['notation']>>;

/** A document as read. */
export interface Opened {
  readonly text: string;
  /** null when the document has errors. */
  readonly build: Build | null;
  readonly diagnostics: readonly Diagnostic[];
  /** What can be drawn of it at once, where that was asked for, with what was asked for; else null. */
  readonly drawing: { readonly of: DrawWish; readonly sketch: Sketch } | null;
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
  /** null: of several: what is judged already of the newest one, the rest of the one before. */
  readonly text: string | null;
  readonly findings: readonly Finding[];
  readonly tally: Tally;
  readonly firstLine: string;
  readonly exitCode: 0 | 1;
  readonly assumed: readonly Basis[];
  readonly auto: AutoView | null;
}

/** What was judged in one stretch; final for that text. Only what differs from what was told before is sent again. */
export interface JudgedPart {
  readonly text: string;
  /** Findings that are not as they were when they were told last. */
  readonly changed: readonly Finding[];
  /** Ids of those that are. */
  readonly same: readonly string[];
}

/** All is judged: as `JudgedView`, with what was told already left out. */
export interface JudgedWhole extends Omit<JudgedView, 'findings' | 'text'> {
  readonly text: string;
  /** Ids of all findings, in order. */
  readonly order: readonly string[];
  readonly changed: readonly Finding[];
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
