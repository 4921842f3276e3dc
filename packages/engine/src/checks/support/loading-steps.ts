/** What chargers take or give for good through a wire or device, as lines of a working. */
import type { Id, Step } from '../../contracts/index.ts';
import type { Feed } from './chargers.ts';
import { step } from './judgement.ts';
import type { Continuous } from './loading.ts';
import { amps } from './short-text.ts';

/** Less is not worth a word, A. */
const NOTHING = 0.05;

/** The chargers that the load comes from. */
export const chargersIn = (load: Continuous): readonly Id[] => [
  ...new Set([...load.feeds, ...(given(load) ? load.gives : [])].map((f) => f.charger)),
];

/** The output of a charger rules where no solved condition holds it on for good. */
const given = (load: Continuous): boolean => load.given + load.besideGiven > load.solved.amps * (1 + 1e-9);

export function chargerSteps(load: Continuous): readonly Step[] {
  const lines: Step[] = [];
  if (load.chargers > 0) lines.push(line('input', load.feeds, load.beside, load.chargers + load.beside));
  if (load.given > 0 && given(load))
    lines.push(line('output', load.gives, load.besideGiven, load.given + load.besideGiven));
  return lines;
}

function line(side: string, feeds: readonly Feed[], beside: number, sum: number): Step {
  const parts = feeds.map(
    (f) => `${f.greatest === null ? 'not known' : amps(f.greatest.sourced.value)} (${f.label})`,
  );
  const more = beside > NOTHING ? ` + ${amps(beside)} beside` : '';
  const about = feeds.map((f) => f.charger);
  return step(`Greatest continuous ${side} current`, `${parts.join(' + ')}${more}`, sum, 'A', { about });
}
