/**
 * The one build on the desk: its text, how it was read, how it was judged, and the way back. Edits are applied one after the
 * other; judged is always the newest text, and an outdated judging is ended.
 */
import type { Change, Order } from '@loomwright/engine';
import { proxy } from 'comlink';
import { buildStore, NOTHING, wordsOf, type BuildState } from './build-state.ts';
import { giveWay } from './engine/at-rest.ts';
import type { DrawWish, Sketch } from './engine/drawer.ts';
import { elk } from './engine/layout-library.ts';
import type { Diagnostic, Opened } from './engine/plain.ts';
import { startDesk, type AskedDesk, type StartedDesk } from './engine/start-desk.ts';
import {
  foreseeJudged,
  forgetJudged,
  judge,
  judgeEdited,
  judgeNow,
  judgeOn,
  judgeText,
  type Begun,
} from './judging.ts';
import { stepBack, stepBetween, stepForth, type Step } from './store/steps.ts';
import { whatChanged } from './store/what-changed.ts';

export { buildStore, type BuildState } from './build-state.ts';
export { judge } from './judging.ts';

let readingDesk: StartedDesk | null = null;

/** The desk for what is quick: reading, editing, drawing, looking things up. Started by the first question. */
export const reader = {
  get ask(): AskedDesk {
    readingDesk ??= startReading();
    return readingDesk.ask;
  },
};

function startReading(): StartedDesk {
  const desk = startDesk();
  void desk.ask.layOutBy(proxy(elk));
  return desk;
}

/** Set while a drawing of the build is on view: what it shows is drawn along with every edit. */
export const onView: { wish: (() => Omit<DrawWish, 'auto'>) | null } = { wish: null };

function drawing(): DrawWish | null {
  const wish = onView.wish?.() ?? null;
  return wish === null ? null : { ...wish, auto: buildStore.get().judged?.auto?.size.text ?? null };
}

/** What can be drawn at once of the text that was read last; null: that was another one, or something else was asked for. */
export function sketchAtHand(text: string, { view, sheet, auto }: Omit<DrawWish, 'order'>): Sketch | null {
  const read = latest?.text === text ? latest.drawing : null;
  const fits = read?.of.view === view && read.of.sheet === sheet && read.of.auto === auto;
  return fits ? read.sketch : null;
}
let latest: Opened | null = null;

let queue: Promise<unknown> = Promise.resolve();

/** One after the other. */
function inTurn<T>(deed: () => Promise<T>): Promise<T> {
  const done = queue.then(deed);
  queue = done.catch((error: unknown) => buildStore.set({ failed: wordsOf(error) }));
  return done;
}

/** Puts another build on the desk; with `steps`, its way back as it was kept. */
export async function openText(
  text: string,
  steps: { readonly back: readonly Step[]; readonly forth: readonly Step[] } = { back: [], forth: [] },
): Promise<Opened> {
  return await inTurn(async () => {
    const [opened, begun] = await read(text);
    forgetJudged();
    take(opened, begun, { ...NOTHING, ...steps });
    return opened;
  });
}

export function closeBuild(): void {
  judge.newest(null);
  forgetJudged();
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
    return await change(text, changes, says ?? whatChanged(changes));
  });
}

let foreseeing: Promise<void> | null = null;
let typed: readonly Change[] | null = null;
/** What was foreseen last. */
let foreseen = '';
const keyOf = (text: string, changes: readonly Change[]): string => JSON.stringify(changes) + text;

/**
 * What is being typed, as the edit that it would be: it is read, drawn and judged ahead, so that the key that ends it finds that done.
 * Nothing of it is shown before.
 */
export async function foresee(changes: readonly Change[]): Promise<void> {
  if (readingDesk?.beside !== true) return;
  typed = changes;
  foreseeing ??= foreseeTyped().finally(() => {
    foreseeing = null;
  });
  await foreseeing;
}

/** The newest that was typed, one after the other. */
async function foreseeTyped(): Promise<void> {
  try {
    for (let changes = typed; changes !== null; changes = typed) {
      typed = null;
      const { text } = buildStore.get();
      if (text === null) return;
      foreseen = keyOf(text, changes);
      const read = reader.ask.foresee(text, changes, drawing());
      foreseeJudged(text, changes);
      await read;
    }
  } catch {
    // The edit itself will say what is wrong.
  }
}

/** Changes that depend on what stands in the document when their turn comes: two quick presses are both heard. */
export async function editBy(
  make: (text: string) => Promise<readonly Change[]>,
  says: string,
): Promise<readonly Diagnostic[]> {
  return await inTurn(async () => {
    const { text } = buildStore.get();
    return text === null ? [] : await change(text, await make(text), says);
  });
}

/** It is read and judged at the same time, by two desks. */
async function change(
  text: string,
  changes: readonly Change[],
  says: string,
): Promise<readonly Diagnostic[]> {
  giveWay();
  typed = null;
  // What was foreseen is told at once, and shown with the drawing; else reading comes first.
  const told = foreseen === keyOf(text, changes) ? judgeEdited(text, changes) : null;
  const reading = reader.ask.edit(text, changes, drawing());
  const begun = told ?? judgeEdited(text, changes);
  const { opened, refused } = await reading;
  if (refused.length > 0) {
    buildStore.set({ refused });
    judgeOn();
  } else step(text, opened, says, begun);
  return refused;
}

/** Puts a whole text on the desk; read and judged as `change` does. */
async function read(text: string): Promise<readonly [Opened, Begun]> {
  giveWay();
  const reading = reader.ask.open(text, drawing());
  const begun = judgeText(text);
  return [await reading, begun];
}

/** Puts another text in place of the present one; it may have errors, and is kept all the same. */
export async function editText(next: string, says = 'The text was changed.'): Promise<Opened> {
  return await inTurn(async () => {
    const { text } = buildStore.get();
    const [opened, begun] = await read(next);
    step(text ?? '', opened, says, begun);
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

function step(before: string, opened: Opened, says: string, begun: Begun): void {
  if (opened.text === before) {
    judgeOn();
    return;
  }
  const { back } = buildStore.get();
  take(opened, begun, {
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
    if (last.order === undefined) take(...(await read(stepBack(text, last))), along);
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
    if (next.order === undefined) take(...(await read(stepForth(text, next))), along);
    else buildStore.set({ ...along, arranged: next.order.is });
  });
}

/** A newly read text: on screen at once, judged as soon as can be. */
function take(opened: Opened, begun: Begun, along: Partial<BuildState> = {}): void {
  const { text, build, diagnostics } = opened;
  latest = opened;
  buildStore.set({
    ...along,
    text,
    diagnostics,
    readable: build !== null,
    failed: null,
    ...(build === null ? {} : { build, readableText: text }),
    judging: build !== null,
    anew: NOTHING.anew,
  });
  if (build === null) judge.newest(null);
  else void judgeNow(text, begun);
}
