/** The state of the one build on the desk, and nothing that changes it. */
import type { Order } from '@loomwright/engine';
import type { Build, Diagnostic, JudgedView } from './engine/plain.ts';
import type { Step } from './store/steps.ts';
import { Store } from './store/store.ts';

export interface BuildState {
  /** null: nothing is open. */
  readonly text: string | null;
  /** Of the text; of the last text that could be read while the present one has errors. */
  readonly build: Build | null;
  /** Whether `build` is that of the present text. */
  readonly readable: boolean;
  readonly diagnostics: readonly Diagnostic[];
  /** The present text, or the last one that could be read. */
  readonly readableText: string | null;
  /** The newest findings that there are; see `judging`. */
  readonly judged: JudgedView | null;
  /** A newer text is being judged. */
  readonly judging: boolean;
  /** While it is: ids of the findings that are judged anew; all others are of the text before. */
  readonly anew: ReadonlySet<string>;
  readonly back: readonly Step[];
  readonly forth: readonly Step[];
  /** What the last edit did, in one line; empty before the first. */
  readonly said: string;
  /** Why the last edit was refused. */
  readonly refused: readonly Diagnostic[];
  /** How the drawing is to be ordered since the last wish for it, or since that was taken back. */
  readonly arranged: Order | null;
  /** Set when the engine itself failed. The text is never touched by that. */
  readonly failed: string | null;
}

export const NOTHING: BuildState = {
  text: null,
  build: null,
  readable: false,
  diagnostics: [],
  readableText: null,
  judged: null,
  judging: false,
  anew: new Set(),
  back: [],
  forth: [],
  said: '',
  refused: [],
  arranged: null,
  failed: null,
};

export const buildStore = new Store<BuildState>(NOTHING);

export const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
