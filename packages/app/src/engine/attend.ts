/** A companion at work: between short stretches it hears what is asked next, and leaves what is outdated. */
import { Companion, type FromCompanion, type Pushed, type ToCompanion } from '@loomwright/engine';
import { heard, STRETCH } from './steps.ts';

const NAMES: Readonly<Record<string, Pushed>> = { 'engine, slack': 'slack', 'engine, stiff': 'stiff' };

/** Name of the worker of a companion. */
export const nameOf = (push: Pushed): string => `engine, ${push}`;

/** Whose companion a worker of that name is; null: it is none. */
export const pushOf = (name: string): Pushed | null => NAMES[name] ?? null;

/** Begins; returns what hears messages. */
export function attend(push: Pushed, tell: (message: FromCompanion) => void): (message: ToCompanion) => void {
  const companion = new Companion(push, tell);
  let working = false;
  const work = async (): Promise<void> => {
    working = true;
    for (let until = performance.now() + STRETCH; companion.step();) {
      if (performance.now() < until) continue;
      // oxlint-disable-next-line no-await-in-loop -- one stretch after the other
      await heard();
      until = performance.now() + STRETCH;
    }
    working = false;
  };
  return (message) => {
    companion.hear(message);
    if (!working) void work();
  };
}
