/** The companion's side: one build after the other under slack or stiff values, as it is asked about them. */
import type { Asked, Pushed } from '../checks/company.ts';
import type { Judgement } from '../contracts/index.ts';
import type { Beside } from './beside.ts';
import type { FromCompanion, ToCompanion } from './companions.ts';
import { openSession, type Session } from './session.ts';

/** So many judgements are told in one message, fewer where all is answered. */
const TOLD_AT_ONCE = 40;

/** So often a build is judged in a rehearsal: once leaves much to the machine's compiler. */
const REHEARSALS = 2;

/** Judges for others under one assumption. Messages come by `hear`, the work is done by `step`; both on one thread. */
export class Companion {
  readonly #push: Pushed;
  readonly #tell: (message: FromCompanion) => void;
  #question = 0;
  #work: Generator<unknown, void, undefined> | null = null;
  #asked: Asked[] = [];
  #beside: Beside | null = null;
  /** Laid aside while there are questions; gone on with later, whatever the text is then. */
  #rehearsal: Generator<unknown, void, undefined> | null = null;
  /** The build before: what did not change is taken over. */
  #before: Session | null = null;

  /** `tell` sends a message to who asks. */
  constructor(push: Pushed, tell: (message: FromCompanion) => void) {
    this.#push = push;
    this.#tell = tell;
  }

  /** A message has come. One of another question ends all work on the one before. */
  hear(message: ToCompanion): void {
    const { question } = message;
    if (question < this.#question) return;
    if (question > this.#question) {
      this.#question = question;
      this.#asked = [];
      this.#work = null;
      this.#beside = null;
    }
    if (message.does === 'rehearse') this.#work = this.#rehearsal ??= this.#rehearsing(message.text);
    if (message.does !== 'ask') return;
    this.#asked.push(...message.asked);
    this.#work ??= this.#answering(message.text);
  }

  /** Does one step of the work; false: there is none before the next message. */
  step(): boolean {
    const work = this.#work;
    if (work === null) return false;
    try {
      if (work.next().done === true) this.#work = null;
    } catch (error) {
      this.#work = null;
      this.#tell({ question: this.#question, push: this.#push, failed: String(error) });
    }
    return true;
  }

  *#answering(text: string): Generator<unknown, void, undefined> {
    const beside = (this.#beside ??= yield* this.#solved(text));
    while (this.#asked.length > 0) {
      const said: [string, Judgement][] = [];
      for (const asked of this.#asked.splice(0, TOLD_AT_ONCE)) {
        said.push([asked.id, beside.judge(asked)]);
        yield;
      }
      this.#tell({ question: this.#question, push: this.#push, said });
    }
  }

  *#rehearsing(text: string): Generator<unknown, void, undefined> {
    for (let round = 0; round < REHEARSALS; round += 1) {
      const beside = yield* this.#solved(text);
      for (const asked of beside.rehearsal()) {
        beside.judge(asked);
        yield;
      }
    }
    this.#rehearsal = null;
    this.#tell({ question: this.#question, push: this.#push, rehearsed: true });
  }

  *#solved(text: string): Generator<unknown, Beside, undefined> {
    const session = openSession(text, this.#before === null ? {} : { after: this.#before });
    this.#before = session;
    yield;
    const beside = session.beside(this.#push);
    if (beside === null) throw new Error('a build that takes no company');
    yield* beside.solving();
    return beside;
  }
}
