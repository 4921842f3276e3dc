/** A desk that works on the newest text only: what is outdated is ended rather than waited for. */
import { startDesk, type AskedDesk, type StartedDesk } from './start-desk.ts';

/**
 * A question that is younger than this may finish, ms: a new worker starts as slowly, and computes slowly at first. Judging is left
 * by the desk itself as soon as it hears of a newer question.
 */
const WORTH_WAITING = 600;

export class NewestDesk {
  #desk: StartedDesk | null = null;
  #key: string | null = null;
  /** Questions under way, with what ends the waiting for each. */
  readonly #open = new Map<() => void, number>();

  /**
   * Asks about a text (or whatever the key stands for). Another key ends all questions of the earlier one, which then come
   * out as null; questions of one key are answered in turn on one desk, so that each begins where the last one ended.
   */
  async ask<T>(key: string, question: (desk: AskedDesk) => Promise<T>): Promise<T | null> {
    this.newest(key);
    this.#desk ??= startDesk();
    const asked = question(this.#desk.ask);
    const { promise: end, resolve } = Promise.withResolvers<null>();
    const ended = (): void => resolve(null);
    this.#open.set(ended, performance.now());
    try {
      return await Promise.race([asked, end]);
    } finally {
      this.#open.delete(ended);
    }
  }

  /** Makes another key the newest one. */
  newest(key: string | null): void {
    if (this.#key === key) return;
    this.#key = key;
    const oldest = Math.min(...this.#open.values());
    const late = performance.now() - oldest > WORTH_WAITING;
    for (const end of this.#open.keys()) end();
    this.#open.clear();
    if (!late) return;
    this.#desk?.end();
    this.#desk = null;
  }
}
