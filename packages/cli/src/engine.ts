/** What the commands need of the engine; `index.ts` hands in the real one, tests may hand in one of their own. */
import type { Session, SessionOptions } from '@loomwright/engine';

export interface Engine {
  readonly open: (text: string | Uint8Array, options: SessionOptions) => Session;
  /** JSON Schema of the build document. */
  readonly documentSchema: () => unknown;
}
