/** Sessions of changed documents: what was foreseen while it was typed is not made again. */
import type { Change, Session } from '@loomwright/engine';
import type { Sessions } from './sessions.ts';

export class Edits {
  readonly #sessions: Sessions;
  #foreseen: { readonly key: string; readonly next: Session } | null = null;

  constructor(sessions: Sessions) {
    this.#sessions = sessions;
  }

  /** What changes make of a text. */
  of(text: string, changes: readonly Change[]): Session {
    const known = this.#foreseen;
    return known?.key === keyOf(text, changes) ? known.next : this.#sessions.of(text).edit(changes);
  }

  /** The same, and remembers it. */
  foresee(text: string, changes: readonly Change[]): Session {
    const next = this.of(text, changes);
    this.#foreseen = { key: keyOf(text, changes), next };
    return next;
  }
}

const keyOf = (text: string, changes: readonly Change[]): string => `${JSON.stringify(changes)}\n${text}`;
