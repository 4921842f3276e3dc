/**
 * In the worker that judges: its companions, two more workers of the engine. They are started once a build has been judged and all is
 * calm, and are asked only after each has judged a build for itself: before, they are slower than one alone.
 */
import {
  Companions,
  type Company,
  type FromCompanion,
  type Pushed,
  type ToCompanion,
} from '@loomwright/engine';
import { nameOf } from './attend.ts';

/** As much of a worker as is needed. */
export interface Hand {
  post(message: ToCompanion): void;
  end(): void;
}

/** Starts a companion; null: there can be none here. */
export type Hire = (push: Pushed, hear: (message: FromCompanion) => void, fail: () => void) => Hand | null;

/** So long nothing was judged before they are started or rehearse, ms. */
const CALM = 250;
/** Whoever waits gives them up after a silence of this, and of twice the time that was worked before, ms. */
const SILENCE = 2000;
/**
 * The page, the drawing and the judging have a core each before companions gain anything: on two cores they took from the drawing what
 * they gave to the findings.
 */
const ENOUGH_CORES = 4;
/** GB; companions hold an engine each. */
const ENOUGH_MEMORY = 4;
/** Companions that failed are replaced, but not for ever. */
const MOST_STARTS = 3;

export class Hired {
  readonly #hire: Hire;
  #companions: Companions | null = null;
  #hands: Partial<Record<Pushed, Hand>> = {};
  #starts = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #wake: (() => void)[] = [];
  #began = 0;

  constructor(hire: Hire) {
    this.#hire = hire;
  }

  /** Company for judging a text that begins now; null: it is judged alone. */
  about(text: string): Company | null {
    clearTimeout(this.#timer);
    this.#began = performance.now();
    const companions = this.#companions;
    if (companions === null) return null;
    if (companions.ready) return companions.about(text);
    companions.leave();
    return null;
  }

  /** A text was judged to its end: when all stays calm, they make themselves ready with it. */
  judged(text: string): void {
    clearTimeout(this.#timer);
    if (this.#companions?.failed === true) this.#dismiss();
    if (this.#companions?.ready === true || this.#starts >= MOST_STARTS) return;
    this.#timer = setTimeout(() => {
      if (this.#companions === null) this.#start();
      this.#companions?.rehearse(text);
    }, CALM);
  }

  /** Whatever they do is left. */
  leave(): void {
    clearTimeout(this.#timer);
    this.#companions?.leave();
  }

  /** Until something is heard of them, or they are given up. */
  async wait(): Promise<void> {
    const silence = SILENCE + 2 * (performance.now() - this.#began);
    const timer = setTimeout(() => this.#companions?.fail(), silence);
    await new Promise<void>((wake) => {
      this.#wake.push(wake);
    });
    clearTimeout(timer);
  }

  #start(): void {
    this.#starts += 1;
    const companions = new Companions(
      (push, message) => this.#hands[push]?.post(message),
      () => {
        for (const wake of this.#wake.splice(0)) wake();
      },
    );
    const hear = (message: FromCompanion): void => companions.hear(message);
    const fail = (): void => companions.fail();
    const [slack, stiff] = [this.#hire('slack', hear, fail), this.#hire('stiff', hear, fail)];
    this.#companions = companions;
    if (slack !== null && stiff !== null) this.#hands = { slack, stiff };
    else {
      for (const hand of [slack, stiff]) hand?.end();
      companions.fail();
    }
  }

  #dismiss(): void {
    for (const hand of Object.values(this.#hands)) hand.end();
    this.#hands = {};
    this.#companions = null;
  }
}

/**
 * A worker of the same program as this one, where this is a worker and the machine has room for more. In the pocket file there is none:
 * the worker of a page from a file has an origin of its own, and may start no other.
 */
export const hireWorker: Hire = (push, hear, fail) => {
  if (import.meta.env.MODE === 'pocket') return null;
  if (typeof Worker === 'undefined' || typeof document !== 'undefined') return null;
  const memory = (navigator as { readonly deviceMemory?: number }).deviceMemory ?? Infinity;
  if (navigator.hardwareConcurrency < ENOUGH_CORES || memory < ENOUGH_MEMORY) return null;
  try {
    const worker = new Worker(location.href, { type: 'module', name: nameOf(push) });
    worker.addEventListener('message', ({ data }: MessageEvent<FromCompanion>) => hear(data));
    worker.addEventListener('error', fail);
    worker.addEventListener('messageerror', fail);
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has none
    return { post: (message) => worker.postMessage(message), end: () => worker.terminate() };
  } catch {
    return null;
  }
};
