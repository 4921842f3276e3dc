/** Whether the screen is a phone's. */
import { useSyncExternalStore } from 'react';

const NARROW = '(max-width: 767px)';

export function usePhone(): boolean {
  return useSyncExternalStore(
    (watcher) => {
      const query = matchMedia(NARROW);
      query.addEventListener('change', watcher);
      return () => query.removeEventListener('change', watcher);
    },
    () => matchMedia(NARROW).matches,
  );
}
