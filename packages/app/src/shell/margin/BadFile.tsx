/** A file that was not opened: every fault with its line and column, and that nothing was changed. */
import type { ReactElement } from 'react';
import { VerdictMark } from '../../marks/VerdictMark.tsx';
import type { BadFile } from '../../store/open-file.ts';
import { words } from '../../words.ts';

const MOST = 12;

export function BadFileWords({ bad }: { readonly bad: BadFile }): ReactElement {
  const more = bad.diagnostics.length - MOST;
  return (
    <div role="alert" className="stack">
      <p className="mark-line">
        <VerdictMark verdict="fault" small />
        <b>{words.badFile.title(bad.name)}</b>
      </p>
      <ul className="rows">
        {bad.diagnostics.slice(0, MOST).map(({ line, column, message }) => (
          <li key={`${line}:${column}:${message}`} className="small bad-line">
            <span className="quiet nowrap">{words.badFile.at(line, column)}</span> {message}
          </li>
        ))}
      </ul>
      {more > 0 && <p className="small">{words.badFile.more(more)}</p>}
      <p className="small quiet">{words.badFile.nothing}</p>
    </div>
  );
}
