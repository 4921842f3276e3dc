/** How large the screen is: a phone, or something between a phone and a desk, on which the margin is drawn up. */
import { useSyncExternalStore } from 'react';

export const usePhone = (): boolean => useMedia('(max-width: 767px)');
export const useMiddle = (): boolean => useMedia(MIDDLE);

const MIDDLE = '(min-width: 768px) and (max-width: 1199px)';

/** Whether there is no room for the margin beside the sheet. */
export const isNarrow = (): boolean => matchMedia('(max-width: 1199px)').matches;

function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (watcher) => {
      const media = matchMedia(query);
      media.addEventListener('change', watcher);
      return () => media.removeEventListener('change', watcher);
    },
    () => matchMedia(query).matches,
  );
}
