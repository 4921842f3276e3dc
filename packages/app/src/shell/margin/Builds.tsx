/** Builds: those of the store, those that only this browser has; new, from a file, a copy; builds to look at; the shelf; everything as one archive. */
import { useEffect, useState, type ReactElement } from 'react';
import { beginAnew } from '../../sheets/first-answer/first-store.ts';
import { api, hasServer, Unreachable, type BuildHead } from '../../store/api.ts';
import { listsStore } from '../../store/changes.ts';
import { allKept, type KeptBuild } from '../../store/db.ts';
import { keepingStore, openKept } from '../../store/keeping.ts';
import { badFileStore, openBuildFile } from '../../store/open-file.ts';
import { useStore } from '../../store/store.ts';
import { say, showMargin, showSheet, viewStore } from '../../view-store.ts';
import { words } from '../../words.ts';
import { BadFileWords } from './BadFile.tsx';
import { Everything } from './Everything.tsx';
import { Examples } from './Examples.tsx';
import { moreOf, MovedSaid, PutAway, usePutAway } from './PutAway.tsx';
import { Shelf } from './Shelf.tsx';

export function Builds(): ReactElement {
  const [sought, setSought] = useState('');
  const [heads, setHeads] = useState<readonly BuildHead[] | null>(null);
  const [trouble, setTrouble] = useState('');
  const [local, setLocal] = useState<readonly KeptBuild[]>([]);
  const here = useStore(keepingStore, (state) => state.id);
  const changes = useStore(listsStore, (state) => state.changes);
  const bad = useStore(badFileStore, (state) => state.bad);
  const away = usePutAway(sought, setTrouble);
  useEffect(() => {
    void allKept()
      .then(setLocal)
      .catch(() => undefined);
    if (!hasServer) return;
    void api
      .builds(sought)
      .then((found) => {
        setHeads(found);
        setTrouble('');
      })
      .catch((error: unknown) =>
        setTrouble(error instanceof Unreachable ? words.builds.unreachable : (error as Error).message),
      );
  }, [sought, changes, away.moved]);
  const known = new Set([...(heads ?? []), ...away.list].map((head) => head.id));
  const onlyHere = [
    ...new Map(
      local
        .filter((each) => !known.has(each.id) && (each.base === 0 || heads === null))
        .map((each) => [each.id, each]),
    ).values(),
  ].filter((each) => each.title.toLowerCase().includes(sought.toLowerCase()));
  return (
    <>
      <section className="margin-pad stack">
        <div className="line">
          <button type="button" className="button" onClick={() => void fresh()}>
            {words.builds.fresh}
          </button>
          <button type="button" className="button" onClick={() => void fromFile()}>
            {words.empty.open}
          </button>
        </div>
        {bad !== null && <BadFileWords bad={bad} />}
      </section>
      <section className="margin-pad">
        <label className="field">
          <span className="label">{words.builds.find}</span>
          <input type="search" value={sought} onChange={(event) => setSought(event.target.value)} />
        </label>
        {trouble !== '' && <p role="alert">{trouble}</p>}
        <MovedSaid away={away} />
        <ul className="rows">
          {(heads ?? []).map((head) => (
            <Line
              key={head.id}
              id={head.id}
              title={head.name ?? head.title}
              more={moreOf(head)}
              here={head.id === here}
              putAway={() => away.move(head, true)}
            />
          ))}
          {onlyHere.map((each) => (
            <Line
              key={each.id}
              id={each.id}
              title={each.title}
              more={words.builds.onlyHere}
              here={each.id === here}
              putAway={null}
            />
          ))}
        </ul>
        {heads?.length === 0 && onlyHere.length === 0 && <p>{words.builds.none}</p>}
        <PutAway away={away} />
      </section>
      <Examples />
      {hasServer && <Shelf />}
      {hasServer && <Everything />}
    </>
  );
}

async function fresh(): Promise<void> {
  await beginAnew();
  showSheet('first');
}

async function fromFile(): Promise<void> {
  if (await openBuildFile()) viewStore.set({ margin: null, marginUp: false });
}

interface LineProps {
  readonly id: string;
  readonly title: string;
  readonly more: string;
  readonly here: boolean;
  /** null: the store does not have it. */
  readonly putAway: (() => void) | null;
}

function Line({ id, title, more, here, putAway }: LineProps): ReactElement {
  const open = async (): Promise<void> => {
    if (await openKept(id)) showMargin(null);
  };
  const copy = async (): Promise<void> => {
    const { build } = await api.copy(id, `${title}, copy`, viewStore.get().who);
    await openKept(build.id);
  };
  return (
    <li className="list-line">
      <button type="button" className="row list-main" aria-current={here} onClick={() => void open()}>
        <b>{title}</b>
        <span className="small quiet">{here ? `${words.builds.here}, ${more}` : more}</span>
      </button>
      {putAway !== null && (
        <span className="line">
          <button type="button" className="button" onClick={() => void copy()}>
            {words.builds.copy}
            <span className="unseen"> {title}</span>
          </button>
          <button
            type="button"
            className="button"
            aria-disabled={here}
            title={here ? words.builds.awayNotNow : undefined}
            onClick={here ? () => say(words.builds.awayNotNow) : putAway}
          >
            {words.builds.away}
            <span className="unseen">
              {' '}
              {title}
              {here ? `. ${words.builds.awayNotNow}` : ''}
            </span>
          </button>
        </span>
      )}
    </li>
  );
}
