/** Hears of new states from the store, and that it is there again. */
import { hasServer } from './api.ts';
import { heard, tryAgain } from './keeping.ts';
import { Store } from './store.ts';

/** Rises when a list of builds or the shelf may be another one. */
export const listsStore = new Store({ changes: 0, there: true });

export function listenToStore(): () => void {
  if (!hasServer) return () => undefined;
  const source = new EventSource(new URL('/api/changes', location.origin));
  source.addEventListener('open', () => {
    listsStore.set({ there: true, changes: listsStore.get().changes + 1 });
    tryAgain();
  });
  source.addEventListener('error', () => listsStore.set({ there: false }));
  source.addEventListener('change', (event) => {
    const change: unknown = JSON.parse(String(event.data));
    const { what, id, head } = change as { what?: string; id?: string; head?: number };
    listsStore.set({ changes: listsStore.get().changes + 1 });
    if (what === 'build' && id !== undefined && head !== undefined) void heard(id, head);
  });
  addEventListener('online', tryAgain);
  return () => {
    source.close();
    removeEventListener('online', tryAgain);
  };
}
