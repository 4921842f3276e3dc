/** The engine of the pocket file: in a worker it answers, in a page it is left for the page to take. */
import { expose } from 'comlink';
import { desk, tellBy } from './engine/desk.ts';

if (typeof document === 'undefined') {
  expose(desk);
  tellBy((told) => postMessage({ told }));
} else (globalThis as { loomwrightDesk?: typeof desk }).loomwrightDesk = desk;
