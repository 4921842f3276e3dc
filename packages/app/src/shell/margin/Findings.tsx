/** The findings, on any sheet. */
import { measureLine, verdictWords } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { useJudged } from '../../hooks.ts';
import { VerdictMark } from '../../marks/VerdictMark.tsx';
import { words } from '../../words.ts';

export function Findings(): ReactElement {
  const { judged } = useJudged();
  if (judged === null) return <p className="margin-pad">{words.nothingJudged}</p>;
  return (
    <section className="margin-pad">
      <p className="lead">{judged.firstLine}</p>
      <ul className="rows">
        {judged.findings
          .filter((each) => each.verdict !== 'met')
          .map((each) => (
            <li key={each.id} style={{ display: 'flex', gap: 10, padding: '8px 0' }}>
              <VerdictMark verdict={each.aside === null ? each.verdict : 'aside'} />
              <div>
                <b>{each.title}</b>
                <div className="fine">{verdictWords(each)}</div>
                <div className="small quiet">{measureLine(each)}</div>
              </div>
            </li>
          ))}
      </ul>
    </section>
  );
}
