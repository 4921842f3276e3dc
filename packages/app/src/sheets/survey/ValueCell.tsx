/** One value of the document that may be typed over where it stands; what was not read is a dashed "read". */
import { useRef, useState, type KeyboardEvent, type ReactElement } from 'react';
import { edit } from '../../build-store.ts';
import { VerdictMark } from '../../marks/VerdictMark.tsx';
import { words } from '../../words.ts';
import { writtenAs } from './survey-store.ts';

interface Props {
  readonly path: readonly (string | number)[];
  /** As written; undefined or "unknown": not read. */
  readonly value: unknown;
  /** What it is, for those who listen, and for the line of the edit. */
  readonly label: string;
  /** A reading of this vehicle: wears the probe point. */
  readonly measured?: boolean;
  /** Word on the dashed cell. */
  readonly ask?: string;
  readonly example?: string;
}

/** Enter keeps and goes to the next one; Escape lets go; emptied, it is not known again. */
export function ValueCell({
  path,
  value,
  label,
  measured = false,
  ask = words.survey.read,
  example = '',
}: Props): ReactElement {
  const written = writtenAs(value);
  const [typing, setTyping] = useState<string | null>(null);
  const [problem, setProblem] = useState('');
  const cell = useRef<HTMLSpanElement>(null);

  const keep = async (goOn: boolean): Promise<void> => {
    const next = (typing ?? '').trim();
    if (next === written) {
      setTyping(null);
    } else {
      const change = next === '' ? { set: path, to: 'unknown' } : { set: path, to: next };
      const refused = await edit([change], `${label}: ${next === '' ? words.survey.notRead : next}.`);
      setProblem(refused.map((each) => each.message).join(' '));
      if (refused.length > 0) return;
      setTyping(null);
    }
    if (goOn) goToNext(cell.current);
  };
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') {
      event.preventDefault();
      void keep(true);
    } else if (event.key === 'Escape') {
      event.stopPropagation();
      setTyping(null);
      setProblem('');
    }
  };
  return (
    <span className="value-cell" ref={cell}>
      {typing === null ? (
        <button
          type="button"
          className={written === '' ? 'to-read inset' : 'as-read inset'}
          onClick={() => setTyping(written)}
          data-value-cell
        >
          <span className="unseen">{label}: </span>
          {written === '' ? ask : <span className={measured ? 'measured' : 'given'}>{written}</span>}
        </button>
      ) : (
        <input
          // oxlint-disable-next-line jsx-a11y/no-autofocus -- it was pressed to be typed in
          autoFocus
          value={typing}
          placeholder={example}
          aria-label={label}
          aria-invalid={problem !== ''}
          autoComplete="off"
          enterKeyHint="next"
          onChange={(event) => setTyping(event.target.value)}
          onKeyDown={onKey}
          onBlur={() => void keep(false)}
        />
      )}
      {problem !== '' && (
        <span className="mend small" role="alert">
          <VerdictMark verdict="fault" small /> {problem}
        </span>
      )}
    </span>
  );
}

/** The next value in the order of the page opens itself. */
function goToNext(from: HTMLElement | null): void {
  const scope = from?.closest('table, .slip, form') ?? document;
  requestAnimationFrame(() => {
    const all = [...scope.querySelectorAll<HTMLElement>('[data-value-cell]')];
    const next = all.find(
      (each) =>
        from !== null &&
        (from.compareDocumentPosition(each) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0 &&
        !from.contains(each),
    );
    if (next === undefined) from?.querySelector<HTMLElement>('[data-value-cell]')?.focus();
    else next.click();
  });
}
