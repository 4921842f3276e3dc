/** Light, dark, glare, or as the system says. */
import type { ReactElement } from 'react';
import { useView } from '../hooks.ts';
import { keepView, type Theme } from '../view-store.ts';

const THEMES: readonly (readonly [Theme, string])[] = [
  ['light', 'Light'],
  ['dark', 'Dark'],
  ['glare', 'Glare'],
];

/** Light, dark, glare; pressing the chosen one again follows the system. */
export function Themes(): ReactElement {
  const theme = useView((view) => view.theme);
  return (
    <div className="segments themes" role="group" aria-label="Theme">
      {THEMES.map(([id, name]) => (
        <button
          key={id}
          type="button"
          aria-pressed={theme === id}
          onClick={() => keepView({ theme: theme === id ? 'system' : id })}
        >
          {name}
        </button>
      ))}
    </div>
  );
}
