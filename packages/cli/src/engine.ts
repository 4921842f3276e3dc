/** What the commands need of the engine; `index.ts` hands in the real one, tests a small one of their own. */
import type { Build, Change, Fact, Finding, Operation, Basis, StateTable, Tally } from '@loomwright/engine';

/** A fault of a document, with its place. Lines and columns count from 1. */
export interface Diagnostic {
  readonly severity: 'error' | 'warning';
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

export interface Judged {
  /** In order: danger, fault, open, advice, met. */
  readonly findings: readonly Finding[];
  readonly tally: Tally;
  readonly exitCode: 0 | 1 | 2;
  /** Ids of the judged set. */
  readonly conditions: readonly string[];
  /** Nominal. */
  readonly operation: Operation;
  readonly auto: AutoResult | null;
  readonly assumed: readonly Basis[];
  readonly firstLine: string;
}

/** What `size: auto` came to. */
export interface AutoResult {
  readonly size: string;
  readonly governedBy: string | null;
}

/** A remedy that was applied to a copy and judged. */
export interface JudgedRemedy {
  readonly title: string;
  readonly changes: readonly Change[];
  readonly before: Finding;
  /** The same finding afterwards; null when it is gone. */
  readonly after: Finding | null;
  readonly tallyBefore: Tally;
  readonly tallyAfter: Tally;
  /** Findings that are worse than before. */
  readonly worse: readonly string[];
}

export interface Session {
  readonly diagnostics: readonly Diagnostic[];
  readonly build: Build | null;
  judge(): Judged;
  facts(): readonly Fact[];
  remedies(findingId: string): readonly JudgedRemedy[];
  states(all?: boolean): StateTable;
}

export interface Engine {
  open(text: string | Uint8Array, options?: { readonly file?: string }): Session;
  /** JSON Schema of the build document. */
  documentSchema(): unknown;
}
