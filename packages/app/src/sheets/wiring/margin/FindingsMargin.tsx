/** The margin of the wiring sheet: the sum, what needs reading, facts worth getting; advice, met and set aside folded. */
import type { DrawingSubject } from '@loomwright/engine';
import {
  memo,
  useCallback,
  useEffect,
  useMemo,
  useRef,
  useState,
  type KeyboardEvent,
  type ReactElement,
} from 'react';
import { useAnew, useJudged, usePicked } from '../../../hooks.ts';
import { VerdictMark } from '../../../marks/VerdictMark.tsx';
import { isNarrow } from '../../../shell/use-phone.ts';
import { pick, viewStore } from '../../../view-store.ts';
import { words } from '../../../words.ts';
import { own } from '../words.ts';
import { FindingRow, namesOf } from './FindingRow.tsx';
import { numbered, type Numbered } from './numbered.ts';
import { Worth } from './Worth.tsx';

type Fold = 'advice' | 'met' | 'aside';

export const FindingsMargin = memo(Findings);

function Findings({ subject }: { readonly subject: DrawingSubject | null }): ReactElement {
  const { judged } = useJudged();
  const picked = usePicked();
  const [open, setOpen] = useState<string | null>(null);
  const [unfolded, setUnfolded] = useState<Fold | null>(null);
  const list = useMemo(() => numbered(judged?.findings ?? []), [judged]);

  useEffect(() => {
    if (picked === null || !list.some(({ finding }) => finding.id === picked)) return;
    setOpen(picked);
    // Pressed on the drawing, where the margin is not beside it: it is drawn up.
    if (isNarrow()) viewStore.set({ marginUp: true });
  }, [picked, list]);

  const opened = useRef(open);
  opened.current = open;
  const press = useCallback((id: string): void => {
    const now = opened.current === id ? null : id;
    setOpen(now);
    pick(now);
  }, []);
  const anew = useAnew();
  const late = useLate(anew !== null);

  if (judged === null) return <p className="margin-pad">{words.nothingJudged}</p>;
  const reading = list.filter(({ number }) => number !== null);
  const folds: Readonly<Record<Fold, readonly Numbered[]>> = {
    advice: list.filter(({ finding }) => finding.aside === null && finding.verdict === 'advice'),
    met: list.filter(({ finding }) => finding.aside === null && finding.verdict === 'met'),
    aside: list.filter(({ finding }) => finding.aside !== null),
  };
  const about = picked === null ? [] : list.filter(({ finding }) => finding.about.includes(picked));
  const told = about.filter(({ finding }) => finding.verdict !== 'met' && finding.aside === null);
  const fine = about.filter(({ finding }) => finding.verdict === 'met').length;
  const rest = reading.filter((each) => !told.includes(each));
  const row = (each: Numbered): ReactElement => (
    <FindingRow
      key={each.finding.id}
      {...each}
      names={namesOf(each.finding, subject)}
      open={open === each.finding.id}
      again={late && anew?.has(each.finding.id) === false}
      press={press}
    />
  );
  const name =
    subject?.parts.get(picked ?? '')?.designation ?? subject?.wires.get(picked ?? '')?.number ?? picked ?? '';
  return (
    // oxlint-disable-next-line jsx-a11y/no-static-element-interactions -- arrows walk through the buttons inside
    <div onKeyDown={walkRows}>
      <h2 className="margin-pad sum">{judged.firstLine}</h2>
      <p className="margin-pad small quiet how-far">
        {anew === null ? own.allJudged(list.length) : own.judgingAgain(anew.size, list.length)}
      </p>
      {about.length > 0 && (
        <section className="findings">
          <h3 className="findings-head">{own.aboutPicked(name)}</h3>
          <ul>{told.map(row)}</ul>
          {fine > 0 && <p className="findings-met small quiet">{own.metHere(fine)}</p>}
        </section>
      )}
      {rest.length > 0 && (
        <section className="findings">
          {about.length > 0 && <h3 className="findings-head">{own.needsReading}</h3>}
          <ul>{rest.map(row)}</ul>
        </section>
      )}
      <Worth list={list} />
      <section className="margin-pad folds">
        {(['advice', 'met', 'aside'] as const).map((fold) => (
          <button
            key={fold}
            type="button"
            className="button"
            aria-expanded={unfolded === fold}
            aria-disabled={folds[fold].length === 0}
            onClick={() => setUnfolded(unfolded === fold ? null : fold)}
          >
            <VerdictMark verdict={fold} small /> {folds[fold].length} {own.folded[fold]}
          </button>
        ))}
      </section>
      {unfolded !== null && (
        <section className="findings">
          <ul>{folds[unfolded].filter((each) => !told.includes(each)).map(row)}</ul>
        </section>
      )}
    </div>
  );
}

/** Rows say so one by one only where it lasts: on most edits all would change twice before they could be read. */
const PATIENCE = 150;

/** True once something has been so for a while. */
function useLate(is: boolean): boolean {
  const [late, setLate] = useState(false);
  useEffect(() => {
    if (!is) {
      setLate(false);
      return undefined;
    }
    const timer = setTimeout(() => setLate(true), PATIENCE);
    return () => clearTimeout(timer);
  }, [is]);
  return is && late;
}

/** Up and Down go from row to row; Right opens, Left folds. */
function walkRows(event: KeyboardEvent<HTMLElement>): void {
  const here = event.target as HTMLElement;
  if (!here.matches('.finding-row')) return;
  const rows = [...event.currentTarget.querySelectorAll<HTMLElement>('.finding-row')];
  const at = rows.indexOf(here);
  const expanded = here.getAttribute('aria-expanded') === 'true';
  if (event.key === 'ArrowDown') rows[at + 1]?.focus();
  else if (event.key === 'ArrowUp') rows[at - 1]?.focus();
  else if ((event.key === 'ArrowRight' && !expanded) || (event.key === 'ArrowLeft' && expanded)) here.click();
  else return;
  event.preventDefault();
}
