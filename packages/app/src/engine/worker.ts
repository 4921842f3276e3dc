/** The engine in a worker of its own: the screen stays free while it computes. */
import { expose } from 'comlink';
import { desk, tellBy } from './desk.ts';

expose(desk);
tellBy((told) => postMessage({ told }));
