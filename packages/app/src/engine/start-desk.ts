/** Starts the engine beside the screen: in a worker, or, where there can be none, in the page itself. */
import { releaseProxy, wrap, type Remote } from 'comlink';
import type { Desk } from './desk.ts';
import type { JudgedPart } from './plain.ts';

/** The desk as the screens see it: every answer comes later. */
export type AskedDesk = {
  readonly [Q in keyof Desk]: (...asked: Parameters<Desk[Q]>) => Promise<Awaited<ReturnType<Desk[Q]>>>;
};

export interface StartedDesk {
  readonly ask: AskedDesk;
  /** It works beside the page; else whatever it does holds the page up. */
  readonly beside: boolean;
  /** Listens to what it tells while it judges; in the page itself it tells nothing before the end. */
  hear(listener: (told: JudgedPart) => void): void;
  /** Ends it in the middle of whatever it does; its open answers never come. */
  end(): void;
}

type Loaded = () => Promise<Desk>;

/** The page opened from a file brings the engine along as text; everything else loads it. */
const POCKET = import.meta.env.MODE === 'pocket';

let makeWorker: () => Worker | null = POCKET
  ? () => null
  : () => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'engine' });
let loadDesk: Loaded = POCKET
  ? () => Promise.reject(new Error('The engine is not in this page.'))
  : async () => (await import('./desk.ts')).desk;

/** For a page that brings the engine along: how its worker is made, and how it is had without one. */
export function setEngine(make: () => Worker | null, load: Loaded): void {
  makeWorker = make;
  loadDesk = load;
}

export function startDesk(): StartedDesk {
  const worker = tryWorker();
  if (worker === null) return inPage();
  const remote: Remote<Desk> = wrap<Desk>(worker);
  return {
    ask: remote,
    beside: true,
    // On the way of the answers, so that what was told first is heard first.
    hear: (listener) =>
      worker.addEventListener('message', ({ data }: MessageEvent<{ readonly told?: JudgedPart }>) => {
        if (data.told !== undefined) listener(data.told);
      }),
    end: () => {
      remote[releaseProxy]();
      worker.terminate();
    },
  };
}

function tryWorker(): Worker | null {
  try {
    return makeWorker();
  } catch {
    return null;
  }
}

/** Without a worker: the same questions, one task later, so that what is on screen is drawn first. */
function inPage(): StartedDesk {
  const loading = loadDesk();
  const ask = new Proxy({} as AskedDesk, {
    get:
      (_target, question) =>
      async (...asked: unknown[]) => {
        const desk = await loading;
        await new Promise((resolve) => setTimeout(resolve, 0));
        return (desk as unknown as Record<string, (...all: unknown[]) => unknown>)[String(question)]?.(
          ...asked,
        );
      },
  });
  return { ask, beside: false, hear: () => undefined, end: () => undefined };
}
