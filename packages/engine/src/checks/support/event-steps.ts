/** What happened in order, as lines of a working, with times that can be told apart. */
import type { Id, Step } from '../../contracts/index.ts';
import { NO_BREAK_SPACE } from '../../quantity/index.ts';
import { step } from './judgement.ts';
import { time } from './words.ts';

interface Event {
  readonly atMs: number;
  readonly part: Id;
  readonly to: string;
  readonly says: string;
}

/** One line for each of the first `most` events. */
export function eventSteps(order: readonly Event[], most: number): readonly Step[] {
  const events = order.slice(0, most);
  const times = timesApart(events.map((e) => e.atMs));
  return events.map((e, i) =>
    step(`after ${times[i] ?? ''}`, `${e.part}: ${e.to} (${e.says})`, null, '', { about: [e.part] }),
  );
}

/** Times in whole ms as printed elsewhere; those that differ and would print alike get so many decimals that they do not. */
export function timesApart(ms: readonly number[]): readonly string[] {
  let texts: readonly string[] = ms.map((t) => time(t / 1000));
  for (let decimals = 1; decimals <= 3; decimals += 1) {
    const before = texts;
    texts = before.map((text, i) => {
      const alike = before.some((other, j) => other === text && ms[j] !== ms[i]);
      return alike ? fine(ms[i] ?? 0, decimals) : text;
    });
  }
  return texts;
}

/** Seconds with decimals; from two minutes on with whole minutes before them. */
function fine(ms: number, decimals: number): string {
  const rounded = Number((ms / 1000).toFixed(decimals));
  const minutes = rounded < 120 ? 0 : Math.floor(rounded / 60);
  const seconds = `${(rounded - 60 * minutes).toFixed(decimals)}${NO_BREAK_SPACE}s`;
  return minutes === 0 ? seconds : `${minutes}${NO_BREAK_SPACE}min${NO_BREAK_SPACE}${seconds}`;
}
