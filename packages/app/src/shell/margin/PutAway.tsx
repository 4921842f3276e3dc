/** Builds that are put away: off the list, with all that was ever saved of them, and back again. Nothing is deleted. */
import { useEffect, useState, type ReactElement } from 'react';
import { api, hasServer, Unreachable, type BuildHead } from '../../store/api.ts';
import { listsStore } from '../../store/changes.ts';
import { useStore } from '../../store/store.ts';
import { when } from '../../store/when.ts';
import { say, viewStore } from '../../view-store.ts';
import { words } from '../../words.ts';

export interface Away {
  readonly list: readonly BuildHead[];
  /** What was moved last; null: nothing yet. */
  readonly moved: { readonly head: BuildHead; readonly away: boolean } | null;
  /** Puts a build away, or brings it back. */
  readonly move: (head: BuildHead, away: boolean) => void;
}

const nameOf = ({ name, title }: BuildHead): string => name ?? title;

export const moreOf = ({ head, saved, who, draft }: BuildHead): string =>
  [`revision ${head}`, when(saved), who, draft ? 'draft with errors' : '']
    .filter((each) => each !== '')
    .join(', ');

/** `trouble` is told what went wrong. */
export function usePutAway(sought: string, trouble: (says: string) => void): Away {
  const [list, setList] = useState<readonly BuildHead[]>([]);
  const [moved, setMoved] = useState<Away['moved']>(null);
  const changes = useStore(listsStore, (state) => state.changes);
  useEffect(() => {
    if (!hasServer) return;
    // Where the store does not answer, the list of builds says so.
    void api
      .builds(sought, true)
      .then(setList)
      .catch(() => undefined);
  }, [sought, changes, moved]);
  const move = async (head: BuildHead, away: boolean): Promise<void> => {
    try {
      await api.archive(head.id, away, viewStore.get().who);
      setMoved({ head, away });
      say((away ? words.builds.isAway : words.builds.isBack)(nameOf(head)));
    } catch (error) {
      trouble(error instanceof Unreachable ? words.builds.unreachable : (error as Error).message);
    }
  };
  return { list, moved, move: (head, away) => void move(head, away) };
}

/** What was put away just now, and the way back. */
export function MovedSaid({ away: { moved, move } }: { readonly away: Away }): ReactElement | null {
  if (moved === null) return null;
  const { head, away } = moved;
  return (
    <p className="moved">
      {(away ? words.builds.isAway : words.builds.isBack)(nameOf(head))}
      {away && (
        <button type="button" className="button" onClick={() => move(head, false)}>
          {words.undo}
        </button>
      )}
    </p>
  );
}

/** The list of those put away, folded. */
export function PutAway({ away: { list, move } }: { readonly away: Away }): ReactElement | null {
  const [open, setOpen] = useState(false);
  if (list.length === 0) return null;
  return (
    <>
      <button type="button" className="button put-away" aria-expanded={open} onClick={() => setOpen(!open)}>
        {words.builds.putAway(list.length)}
      </button>
      {open && (
        <ul className="rows">
          {list.map((head) => (
            <li key={head.id} className="list-line">
              <div>
                <b>{nameOf(head)}</b>
                <div className="small quiet">{moreOf(head)}</div>
              </div>
              <button type="button" className="button" onClick={() => move(head, false)}>
                {words.builds.back}
                <span className="unseen"> {nameOf(head)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
