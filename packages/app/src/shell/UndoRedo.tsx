/** Find, and the way back and forth without limit. */
import type { ReactElement } from 'react';
import { redo, undo } from '../build-store.ts';
import { useBuildState, useView } from '../hooks.ts';
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
  const { back, forth } = useBuildState();
  return (
    <>
      <Way name={words.undo} steps={back.map((each) => each.says)} go={() => void undo()} />
      <Way name={words.redo} steps={forth.map((each) => each.says)} go={() => void redo()} />
    </>
  );
}

function Way({
  name,
  steps,
  go,
}: {
  readonly name: string;
  readonly steps: readonly string[];
  readonly go: () => void;
}): ReactElement {
  const last = steps.at(-1);
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
