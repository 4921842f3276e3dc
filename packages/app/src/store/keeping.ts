/**
 * Keeps the build on the desk: at once in this browser, as soon as can be on the disk. What cannot be saved stays here and
 * goes by itself later; what meets the change of another window is shown, never overwritten.
 */
import { buildStore, editText, openText, reader } from '../build-store.ts';
import type { Merged } from '../engine/merge.ts';
import { say, viewStore, warn } from '../view-store.ts';
import { words } from '../words.ts';
import { api, hasServer, Refusal, Unreachable, type Revision, type SavedAnswer } from './api.ts';
import { forgetBuild, keepBuild, keptOf, type KeptBuild } from './db.ts';
import { freshId } from './fresh-id.ts';
import { stepBetween, type Step } from './steps.ts';
import { Store } from './store.ts';
import { openWindows, windowName } from './window.ts';

export type Kept = 'nothing' | 'saved' | 'saving' | 'device' | 'needs-you' | 'meets';

/** Two versions that came apart. */
export interface Conflict {
  readonly theirs: Revision;
  readonly merged: Merged;
}

export interface KeepingState {
  readonly id: string | null;
  readonly kept: Kept;
  readonly unsent: number;
  /** When it was last safe on the disk, "14:02"; empty before. */
  readonly savedAt: string;
  /** Why it is not saved. */
  readonly why: string;
  readonly conflict: Conflict | null;
  readonly base: number;
  /** What stands in the address while the build has no place of its own yet. */
  readonly cameAs: string;
  /** Rises with each build that comes on the desk. */
  readonly opened: number;
}

const NOTHING: KeepingState = {
  id: null,
  kept: 'nothing',
  unsent: 0,
  savedAt: '',
  why: '',
  conflict: null,
  base: 0,
  cameAs: 'new',
  opened: 0,
};

export const keepingStore = new Store<KeepingState>(NOTHING);

interface Current {
  readonly id: string;
  readonly text: string;
  readonly baseText: string | null;
  readonly base: number;
  readonly unsent: number;
  readonly sending: KeptBuild['sending'];
}

let current: Current | null = null;
/** True while a build is being put on the desk: that is no edit. */
let opening = false;
let sending = false;
let timer: ReturnType<typeof setTimeout> | undefined;
let tries = 0;
/** Name of the revision that is asked for; empty: none. */
let named = '';

const QUIET = 700;
const LONGEST_WAIT = 15_000;

buildStore.watch(() => {
  const { text, back } = buildStore.get();
  if (opening || text === null) return;
  if (current === null) {
    if (back.length === 0) return;
    current = { id: freshId(), text: '', baseText: null, base: 0, unsent: 0, sending: null };
  }
  if (current.text === text) {
    // A step that leaves the text as it is belongs to the way back too.
    if (back !== keptBack) void keepHere();
    return;
  }
  current = { ...current, text, unsent: text === current.baseText ? 0 : current.unsent + 1 };
  void keepHere();
  if (current.unsent > 0) schedule(QUIET);
});

let keptBack: readonly Step[] = [];

async function keepHere(): Promise<void> {
  keptBack = buildStore.get().back;
  if (current === null) return;
  const { id, text, unsent, base } = current;
  keepingStore.set({
    id,
    unsent,
    base,
    ...(unsent > 0 && keepingStore.get().kept !== 'needs-you'
      ? { kept: hasServer ? 'saving' : 'device' }
      : {}),
  });
  try {
    const window = await windowName();
    const { back, forth, build } = buildStore.get();
    await keepBuild({
      ...current,
      key: `${id}/${window}`,
      window,
      back,
      forth,
      title: build?.title ?? 'build',
      at: new Date().toISOString(),
    });
    if (current?.text === text && unsent > 0 && !hasServer) keepingStore.set({ kept: 'device' });
  } catch (error) {
    if (hasServer) return;
    keepingStore.set({
      kept: 'needs-you',
      why: words.saved.browserFull(String(error instanceof Error ? error.message : error)),
    });
    warn(words.saved.spokenNotSaved);
  }
}

function schedule(wait: number): void {
  clearTimeout(timer);
  if (hasServer) timer = setTimeout(() => void send(), wait);
}

/** Sends what is unsent; `why` names the revision. */
export async function send(why = ''): Promise<void> {
  // Asked for while another save is under way, or while none gets through, the name waits for the next one.
  if (why !== '') named = why;
  if (current === null || sending || keepingStore.get().conflict !== null) return;
  if (current.text === current.baseText && named === '') return;
  const reason = named;
  sending = true;
  clearTimeout(timer);
  const { id, text, base } = current;
  const tried = current.sending;
  const same = tried?.text === text && (tried.why ?? '') === reason;
  const saveId = same ? tried.saveId : freshId();
  current = { ...current, sending: { saveId, text, why: reason } };
  keepingStore.set({ kept: 'saving' });
  await keepHere();
  try {
    const saving = { saveId, text, who: viewStore.get().who, why: reason };
    const answer = base === 0 ? await api.make(id, saving) : await api.save(id, base, saving);
    tries = 0;
    if (named === reason) named = '';
    wasSaved(id, text, answer);
  } catch (error) {
    await notSaved(error, id);
  } finally {
    sending = false;
  }
  const more = current !== null && (current.text !== current.baseText || named !== '');
  if (more && keepingStore.get().conflict === null)
    schedule(tries === 0 ? 0 : Math.min(LONGEST_WAIT, 1000 * 2 ** (tries - 1)));
}

function wasSaved(id: string, text: string, { revision }: SavedAnswer): void {
  if (current === null || current.id !== id) return;
  const unsent = current.text === text ? 0 : Math.max(1, current.unsent - 1);
  current = { ...current, base: revision.number, baseText: text, sending: null, unsent };
  keepingStore.set({
    base: revision.number,
    unsent,
    savedAt: clock(revision.saved),
    why: '',
    kept: unsent === 0 ? 'saved' : 'saving',
  });
  void keepHere();
}

async function notSaved(error: unknown, id: string): Promise<void> {
  if (current === null || current.id !== id) return;
  if (error instanceof Refusal && error.code === 'stale-revision') {
    await meet(error.body['theirs'] as Revision);
    return;
  }
  if (error instanceof Refusal && error.code === 'not-found' && current.base > 0) {
    current = { ...current, base: 0, baseText: null, sending: null };
    return;
  }
  tries += 1;
  if (
    error instanceof Unreachable ||
    (error instanceof Refusal && ['too-many-requests', 'busy'].includes(error.code))
  ) {
    keepingStore.set({ kept: 'device', why: '' });
    return;
  }
  keepingStore.set({ kept: 'needs-you', why: error instanceof Error ? error.message : String(error) });
  warn(words.saved.spokenNotSaved);
}

/** Another window saved first: what does not meet goes together by itself, what meets is shown. */
async function meet(theirs: Revision): Promise<void> {
  if (current === null) return;
  const merged = await reader.ask.merge(current.baseText, current.text, theirs.text);
  if (merged.text !== null && merged.meetings.length === 0) {
    await lay(theirs, merged.text, words.saved.came(theirs.number, theirs.who, clock(theirs.saved)));
    return;
  }
  keepingStore.set({ kept: 'meets', conflict: { theirs, merged } });
  warn(words.saved.meets);
}

/** Puts a text on top of their revision. */
async function lay(theirs: Revision, text: string, says: string): Promise<void> {
  if (current === null) return;
  current = { ...current, base: theirs.number, baseText: theirs.text, sending: null };
  keepingStore.set({ conflict: null, base: theirs.number });
  say(says);
  if (text !== current.text) await editText(text, says);
  if (current.text === theirs.text) {
    current = { ...current, unsent: 0 };
    keepingStore.set({ kept: 'saved', unsent: 0, savedAt: clock(theirs.saved) });
    await keepHere();
  } else schedule(0);
}

/** Settles a conflict: yours on top of theirs, or theirs (yours stay one undo away). */
export async function settle(choice: 'yours' | 'theirs'): Promise<void> {
  const { conflict } = keepingStore.get();
  if (conflict === null || current === null) return;
  const { theirs, merged } = conflict;
  const mine = merged.text ?? current.text;
  await lay(theirs, choice === 'yours' ? mine : theirs.text, words.saved.settled(choice, theirs.number));
}

/** A new state of a build on the server, made by another window or program. */
export async function heard(id: string, head: number): Promise<void> {
  if (current === null || current.id !== id || head <= current.base || sending) return;
  if (current.text !== current.baseText) {
    schedule(0);
    return;
  }
  const { revision } = await api.build(id);
  if (
    current === null ||
    current.id !== id ||
    current.text !== current.baseText ||
    revision.number <= current.base
  )
    return;
  await lay(revision, revision.text, words.saved.came(revision.number, revision.who, clock(revision.saved)));
}

let turn: Promise<unknown> = Promise.resolve();

/** One build after the other comes on the desk: two at once would leave the text of one under the name of the other. */
function inTurn<T>(deed: () => Promise<T>): Promise<T> {
  const done = turn.then(deed);
  turn = done.catch(() => undefined);
  return done;
}

/** Puts a build on the desk that has no place yet: not kept until it is changed, or kept at once when it came from outside. */
export async function openNew(text: string, keepNow: boolean, cameAs = 'new'): Promise<void> {
  await inTurn(async () => await putNew(text, keepNow, cameAs));
}

/** The same, not kept, unless somebody has put a build on the desk meanwhile. */
export async function openIfNone(text: string): Promise<void> {
  await inTurn(async () => {
    if (keepingStore.get().opened === 0) await putNew(text, false, 'new');
  });
}

/** Opens a kept build by its id: from this browser where it holds unsent changes, else from the store. False: there is none. */
export async function openKept(id: string): Promise<boolean> {
  return await inTurn(async () => await putKept(id));
}

async function putNew(text: string, keepNow: boolean, cameAs: string): Promise<void> {
  await leaving();
  opening = true;
  try {
    await openText(text);
  } finally {
    opening = false;
  }
  current = keepNow ? { id: freshId(), text, baseText: null, base: 0, unsent: 1, sending: null } : null;
  keepingStore.set({
    ...NOTHING,
    opened: keepingStore.get().opened + 1,
    ...(current === null ? { cameAs } : { id: current.id, unsent: 1 }),
  });
  if (current === null) return;
  await keepHere();
  schedule(0);
}

async function putKept(id: string): Promise<boolean> {
  await leaving();
  const here = await ownOrOrphan(id);
  const there = await api.build(id).catch((error: unknown) => {
    if (error instanceof Refusal && error.code !== 'not-found') throw error;
    return null;
  });
  if (here === null && there === null) return false;
  const unsent = here !== null && here.text !== here.baseText;
  const text = unsent || there === null ? (here?.text ?? '') : there.revision.text;
  const steps = here === null ? { back: [], forth: [] } : { back: here.back, forth: here.forth };
  const back =
    here === null || here.text === text
      ? steps.back
      : [...steps.back, stepBetween(here.text, text, words.saved.elsewhere)];
  opening = true;
  try {
    await openText(text, { back, forth: here?.text === text ? steps.forth : [] });
  } finally {
    opening = false;
  }
  current = unsent
    ? {
        id,
        text,
        baseText: here.baseText,
        base: here.base,
        unsent: Math.max(1, here.unsent),
        sending: here.sending,
      }
    : {
        id,
        text,
        baseText: there?.revision.text ?? here?.baseText ?? null,
        base: there?.revision.number ?? here?.base ?? 0,
        unsent: 0,
        sending: null,
      };
  keepingStore.set({
    ...NOTHING,
    opened: keepingStore.get().opened + 1,
    id,
    base: current.base,
    unsent: current.unsent,
    kept: unsent || there === null ? 'device' : 'saved',
    savedAt: there === null ? '' : clock(there.revision.saved),
  });
  await keepHere();
  if (here !== null && !(await openWindows()).has(here.window)) await forgetBuild(here.key);
  if (current.text !== current.baseText) schedule(0);
  return true;
}

/** What this window kept, or a window that is no more; unsent changes first, then the newest. */
async function ownOrOrphan(id: string): Promise<KeptBuild | null> {
  try {
    const [mine, open] = await Promise.all([windowName(), openWindows()]);
    // What another open window has not sent yet is that window's; its way back may be shared.
    const mayTake = (each: KeptBuild): boolean =>
      each.window === mine || !open.has(each.window) || each.text === each.baseText;
    const free = (await keptOf(id)).filter(mayTake);
    return free.toSorted((a, b) => waits(b) - waits(a) || (a.at < b.at ? 1 : -1))[0] ?? null;
  } catch {
    return null;
  }
}

/** Before another build comes on the desk: what is unsent is at least here. */
async function leaving(): Promise<void> {
  clearTimeout(timer);
  if (current !== null && current.unsent > 0) {
    await keepHere();
    if (!sending) await send();
  }
  current = null;
  tries = 0;
  named = '';
}

const waits = (each: KeptBuild): number => (each.text === each.baseText ? 0 : 1);

const clock = (instant: string): string => {
  const time = new Date(instant);
  return Number.isNaN(time.getTime())
    ? ''
    : `${time.getHours()}:${String(time.getMinutes()).padStart(2, '0')}`;
};

/** Tries again at once: the way may be open now. */
export function tryAgain(): void {
  tries = 0;
  if (current !== null && current.text !== current.baseText) schedule(0);
}
