/** What a worker of the engine does: it answers a page, or is the companion of a worker that does. */
import { expose } from 'comlink';
import type { FromCompanion, ToCompanion } from '@loomwright/engine';
import { attend, pushOf } from './attend.ts';
import { desk, tellBy } from './desk.ts';

/** `name`: that of the worker. */
export function workAs(name: string): void {
  const push = pushOf(name);
  if (push === null) {
    expose(desk);
    tellBy((told) => postMessage({ told }));
    return;
  }
  const hear = attend(push, (message: FromCompanion) => postMessage(message));
  addEventListener('message', ({ data }: MessageEvent<ToCompanion>) => hear(data));
}
