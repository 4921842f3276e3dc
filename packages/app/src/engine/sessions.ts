/** Sessions by their text: opened once, kept while they are recent. */
import { openSession, type Session } from '@loomwright/engine';

/** Enough for a first answer with all its trials. */
const KEPT = 24;

export class Sessions {
  readonly #byText = new Map<string, Session>();
  /** What does not differ from it is taken over. */
  #newest: Session | null = null;

  of(text: string, file = 'this build'): Session {
    const after = this.#newest === null ? {} : { after: this.#newest };
    const known = this.#byText.get(text) ?? openSession(text, { file, ...after });
    this.keep(known, text);
    return known;
  }

  known(text: string): Session | undefined {
    return this.#byText.get(text);
  }

  keep(session: Session, text = session.source.text): void {
    this.#newest = session;
    this.#byText.delete(text);
    this.#byText.set(text, session);
    if (this.#byText.size > KEPT) this.#byText.delete(this.#byText.keys().next().value ?? '');
  }
}
