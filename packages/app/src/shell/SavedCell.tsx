/** How safe the build is: plain on the disk, dashed in this browser, a heavy bar where it needs a person. */
import type { ReactElement } from 'react';
import { useView } from '../hooks.ts';
import { hasServer } from '../store/api.ts';
import { keepingStore, type KeepingState } from '../store/keeping.ts';
import { useStore } from '../store/store.ts';
import { showMargin } from '../view-store.ts';
import { words } from '../words.ts';

const HERE = hasServer ? 'Kept in this browser' : 'Kept on this phone';

/** Caption and value of the cell. */
export function savedWords({ kept, unsent, savedAt, id }: KeepingState): readonly [string, string] {
  const changes = words.saved.changes(unsent);
  const all: Readonly<Record<KeepingState['kept'], readonly [string, string]>> = {
    saved: ['Saved here', savedAt],
    saving: ['Saving', changes],
    device: [HERE, unsent === 0 ? 'all of it' : changes],
    'needs-you': ['Not saved', 'Keep a copy'],
    meets: ['Not saved', 'Two versions'],
    nothing: id === null ? ['Kept', 'not yet'] : [HERE, changes],
  };
  return all[kept];
}

const STYLE: Readonly<Record<KeepingState['kept'], string>> = {
  nothing: '',
  saved: '',
  saving: '',
  device: ' device',
  'needs-you': ' needs-you',
  meets: ' needs-you',
};

export function SavedCell(): ReactElement {
  const state = useStore(keepingStore, (all) => all);
  const on = useView((view) => view.margin === 'saving');
  const [caption, value] = savedWords(state);
  return (
    <button
      type="button"
      className={`cell rule-left saved${STYLE[state.kept]}`}
      aria-pressed={on}
      onClick={() => showMargin('saving')}
    >
      <span className="caption">{caption}</span>
      <span className="value">{value}</span>
    </button>
  );
}
