/** The state line: the sheet's hands or choice of view, then Find, Undo, Redo. */
import type { ReactElement } from 'react';
import { redo, undo } from '../build-store.ts';
import { useBuildState, useView } from '../hooks.ts';
import { showMargin } from '../view-store.ts';
import { words } from '../words.ts';

interface Props {
  readonly state: (element: HTMLElement | null) => void;
  readonly tools: (element: HTMLElement | null) => void;
  readonly phone: boolean;
}

export function StateLine({ state, tools, phone }: Props): ReactElement {
  const { back, forth, text } = useBuildState();
  const finding = useView((view) => view.margin === 'find');
  return (
    <header className="state-line" aria-label="State">
      <div className="left" ref={state} />
      <div className="right" ref={tools} />
      {!phone && text !== null && (
        <div className="right">
          <button type="button" className="button" aria-pressed={finding} onClick={() => showMargin('find')}>
            {words.find} <kbd className="key">/</kbd>
          </button>
          <Way name={words.undo} steps={back.map((each) => each.says)} go={() => void undo()} />
          <Way name={words.redo} steps={forth.map((each) => each.says)} go={() => void redo()} />
        </div>
      )}
    </header>
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
