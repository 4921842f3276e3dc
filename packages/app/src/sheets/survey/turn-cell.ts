/** Writes one cell of the truth table: a supply point is live, dead, or was not read in a state. */
import type { Change } from '@loomwright/engine';
import { editBy, reader } from '../../build-store.ts';
import type { Diagnostic, Notation } from '../../engine/plain.ts';
import type { Candidate, CellIs } from '../../engine/survey.ts';
import { at } from './survey-store.ts';

/** Resolves with why it was refused, else with nothing. */
export async function turnCell(
  { id, cells }: Candidate,
  index: number,
  is: CellIs,
  says: string,
): Promise<readonly Diagnostic[]> {
  const states = cells.map((cell) => cell.state as string);
  const state = states[index] ?? '';
  return await editBy(
    async (text) => changesFor(await reader.ask.notation(text), id, state, is, states),
    says,
  );
}

/** "others" is written out before a state leaves it; a state with a time, `{ after-run: 10 min }`, keeps it. */
function changesFor(
  notation: Notation | null,
  id: string,
  state: string,
  is: CellIs,
  states: readonly string[],
): readonly Change[] {
  const live = listOf(at(notation, ['parts', id, 'live']));
  const written = at(notation, ['parts', id, 'dead']);
  const dead =
    written === 'others'
      ? states.filter((each) => !live.some((entry) => names(entry, each)))
      : listOf(written);
  const put = (list: readonly unknown[], wanted: boolean): readonly unknown[] => {
    const rest = list.filter((entry) => !names(entry, state));
    return wanted ? [...rest, list.find((entry) => names(entry, state)) ?? state] : rest;
  };
  return [
    { set: ['parts', id, 'live'], to: put(live, is === 'live') },
    { set: ['parts', id, 'dead'], to: put(dead, is === 'dead') },
  ];
}

const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

const names = (entry: unknown, state: string): boolean =>
  entry === state || (typeof entry === 'object' && entry !== null && state in entry);
