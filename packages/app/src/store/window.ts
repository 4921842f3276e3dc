/** This window's name, and which other windows are still there. */
import { freshId } from './fresh-id.ts';

const KEPT = 'loomwright:window';
const LOCK = 'loomwright-window-';

function ownName(): string {
  try {
    const kept = sessionStorage.getItem(KEPT);
    if (kept !== null) return kept;
    const made = freshId();
    sessionStorage.setItem(KEPT, made);
    return made;
  } catch {
    return freshId();
  }
}

let name = ownName();
let holding: Promise<void> | null = null;

/** Takes the name for as long as the window is open. A copy of a window has the name of the first; it takes a new one. */
export async function windowName(): Promise<string> {
  holding ??= hold();
  await holding;
  return name;
}

async function hold(): Promise<void> {
  if (typeof navigator.locks === 'undefined') return;
  if (await take(name)) return;
  name = freshId();
  try {
    sessionStorage.setItem(KEPT, name);
  } catch {
    // Then it is new at every start.
  }
  await take(name);
}

/** True when the name was free; it is then held until the window closes. */
async function take(wanted: string): Promise<boolean> {
  return await new Promise((resolve) => {
    void navigator.locks.request(LOCK + wanted, { ifAvailable: true }, async (lock) => {
      resolve(lock !== null);
      if (lock !== null) await new Promise(() => undefined);
    });
  });
}

/** Names of all windows that are open now. */
export async function openWindows(): Promise<ReadonlySet<string>> {
  if (typeof navigator.locks === 'undefined') return new Set([name]);
  const { held = [] } = await navigator.locks.query();
  return new Set(
    held.flatMap((lock) => (lock.name?.startsWith(LOCK) === true ? [lock.name.slice(LOCK.length)] : [])),
  );
}
