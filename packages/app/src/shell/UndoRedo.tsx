/** Find, and the way back and forth without limit. */
import type { ReactElement } from 'react';
import { redo, undo } from '../build-store.ts';
import { useFromBuild, useView } from '../hooks.ts';
import { showMargin } from '../view-store.ts';
import { words } from '../words.ts';

export function FindButton(): ReactElement {
  const finding = useView((view) => view.margin === 'find');
  return (
    <button type="button" className="button" aria-pressed={finding} onClick={() => showMargin('find')}>
      {words.find} <kbd className="key">/</kbd>
    </button>
  );
}

export function UndoRedo(): ReactElement {
  const back = useFromBuild((state) => state.back.at(-1)?.says);
  const forth = useFromBuild((state) => state.forth.at(-1)?.says);
  return (
    <>
      <Way name={words.undo} last={back} go={() => void undo()} />
      <Way name={words.redo} last={forth} go={() => void redo()} />
    </>
  );
}

function Way({
  name,
  last,
  go,
}: {
  readonly name: string;
  /** What it would take back; undefined: there is nothing. */
  readonly last: string | undefined;
  readonly go: () => void;
}): ReactElement {
  return (
    <button
      type="button"
      className="button"
      aria-disabled={last === undefined}
      onClick={() => last !== undefined && go()}
    >
      {name}
      <span className="unseen">{last === undefined ? ': nothing to take back' : `: ${last}`}</span>
    </button>
  );
}
