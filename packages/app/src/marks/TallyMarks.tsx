/** The tally of findings as marks with numbers; what there is none of is left out, but never the whole. */
import { VERDICTS, type Tally } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { VerdictMark } from './VerdictMark.tsx';

const NAMES = { danger: 'danger', fault: 'fault', open: 'open', advice: 'advice', met: 'met' } as const;

export function TallyMarks({
  tally,
  all = true,
}: {
  readonly tally: Tally;
  readonly all?: boolean;
}): ReactElement {
  const shown = VERDICTS.filter(
    (verdict) => tally[verdict] > 0 && (all || !['advice', 'met'].includes(verdict)),
  );
  const listed = shown.length === 0 ? (['met'] as const) : shown;
  return (
    <span className="tally-marks">
      {listed.map((verdict) => (
        <span key={verdict}>
          <VerdictMark verdict={verdict} small />
          {tally[verdict]}
          <span className="unseen"> {NAMES[verdict]}</span>
        </span>
      ))}
    </span>
  );
}
