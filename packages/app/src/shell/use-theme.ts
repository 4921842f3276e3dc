/** Puts the theme on the root, where the tokens look for it. */
import { useEffect, useSyncExternalStore } from 'react';
import { useView } from '../hooks.ts';

const DARK = '(prefers-color-scheme: dark)';

export function useTheme(): void {
  const chosen = useView((view) => view.theme);
  const dark = useSyncExternalStore(
    (watcher) => {
      const query = matchMedia(DARK);
      query.addEventListener('change', watcher);
      return () => query.removeEventListener('change', watcher);
    },
    () => matchMedia(DARK).matches,
  );
  const theme = chosen === 'system' ? (dark ? 'dark' : 'light') : chosen;
  useEffect(() => {
    document.documentElement.dataset['theme'] = theme;
  }, [theme]);
}
