/**
 * The one build on the desk: its text, how it was read, how it was judged, and the way back. Edits are applied one after the
 * other; judged is always the newest text, and an outdated judging is ended.
 */
import { plural, type Change, type Order } from '@loomwright/engine';
import { NewestDesk } from './engine/newest.ts';
import type { Build, Diagnostic, JudgedView, Opened } from './engine/plain.ts';
import { startDesk, type AskedDesk, type StartedDesk } from './engine/start-desk.ts';
import { stepBack, stepBetween, stepForth, type Step } from './store/steps.ts';
import { Store } from './store/store.ts';
import { say, warn } from './view-store.ts';
import { whatChanged } from './store/what-changed.ts';

export interface BuildState {
  /** null: nothing is open. */
  readonly text: string | null;
  /** Of the text; of the last text that could be read while the present one has errors. */
  readonly build: Build | null;
  /** Whether `build` is that of the present text. */
  readonly readable: boolean;
  readonly diagnostics: readonly Diagnostic[];
  /** The newest findings that there are; see `judging`. */
  readonly judged: JudgedView | null;
  /** A newer text is being judged. */
  readonly judging: boolean;
  readonly back: readonly Step[];
  readonly forth: readonly Step[];
  /** What the last edit did, in one line; empty before the first. */
  readonly said: string;
  /** Why the last edit was refused. */
  readonly refused: readonly Diagnostic[];
  /** How the drawing is to be ordered since the last wish for it, or since that was taken back. */
  readonly arranged: Order | null;
  /** Set when the engine itself failed. The text is never touched by that. */
  readonly failed: string | null;
}

const NOTHING: BuildState = {
  text: null,
  build: null,
  readable: false,
  diagnostics: [],
  judged: null,
  judging: false,
  back: [],
  forth: [],
  said: '',
  refused: [],
  arranged: null,
  failed: null,
};

export const buildStore = new Store<BuildState>(NOTHING);
let readingDesk: StartedDesk | null = null;

/** The desk for what is quick: reading, editing, looking things up. Started by the first question. */
export const reader = {
  get ask(): AskedDesk {
    readingDesk ??= startDesk();
    return readingDesk.ask;
  },
};

/** The desk on which the newest text is judged; ask it with that text as key, and what was judged is at hand. */
export const judge = new NewestDesk();

let queue: Promise<unknown> = Promise.resolve();

/** One after the other. */
function inTurn<T>(deed: () => Promise<T>): Promise<T> {
  const done = queue.then(deed);
  queue = done.catch((error: unknown) => buildStore.set({ failed: wordsOf(error) }));
  return done;
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Puts another build on the desk; with `steps`, its way back as it was kept. */
export async function openText(
  text: string,
  steps: { readonly back: readonly Step[]; readonly forth: readonly Step[] } = { back: [], forth: [] },
): Promise<Opened> {
  return await inTurn(async () => {
    const opened = await reader.ask.open(text);
    take(opened, { ...NOTHING, ...steps });
    return opened;
  });
}

export function closeBuild(): void {
  judge.newest(null);
  buildStore.set(NOTHING);
}

/**
 * Changes the build. `says` names the edit for the line under the findings and for undo; by default it is made from the
 * changes. Resolves with the reasons when it was refused, else with none.
 */
export async function edit(changes: readonly Change[], says?: string): Promise<readonly Diagnostic[]> {
  return await inTurn(async () => {
    const { text } = buildStore.get();
    if (text === null || changes.length === 0) return [];
    const { opened, refused } = await reader.ask.edit(text, changes);
    if (refused.length > 0) buildStore.set({ refused });
    else step(text, opened, says ?? whatChanged(changes));
    return refused;
  });
}

/** Changes that depend on what stands in the document when their turn comes: two quick presses are both heard. */
export async function editBy(
  make: (text: string) => Promise<readonly Change[]>,
  says: string,
): Promise<readonly Diagnostic[]> {
  return await inTurn(async () => {
    const { text } = buildStore.get();
    if (text === null) return [];
    const { opened, refused } = await reader.ask.edit(text, await make(text));
    if (refused.length > 0) buildStore.set({ refused });
    else step(text, opened, says);
    return refused;
  });
}

/** Puts another text in place of the present one; it may have errors, and is kept all the same. */
export async function editText(next: string, says = 'The text was changed.'): Promise<Opened> {
  return await inTurn(async () => {
    const { text } = buildStore.get();
    const opened = await reader.ask.open(next);
    step(text ?? '', opened, says);
    return opened;
  });
}

/** A wish for the order of the drawing: a step of its own, the text stays as it is. */
export async function arrange(was: Order, is: Order, says: string): Promise<void> {
  await inTurn(async () => {
    const { back } = buildStore.get();
    const order = { was, is };
    buildStore.set({
      back: [...back, { at: 0, was: '', is: '', says, order }],
      forth: [],
      said: says,
      refused: [],
      arranged: is,
    });
    await Promise.resolve();
  });
}

function step(before: string, opened: Opened, says: string): void {
  if (opened.text === before) return;
  const { back } = buildStore.get();
  take(opened, {
    back: [...back, stepBetween(before, opened.text, says)],
    forth: [],
    said: says,
    refused: [],
  });
}

export async function undo(): Promise<void> {
  await inTurn(async () => {
    const { text, back, forth } = buildStore.get();
    const last = back.at(-1);
    if (text === null || last === undefined) return;
    const along = {
      back: back.slice(0, -1),
      forth: [...forth, last],
      said: `Taken back: ${last.says}`,
      refused: [],
    };
    if (last.order === undefined) take(await reader.ask.open(stepBack(text, last)), along);
    else buildStore.set({ ...along, arranged: last.order.was });
  });
}

export async function redo(): Promise<void> {
  await inTurn(async () => {
    const { text, back, forth } = buildStore.get();
    const next = forth.at(-1);
    if (text === null || next === undefined) return;
    const along = {
      back: [...back, next],
      forth: forth.slice(0, -1),
      said: `Again: ${next.says}`,
      refused: [],
    };
    if (next.order === undefined) take(await reader.ask.open(stepForth(text, next)), along);
    else buildStore.set({ ...along, arranged: next.order.is });
  });
}

/** A newly read text: on screen at once, judged as soon as can be. */
function take({ text, build, diagnostics }: Opened, along: Partial<BuildState> = {}): void {
  buildStore.set({
    ...along,
    text,
    diagnostics,
    readable: build !== null,
    failed: null,
    ...(build === null ? {} : { build }),
    judging: build !== null,
  });
  if (build === null) judge.newest(null);
  else void judgeNow(text);
}

async function judgeNow(text: string): Promise<void> {
  try {
    const judged = await judge.ask(text, async (desk) => await desk.judge(text));
    if (judged === null || buildStore.get().text !== text) return;
    const before = buildStore.get().judged;
    const said = withOutcome(buildStore.get().said, before, judged);
    buildStore.set({ judged, judging: false, said });
    speak(before, judged, said);
  } catch (error) {
    if (buildStore.get().text === text) buildStore.set({ judging: false, failed: wordsOf(error) });
  }
}

/** "F1 is 80 A. Fault gone: F1 will trip on a hot day. Nothing new." */
function withOutcome(said: string, before: JudgedView | null, now: JudgedView): string {
  if (said === '' || before === null) return said;
  const [was, is] = [bad(before), bad(now)];
  const gone = [...was.values()].filter((f) => !is.has(f.id));
  const fresh = [...is.values()].filter((f) => !was.has(f.id));
  const goneSays = gone.length === 0 ? '' : ` Gone: ${gone.map((f) => f.title.toLowerCase()).join(', ')}.`;
  const freshSays =
    fresh.length === 0
      ? ' Nothing new.'
      : ` New: ${plural(fresh.length, 'finding', 'findings')}, ${fresh.map((f) => f.title.toLowerCase()).join(', ')}.`;
  return `${said}${goneSays}${freshSays}`;
}

/** What an edit made of the findings is heard: politely, but a danger that it made at once. */
function speak(before: JudgedView | null, now: JudgedView, said: string): void {
  if (before === null) return;
  const was = bad(before);
  const danger = [...bad(now).values()].find((f) => f.verdict === 'danger' && !was.has(f.id));
  if (danger !== undefined) warn(`Danger: ${danger.title}`);
  else if (bad(now).size !== was.size) say(said);
}

const bad = (view: JudgedView) =>
  new Map(view.findings.filter((f) => f.verdict === 'danger' || f.verdict === 'fault').map((f) => [f.id, f]));
