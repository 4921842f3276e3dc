/** The first answer of the build on the desk, and what each choice of the fact in hand would do to it. */
import type { Answers, Build, Fact } from '@loomwright/engine';
import { buildStore, edit, editText, judge, reader } from '../../build-store.ts';
import type { FirstView, RowView, Standing } from '../../engine/first.ts';
import { NewestDesk } from '../../engine/newest.ts';
import { openIfNone, openNew } from '../../store/keeping.ts';
import { Store } from '../../store/store.ts';
import { say, viewStore } from '../../view-store.ts';
import { missingFacts } from './missing.ts';
import type { Choice, Fact as SixFact, Gives } from './facts.ts';

export interface FirstState {
  readonly answers: Answers;
  readonly standing: Standing;
  /** Of the newest text for which there is one. */
  readonly view: FirstView | null;
  /** Facts that the engine ranks; null: not asked or not there yet. */
  readonly facts: readonly Fact[] | null;
  /** Rows by the answers that they were tried for. */
  readonly trials: ReadonlyMap<string, readonly RowView[]>;
  /** Why the last answer was not taken. */
  readonly problem: string;
}

export const firstStore = new Store<FirstState>({
  answers: {},
  standing: 'six-only',
  view: null,
  facts: null,
  trials: new Map(),
  problem: '',
});

const trials = new NewestDesk();
let follows: string | null = null;

/** Follows the build: called whenever its text is another one. */
export async function followText(text: string): Promise<void> {
  if (follows === text) return;
  follows = text;
  const six = await reader.ask.six(text);
  if (follows !== text) return;
  firstStore.set({ ...six, problem: '' });
  const view = await judge.ask(text, async (desk) => await desk.first(text));
  if (view === null || follows !== text) return;
  speakChanges(firstStore.get().view, view);
  firstStore.set({ view, facts: null });
  if (view.standing !== 'other' && missingFacts(view.answers).length >= 3) return;
  const facts = await judge.ask(text, async (desk) => await desk.facts(text));
  if (facts !== null && follows === text) firstStore.set({ facts });
}

/** The rows that changed are said once to those who listen. */
function speakChanges(before: FirstView | null, now: FirstView): void {
  if (before === null) return;
  const changed = now.rows.filter(
    (row) => before.rows.find((each) => each.id === row.id)?.value !== row.value,
  );
  if (changed.length > 0) say(changed.map((row) => `${row.name}: ${row.value}`).join('. '));
}

let turn: Promise<unknown> = Promise.resolve();

/** Gives one or more facts; resolves with why they were not taken, or with nothing. */
export async function giveFacts(gives: Choice['gives'] | Gives, says: string): Promise<string> {
  const given = turn.then(async () => await give(gives, says));
  turn = given.catch(() => undefined);
  return await given;
}

async function give(gives: Choice['gives'] | Gives, says: string): Promise<string> {
  const { text, build } = await onDesk();
  const { standing, answers: before } = await reader.ask.six(text);
  const answers = withAnswers(before, typeof gives === 'function' ? gives(before) : gives);
  const { text: next, problems } = await reader.ask.design(answers, {
    title: build?.title,
    units: build?.units,
  });
  const problem = problems.map((each) => each.message).join(' ');
  firstStore.set({ problem });
  if (problem !== '') return problem;
  if (standing === 'six-only') await editText(next, says);
  else if (standing === 'grown')
    return (await edit(await reader.ask.factChanges(text, answers), says))
      .map((each) => each.message)
      .join(' ');
  else return OTHER;
  return '';
}

/** The build on the desk; what is pressed before there is one waits for it. */
async function onDesk(): Promise<{ readonly text: string; readonly build: Build | null }> {
  const { text, build } = buildStore.get();
  if (text !== null) return { text, build };
  const { promise, resolve } = Promise.withResolvers<void>();
  const unwatch = buildStore.watch(() => {
    if (buildStore.get().text !== null) resolve();
  });
  await promise;
  unwatch();
  return await onDesk();
}

const OTHER = 'This build did not begin with six facts: change it on Survey and Wiring.';

export function withAnswers(answers: Answers, gives: Gives): Answers {
  return Object.fromEntries(
    Object.entries({ ...answers, ...gives }).filter(([, value]) => value !== undefined),
  ) as Answers;
}

export const answersKey = (answers: Answers): string =>
  JSON.stringify(Object.entries(answers).toSorted(([a], [b]) => (a < b ? -1 : 1)));

/** Tries all choices of a fact, one after the other, for what each would do. */
export async function tryChoices(fact: SixFact): Promise<void> {
  const { answers, standing } = firstStore.get();
  const { text } = buildStore.get();
  if (standing === 'other' || text === null) return;
  const key = `${fact.id} ${answersKey(answers)}`;
  for (const choice of fact.groups.flatMap((group) => group.choices)) {
    const tried = withAnswers(answers, choice.gives(answers));
    const name = answersKey(tried);
    if (firstStore.get().trials.has(name)) continue;
    // oxlint-disable-next-line no-await-in-loop -- one worker tries them in turn
    const rows = await trials.ask(
      key,
      async (desk) => await desk.tryAnswers(tried, standing === 'grown' ? text : null),
    );
    if (rows === null) return;
    firstStore.set({ trials: new Map([...firstStore.get().trials, [name, rows]]) });
  }
}

export function stopTrying(): void {
  trials.newest(null);
}

const blank = async (): Promise<string> =>
  (await reader.ask.design({}, { title: 'New build', units: viewStore.get().units })).text;

/** Begins with nothing known. */
export async function beginAnew(): Promise<void> {
  await openNew(await blank(), false);
}

/** The same at the start, unless somebody was quicker and has a build on the desk. */
export async function beginIfNone(): Promise<void> {
  await openIfNone(await blank());
}
