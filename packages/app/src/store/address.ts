/** The address after the hash: which build on which sheet, so that reload and back come to the same place. */
import { viewStore, type SheetId } from '../view-store.ts';
import { exampleAt } from './examples.ts';
import { keepingStore, openKept } from './keeping.ts';
import { openExample } from './open-example.ts';

const SHEETS: readonly string[] = ['first', 'survey', 'wiring', 'try-it'] satisfies readonly SheetId[];

export function readAddress(): { readonly id: string | null; readonly sheet: SheetId | null } {
  const [, id = '', sheet = ''] = location.hash.split('/');
  return {
    id: /^[a-z0-9][a-z0-9-]{7,63}$/.test(id) ? id : null,
    sheet: SHEETS.includes(sheet) ? (sheet as SheetId) : null,
  };
}

function write(): void {
  const { id, cameAs } = keepingStore.get();
  const { sheet } = viewStore.get();
  const hash = `#/${id ?? cameAs}/${sheet}`;
  if (location.hash === hash) return;
  const from = readAddress();
  // A build that was just given a place is the same page; another sheet or build is a step.
  if (from.sheet === sheet || location.hash === '') history.replaceState(null, '', hash);
  else history.pushState(null, '', hash);
  if (id !== null) remember(id);
}

const LAST = 'loomwright:last';

function remember(id: string): void {
  try {
    localStorage.setItem(LAST, id);
  } catch {
    // Then the next start begins anew.
  }
}

export function lastBuild(): string | null {
  try {
    return localStorage.getItem(LAST);
  } catch {
    return null;
  }
}

/** Follows the address and writes it. */
export function keepAddress(): () => void {
  const unwatch = [viewStore.watch(write), keepingStore.watch(write)];
  addEventListener('popstate', follow);
  write();
  return () => {
    for (const end of unwatch) end();
    removeEventListener('popstate', follow);
  };
}

function follow(): void {
  const { id, sheet } = readAddress();
  if (sheet !== null && sheet !== viewStore.get().sheet)
    viewStore.set({ sheet, margin: null, marginUp: false });
  const { id: here, cameAs } = keepingStore.get();
  if (id === null || id === here || (here === null && id === cameAs)) return;
  const example = exampleAt(id);
  void (example === null ? openKept(id) : openExample(example));
}
