/** One finding: its mark and number, what it is, by how much; unfolded its working and its remedies. */
import { printValue, saysLine, verdictWords } from '@loomwright/engine';
import type { DrawingSubject, Finding } from '@loomwright/engine';
import { memo, useEffect, useRef, type ReactElement } from 'react';
import { Working } from '../../../findings/Working.tsx';
import { VerdictMark } from '../../../marks/VerdictMark.tsx';
import { showSheet } from '../../../view-store.ts';
import { tryCondition } from '../../try-it/try-store.ts';
import { own } from '../words.ts';
import { Aside } from './Aside.tsx';
import { Remedies } from './Remedies.tsx';
import type { Numbered } from './numbered.ts';

interface Props extends Numbered {
  /** Of what it speaks, as it is called on the drawing. */
  readonly names: string;
  readonly open: boolean;
  /** It is of the text before, and is being judged again. */
  readonly again: boolean;
  readonly press: (id: string) => void;
}

export const FindingRow = memo(Row);

function Row({ finding, number, names, open, again, press }: Props): ReactElement {
  const row = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (open) row.current?.scrollIntoView({ block: 'nearest' });
  }, [open]);
  const { verdict, aside } = finding;
  const danger = verdict === 'danger' && aside === null;
  const about = [verdictWords(finding), names].filter((text) => text !== '').join(', ');
  return (
    <li ref={row} className={`finding${open ? ' open' : ''}${danger ? ' danger' : ''}`}>
      <button
        type="button"
        className="row finding-row"
        aria-expanded={open}
        onClick={() => press(finding.id)}
      >
        <VerdictMark verdict={aside === null ? verdict : 'aside'} number={number ?? undefined} />
        <span className="finding-title">{saysLine(finding)}</span>
        <span className="finding-by small">{byHowMuch(finding)}</span>
        <span className="finding-words small">
          {again && <span className="finding-again">{own.again}</span>}
          {about}. <span className="finding-rule">{finding.title}</span>
        </span>
      </button>
      {open && (
        <div className="finding-more">
          <Working finding={finding} said />
          {verdict !== 'met' && aside === null && <Remedies finding={finding} />}
          <div className="buttons">
            {finding.worst !== null && <TryWorst condition={finding.worst} />}
            {verdict !== 'met' && <Aside finding={finding} />}
          </div>
        </div>
      )}
    </li>
  );
}

/** Goes to the hands in which it is worst. */
function TryWorst({ condition }: { readonly condition: string }): ReactElement {
  return (
    <button
      type="button"
      className="button"
      onClick={() => {
        tryCondition(condition);
        showSheet('try-it');
      }}
    >
      {own.tryIt}
    </button>
  );
}

/** The margin where it is on the bad side, else nothing: the row stays short. */
function byHowMuch(finding: Finding): string {
  const { margin, value, limit } = finding;
  if (margin === null || margin >= 0 || !Number.isFinite(margin)) return '';
  const size = printValue(Math.abs(margin), value.unit);
  const over = value.value !== null && limit.value !== null && value.value > limit.value;
  return `${size} ${over ? 'over' : 'short'}`;
}

const MOST = 4;

/** Designations of what it speaks of, as they stand on the drawing. */
export function namesOf({ about }: Finding, subject: DrawingSubject | null): string {
  const names = about.map(
    (id) => subject?.parts.get(id)?.designation ?? subject?.wires.get(id)?.number ?? id,
  );
  const shown = names.slice(0, MOST).join(' ');
  return names.length > MOST ? `${shown} and ${names.length - MOST} more` : shown;
}
