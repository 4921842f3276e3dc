/** The side of who asks: two companions at work on the newest question, whatever carries the messages to and fro. */
import { PUSHED, type Asked, type Company, type Pushed } from '../checks/company.ts';
import type { Judgement } from '../contracts/index.ts';

/** What is sent to a companion: plain data. A question is about one text; a higher number ends the one before. */
export type ToCompanion = { readonly question: number } & (
  | { readonly does: 'ask'; readonly text: string; readonly asked: readonly Asked[] }
  | { readonly does: 'rehearse'; readonly text: string }
  | { readonly does: 'leave' }
);

/** What a companion sends back: plain data, with the number of the question that it belongs to. */
export type FromCompanion = { readonly question: number; readonly push: Pushed } & (
  | { readonly said: readonly (readonly [id: string, judgement: Judgement])[] }
  | { readonly rehearsed: true }
  | { readonly failed: string }
);

/** How a message gets to a companion. */
export type Post = (push: Pushed, message: ToCompanion) => void;

export class Companions {
  readonly #post: Post;
  readonly #news: () => void;
  readonly #rehearsed = new Set<Pushed>();
  #question = 0;
  #about: Question | null = null;
  #failed = false;

  /** `news` is called whenever something was heard: who waits for a company looks again then. */
  constructor(post: Post, news: () => void) {
    this.#post = post;
    this.#news = news;
  }

  /** Both have judged a build once: before, they are slower than who would ask them. */
  get ready(): boolean {
    return !this.#failed && this.#rehearsed.size === PUSHED.length;
  }

  /** One of them failed: nothing is asked of them any more. */
  get failed(): boolean {
    return this.#failed;
  }

  /** Company for judging a text; that of an earlier text is gone. Nothing is sent before it is asked for something. */
  about(text: string): Company {
    const known = this.#about;
    if (known !== null && known.text === text && !known.gone) return known;
    this.leave();
    const question = this.#question;
    const company = new Question(text, (asked) => this.#send({ question, does: 'ask', text, asked }));
    if (this.#failed) company.end();
    else this.#about = company;
    return company;
  }

  /** Both judge a text for themselves, so that they are quick when they are asked. */
  rehearse(text: string): void {
    this.leave();
    this.#send({ question: this.#question, does: 'rehearse', text });
  }

  /** All work is left. */
  leave(): void {
    const busy = this.#about;
    this.#question += 1;
    this.#about = null;
    busy?.end();
    if (!this.#failed) this.#send({ question: this.#question, does: 'leave' });
    this.#news();
  }

  /** A message has come from one of them. */
  hear(message: FromCompanion): void {
    if (this.#failed) return;
    if ('failed' in message) {
      // Also where it failed on an earlier text: what it is worth is not known then.
      this.fail();
      return;
    }
    if (message.question === this.#question) {
      if ('rehearsed' in message) this.#rehearsed.add(message.push);
      else this.#about?.hear(message.push, message.said);
    }
    this.#news();
  }

  /** They are gone, or never answer: whoever waits goes on alone. */
  fail(): void {
    this.#failed = true;
    this.#about?.end();
    this.#news();
  }

  #send(message: ToCompanion): void {
    for (const push of PUSHED) this.#post(push, message);
  }
}

/** The company for one text. */
class Question implements Company {
  readonly text: string;
  readonly #send: (asked: readonly Asked[]) => void;
  readonly #said: Record<Pushed, Map<string, Judgement>> = { slack: new Map(), stiff: new Map() };
  #heard = 0;
  #gone = false;

  constructor(text: string, send: (asked: readonly Asked[]) => void) {
    this.text = text;
    this.#send = send;
  }

  get gone(): boolean {
    return this.#gone;
  }

  get heard(): number {
    return this.#heard;
  }

  ask(asked: readonly Asked[]): void {
    if (!this.#gone) this.#send(asked);
  }

  said(push: Pushed, id: string): Judgement | null {
    return this.#said[push].get(id) ?? null;
  }

  hear(push: Pushed, said: readonly (readonly [string, Judgement])[]): void {
    this.#heard += 1;
    for (const [id, judgement] of said) this.#said[push].set(id, judgement);
  }

  end(): void {
    this.#gone = true;
  }
}
