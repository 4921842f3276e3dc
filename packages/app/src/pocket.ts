/** Begins the app in one file: the engine and the layout library stand in the page as text. */
import type { Desk } from './engine/desk.ts';
import { setEngine } from './engine/start-desk.ts';
import { setLayoutWorkerMaker } from './engine/layout-library.ts';
import { start } from './start.tsx';

declare global {
  var loomwrightDesk: Desk | undefined;
}

const code = (id: string): string => document.querySelector(`#${id}`)?.textContent ?? '';

function workerOf(id: string): Worker {
  return new Worker(URL.createObjectURL(new Blob([code(id)], { type: 'text/javascript' })), { name: id });
}

/** Where a page from a file may start no worker, the engine runs in the page itself. */
async function inPage(): Promise<Desk> {
  if (globalThis.loomwrightDesk === undefined) {
    const script = document.createElement('script');
    script.textContent = code('engine-code');
    document.head.append(script);
  }
  const desk = globalThis.loomwrightDesk;
  if (desk === undefined) throw new Error('The engine could not be started in this page.');
  return await Promise.resolve(desk);
}

setEngine(() => workerOf('engine-code'), inPage);
setLayoutWorkerMaker(async () => await Promise.resolve(workerOf('layout-code')));
start();
