/** Long work in short stretches: between them the worker hears what is asked next, and only the newest work goes on. */
import { WAITING, type Waiting } from '@loomwright/engine';

/** A stretch, ms. */
export const STRETCH = 8;

/** What the newest work is about. */
let latest = '';

/** Hears of steps and stretches. */
export interface Follows<S> {
  step(made: S): void;
  /** Before the work is laid aside for a moment. */
  stretch(): void;
  /** Work that waits for others sleeps until this comes. */
  wait?(): Promise<void>;
}

/** Does work on a text step by step; null when work on another text was begun meanwhile. */
export async function newest<T, S>(
  text: string,
  steps: Iterator<S | Waiting, T>,
  follows: Follows<S> | null = null,
): Promise<T | null> {
  latest = text;
  for (let until = performance.now() + STRETCH; ;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    const waits = step.value === WAITING;
    if (step.value !== WAITING) follows?.step(step.value);
    if (!waits && performance.now() < until) continue;
    follows?.stretch();
    await (waits && follows?.wait !== undefined ? follows.wait() : heard());
    if (latest !== text) return null;
    until = performance.now() + STRETCH;
  }
}

/** Whatever is under way is left at the end of its stretch. */
export function leave(): void {
  latest = '';
}

/** Once all messages that wait have been heard. A timer would wait some milliseconds each time. */
export function heard(): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((done) => {
    port1.addEventListener(
      'message',
      () => {
        port1.close();
        done();
      },
      { once: true },
    );
    port1.start();
    port2.postMessage(null);
  });
}
