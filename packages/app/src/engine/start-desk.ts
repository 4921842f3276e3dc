/** Starts the engine beside the screen: in a worker, or, where there can be none, in the page itself. */
import { releaseProxy, wrap, type Remote } from 'comlink';
import type { Desk } from './desk.ts';

/** The desk as the screens see it: every answer comes later. */
export type AskedDesk = {
  readonly [Q in keyof Desk]: (...asked: Parameters<Desk[Q]>) => Promise<Awaited<ReturnType<Desk[Q]>>>;
};

export interface StartedDesk {
  readonly ask: AskedDesk;
  /** Ends it in the middle of whatever it does; its open answers never come. */
  end(): void;
}

/** How a worker is made; the pocket file sets another way. */
let makeWorker: () => Worker | null = () =>
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'engine' });

/** For a page that brings the engine along. */
export function setWorkerMaker(make: () => Worker | null): void {
  makeWorker = make;
}

export function startDesk(): StartedDesk {
  const worker = tryWorker();
  if (worker === null) return inPage();
  const remote: Remote<Desk> = wrap<Desk>(worker);
  return {
    ask: remote,
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
  const loading = import('./desk.ts');
  const ask = new Proxy({} as AskedDesk, {
    get:
      (_target, question) =>
      async (...asked: unknown[]) => {
        const { desk } = await loading;
        await new Promise((resolve) => setTimeout(resolve, 0));
        return (desk as unknown as Record<string, (...all: unknown[]) => unknown>)[String(question)]?.(
          ...asked,
        );
      },
  });
  return { ask, end: () => undefined };
}
