/** The line that sums up: dangers and faults first, then what is open and how it is had. */
import type { Verdict } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { useFromBuild, useJudged } from '../../hooks.ts';
import { VerdictMark } from '../../marks/VerdictMark.tsx';
import { words } from '../../words.ts';

const ORDER: readonly Verdict[] = ['danger', 'fault', 'open'];

export function FirstLine(): ReactElement {
  const { judged, judging } = useJudged();
  const failed = useFromBuild((state) => state.failed);
  if (failed !== null) {
    return (
      <p className="first-line" role="alert">
        <VerdictMark verdict="fault" />
        <b>{words.failed.engine}</b>
      </p>
    );
  }
  const worst = judged === null ? null : (ORDER.find((verdict) => judged.tally[verdict] > 0) ?? 'met');
  return (
    <p className="first-line">
      {worst === null ? <VerdictMark verdict="cannot-tell" /> : <VerdictMark verdict={worst} />}
      <b>{judged?.firstLine ?? words.first.workingOut}</b>
      {judging && judged !== null && <span className="small quiet judging">{words.judging}</span>}
    </p>
  );
}
