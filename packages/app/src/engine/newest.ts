/** A desk that works on the newest text only: what is outdated is ended rather than waited for. */
import { startDesk, type AskedDesk, type StartedDesk } from './start-desk.ts';

/** A question that is younger than this may finish, ms: a new worker starts as slowly, and computes slowly at first. */
const WORTH_WAITING = 600;

/** Whether a text is judged in steps: a size for `auto` wires is searched for in one go. */
export const isInSteps = (text: string): boolean => !/\bauto\b/.test(text);

export class NewestDesk {
  readonly #begin: (desk: StartedDesk) => void;
  #desk: StartedDesk | null = null;
  #key: string | null = null;
  /** Questions under way: what ends the waiting for each, and since when the desk cannot hear because of it. */
  readonly #open = new Map<() => void, number>();

  /** `begin` is told of each desk that is started. */
  constructor(begin: (desk: StartedDesk) => void = () => undefined) {
    this.#begin = begin;
  }

  /**
   * Asks about a text (or whatever the key stands for). Another key ends all questions of the earlier one, which then come
   * out as null; questions of one key are answered in turn on one desk, so that each begins where the last one ended.
   * `inSteps`: the desk works on it in steps and leaves it when it hears of a newer key; for others it may have to be ended.
   */
  async ask<T>(key: string, question: (desk: AskedDesk) => Promise<T>, inSteps = false): Promise<T | null> {
    this.newest(key);
    this.#desk ??= this.#start();
    const asked = question(this.#desk.ask);
    const { promise: end, resolve } = Promise.withResolvers<null>();
    const ended = (): void => resolve(null);
    this.#open.set(ended, inSteps ? Infinity : performance.now());
    try {
      return await Promise.race([asked, end]);
    } finally {
      this.#open.delete(ended);
    }
  }

  /** Asks where nothing of that key is under way, nothing newer has come and nothing is held up; else not at all. Nobody waits for it. */
  beside(key: string, question: (desk: AskedDesk) => Promise<unknown>): void {
    if (this.#desk?.beside !== true || this.#key !== key || this.#open.size > 0) return;
    question(this.#desk.ask).catch(() => undefined);
  }

  #start(): StartedDesk {
    const desk = startDesk();
    this.#begin(desk);
    return desk;
  }

  /** Gives the newest key another name; questions go on. */
  rename(key: string, name: string): void {
    if (this.#key === key) this.#key = name;
  }

  /** Makes another key the newest one. */
  newest(key: string | null): void {
    if (this.#key === key) return;
    this.#key = key;
    const oldest = Math.min(...this.#open.values());
    const late = performance.now() - oldest > WORTH_WAITING;
    for (const end of this.#open.keys()) end();
    const working = this.#open.size > 0;
    this.#open.clear();
    if (working && !late) void this.#desk?.ask.leave();
    if (!late) return;
    this.#desk?.end();
    this.#desk = null;
  }
}
