/** The state line: the sheet's hands or choice of view, then Find, Undo, Redo. */
import type { ReactElement } from 'react';
import { useFromBuild } from '../hooks.ts';
import { FindButton, UndoRedo } from './UndoRedo.tsx';

interface Props {
  readonly state: (element: HTMLElement | null) => void;
  readonly tools: (element: HTMLElement | null) => void;
  readonly phone: boolean;
}

export function StateLine({ state, tools, phone }: Props): ReactElement {
  const open = useFromBuild((state) => state.text !== null);
  return (
    <header className="state-line" aria-label="State">
      <div className="left" ref={state} />
      <div className="right" ref={tools} />
      {!phone && open && (
        <div className="right">
          <FindButton />
          <UndoRedo />
        </div>
      )}
    </header>
  );
}
