/**
 * Judging the build on the desk. It begins with the key that ends an edit, before the edit is read here; what is judged is shown as it
 * comes, all else stays as it was and is said to be judged again.
 */
import { firstLine, inOrder, plural, tallyOf, type Change, type Finding } from '@loomwright/engine';
import { buildStore, NOTHING, wordsOf } from './build-state.ts';
import { Heard } from './engine/heard.ts';
import { isInSteps, NewestDesk } from './engine/newest.ts';
import type { JudgedView, JudgedWhole } from './engine/plain.ts';
import type { AskedDesk } from './engine/start-desk.ts';
import { say, warn } from './view-store.ts';

/** The desk on which the newest text is judged; ask it with that text as key, and what was judged is at hand. */
export const judge = new NewestDesk((desk) => heard.begin(desk));

/** What was told of a text that is not read here yet. */
let early: { readonly text: string; readonly findings: readonly Finding[] } | null = null;

const heard = new Heard((text, findings) => {
  if (buildStore.get().text === text) takePart(findings);
  else early = { text, findings: early?.text === text ? [...early.findings, ...findings] : findings };
});

/** Judging under way, of a text that is only known once it is read here; null: it was left, or cannot be judged. */
export interface Begun {
  readonly key: string;
  readonly judged: Promise<JudgedView | null>;
}

let count = 0;

type Question = (desk: AskedDesk, afresh: boolean) => Promise<JudgedWhole | null>;

function begin(key: string, words: string, question: Question): Begun {
  count += 1;
  const judged = judge.ask(
    key,
    async (desk) => {
      const whole = await question(desk, heard.afresh);
      // Also what comes too late is heard: what is told next differs from it.
      return whole === null ? null : heard.whole(whole);
    },
    isInSteps(words),
  );
  // It is looked at once the edit is read.
  judged.catch(() => undefined);
  return { key, judged };
}

/** Begins to judge what changes will make of a text. */
export const judgeEdited = (text: string, changes: readonly Change[]): Begun =>
  begin(
    `edit ${count}`,
    text + JSON.stringify(changes),
    async (desk, afresh) => await desk.judgeEdited(text, changes, afresh),
  );

/** Begins to judge what may become an edit, while the present text is judged already; what it finds is told once it is one. */
export function foreseeJudged(text: string, changes: readonly Change[]): void {
  if (!isInSteps(text + JSON.stringify(changes))) return;
  judge.beside(text, async (desk) => await desk.foreseeJudged(text, changes));
}

/** Begins to judge a text. */
export const judgeText = (text: string): Begun =>
  begin(text, text, async (desk, afresh) => await desk.judge(text, afresh));

/** Follows the judging of a text that is on the desk now. */
export async function judgeNow(text: string, begun: Begun): Promise<void> {
  judge.rename(begun.key, text);
  if (early?.text === text) takePart(early.findings);
  early = null;
  const own = count;
  try {
    const judged = await begun.judged;
    if (buildStore.get().text !== text) return;
    // Left for another question about the text before.
    if (judged === null && count === own) await judgeNow(text, judgeText(text));
    if (judged === null) return;
    const before = lastWhole;
    lastWhole = judged;
    const said = withOutcome(buildStore.get().said, before, judged);
    buildStore.set({ judged, judging: false, anew: NOTHING.anew, said });
    speak(before, judged, said);
  } catch (error) {
    if (buildStore.get().text === text)
      buildStore.set({ judging: false, anew: NOTHING.anew, failed: wordsOf(error) });
  }
}

/** After an edit that came to nothing: the present text is judged to its end. */
export function judgeOn(): void {
  const { text, judging } = buildStore.get();
  if (text !== null && judging) void judgeNow(text, judgeText(text));
}

/** Another build is on the desk: there is nothing to compare with. */
export function forgetJudged(): void {
  lastWhole = null;
}

/** What was judged last in full: with it the next one is compared. */
let lastWhole: JudgedView | null = null;

/** Some findings of the present text: all others stay as they were until they are judged anew. */
function takePart(findings: readonly Finding[]): void {
  const { judged, anew, judging } = buildStore.get();
  // The first judgement of a build is shown when it is whole: before it there is nothing that stands.
  if (judged === null || !judging) return;
  const fresh = new Map(findings.map((finding) => [finding.id, finding]));
  const known = new Set(judged.findings.map(({ id }) => id));
  const all = inOrder([
    ...judged.findings.map((finding) => fresh.get(finding.id) ?? finding),
    ...findings.filter(({ id }) => !known.has(id)),
  ]);
  const tally = tallyOf(all);
  buildStore.set({
    judged: { ...judged, text: null, findings: all, tally, firstLine: firstLine(tally) },
    anew: new Set([...anew, ...fresh.keys()]),
  });
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
