/** The answer: always these six rows in this order, each with its verdict's mark; a press opens the working. */
import { sentence } from '@loomwright/engine';
import { useState, type ReactElement } from 'react';
import type { FirstView, RowView } from '../../engine/first.ts';
import { Working } from '../../findings/Working.tsx';
import { useJudged } from '../../hooks.ts';
import { Changed } from '../../marks/Changed.tsx';
import { VerdictMark } from '../../marks/VerdictMark.tsx';
import { words } from '../../words.ts';
import { SourceAxis } from './SourceAxis.tsx';

export function AnswerRows({ view }: { readonly view: FirstView | null }): ReactElement {
  const [open, setOpen] = useState<RowView['id'] | null>(null);
  const rows = view?.rows ?? EMPTY;
  return (
    <ul className="answer-rows" aria-label="Answer">
      {rows.map((row) => (
        <li key={row.id}>
          <button
            type="button"
            className="answer-row row"
            aria-expanded={open === row.id}
            onClick={() => setOpen(open === row.id ? null : row.id)}
          >
            {view === null ? (
              <VerdictMark verdict="cannot-tell" />
            ) : (
              <VerdictMark verdict={row.verdict} label={row.verdict} />
            )}
            <span className="name">{row.name}</span>
            <span className="value strong">
              <Changed value={row.value} />
            </span>
            <span className="why small quiet">{sentence(row.why)}</span>
            {row.id === 'hunts' && view !== null && view.line !== null && <SourceAxis line={view.line} />}
          </button>
          {open === row.id && <RowWorking row={row} />}
        </li>
      ))}
    </ul>
  );
}

const EMPTY: readonly RowView[] = (
  [
    ['cable', 'Cable, each way'],
    ['device', 'Fuse or breaker'],
    ['hunts', 'Does it hunt?'],
    ['left-over', 'Left over at hot idle'],
    ['signal', 'Run signal needed?'],
    ['driving', 'Driving gives, per hour'],
  ] as const
).map(([id, name]) => ({ id, name, verdict: 'open', value: '', why: words.first.workingOut, findings: [] }));

function RowWorking({ row }: { readonly row: RowView }): ReactElement {
  const { judged } = useJudged();
  const findings = (judged?.findings ?? []).filter((finding) => row.findings.includes(finding.id));
  return (
    <div className="row-working">
      {findings.length === 0 && <p className="small">{words.first.noWorking}</p>}
      {findings.map((finding) => (
        <section key={finding.id}>
          <h3 className="row-finding">
            <VerdictMark verdict={finding.verdict} small label={finding.verdict} /> {finding.title}
          </h3>
          <Working finding={finding} />
        </section>
      ))}
    </div>
  );
}
