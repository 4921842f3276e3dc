/** Judges the newest text only: what is outdated is ended rather than waited for. */
import type { JudgedView } from './plain.ts';
import { startDesk, type AskedDesk, type StartedDesk } from './start-desk.ts';

/** A judging that is younger than this may finish, since a new worker takes about as long to start, ms. */
const WORTH_WAITING = 120;

export class Judge {
  #desk: StartedDesk | null = null;
  #running: { readonly text: string; readonly since: number } | null = null;
  #newest: string | null = null;
  #waiting: Promise<unknown> = Promise.resolve();

  /** The findings of a text; null when a newer one was asked for meanwhile. */
  async judge(text: string): Promise<JudgedView | null> {
    this.#newest = text;
    const running = this.#running;
    if (running !== null && running.text !== text) {
      if (performance.now() - running.since > WORTH_WAITING) this.#end();
      else await this.#waiting.catch(() => undefined);
    }
    if (this.#newest !== text) return null;
    const mine = { text, since: performance.now() };
    this.#running = mine;
    const asked = this.ask.judge(text);
    this.#waiting = asked;
    try {
      const judged = await asked;
      return this.#newest === text ? judged : null;
    } finally {
      if (this.#running === mine) this.#running = null;
    }
  }

  /** The desk on which the newest text lies open: what is asked here for that text begins with its judged session. */
  get ask(): AskedDesk {
    this.#desk ??= startDesk();
    return this.#desk.ask;
  }

  stop(): void {
    this.#newest = null;
    if (this.#running !== null) this.#end();
  }

  #end(): void {
    this.#desk?.end();
    this.#desk = null;
    this.#running = null;
    this.#waiting = Promise.resolve();
  }
}
