/** The working of a finding, line by line: what, how, result; then what it rests on. */
import {
  basisAmount,
  bandLine,
  measureLine,
  needLine,
  saysLine,
  stepText,
  worstLine,
  verdictWords,
  type Basis,
  type Finding,
} from '@loomwright/engine';
import type { ReactElement } from 'react';
import { words } from '../words.ts';

interface Props {
  readonly finding: Finding;
  /** What it says stands outside already. */
  readonly said?: boolean;
}

/** What the finding says, its working, where it is worst, and what it needs. The title stands outside. */
export function Working({ finding, said = false }: Props): ReactElement {
  const lines = [measureLine(finding), bandLine(finding), worstLine(finding)].filter((line) => line !== '');
  const assumed = finding.restsOn.filter((basis) => basis.assumed);
  return (
    <div className="working">
      {!said && <p>{saysLine(finding)}</p>}
      <WorkingSteps finding={finding} />
      {lines.map((line) => (
        <p key={line} className="small quiet">
          {line}
        </p>
      ))}
      {finding.needs.map((need) => (
        <p key={need.basis.path} className="small">
          {needLine(need)}
        </p>
      ))}
      {finding.statements.length + assumed.length > 0 && (
        <details>
          <summary>{words.rules}</summary>
          {finding.statements.map(({ id, text, source }) => (
            <p key={id} className="small quiet">
              Statement {id}: {text} ({source})
            </p>
          ))}
          <RestsOn bases={assumed} />
        </details>
      )}
    </div>
  );
}

/** Three columns, the result on the right. */
export function WorkingSteps({ finding }: { readonly finding: Finding }): ReactElement | null {
  if (finding.working.length === 0) return null;
  return (
    <table className="steps" aria-label={`Working: ${finding.title}, ${verdictWords(finding)}`}>
      <tbody>
        {finding.working.map((step, index) => {
          const { what, how, result, source } = stepText(step);
          return (
            // oxlint-disable-next-line react/no-array-index-key -- lines have no other name
            <tr key={index} title={source}>
              <th scope="row">{what}</th>
              <td>{how}</td>
              <td className="number">{result}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

const MOST = 8;

function RestsOn({ bases }: { readonly bases: readonly Basis[] }): ReactElement | null {
  if (bases.length === 0) return null;
  const more = bases.length - MOST;
  return (
    <p className="small quiet">
      Assumed:{' '}
      {bases
        .slice(0, MOST)
        .map((basis) => `${basis.label} ${basisAmount(basis)}`.trim())
        .join('; ')}
      {more > 0 ? `; and ${more} more` : ''}.
    </p>
  );
}
