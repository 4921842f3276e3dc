/** Saving: what is safe where, a named revision, a copy as a file, the revisions; two versions that came apart. */
import { useEffect, useState, type ReactElement } from 'react';
import { buildStore, editText } from '../../build-store.ts';
import { useBuild, useText, useView } from '../../hooks.ts';
import { api, hasServer, type RevisionHead } from '../../store/api.ts';
import { fileName, saveFile } from '../../store/files.ts';
import { keepingStore, send, settle, tryAgain, type Conflict } from '../../store/keeping.ts';
import { useStore } from '../../store/store.ts';
import { when } from '../../store/when.ts';
import { keepView } from '../../view-store.ts';
import { words } from '../../words.ts';
import { savedWords } from '../SavedCell.tsx';

export function Saving(): ReactElement {
  const state = useStore(keepingStore, (all) => all);
  const who = useView((view) => view.who);
  const [why, setWhy] = useState('');
  if (state.conflict !== null) return <TwoVersions conflict={state.conflict} />;
  const [caption, value] = savedWords(state);
  const canName = hasServer && state.id !== null && why.trim() !== '';
  return (
    <>
      <section className="margin-pad stack">
        <p>
          <b>
            {caption} {value}
          </b>
          {state.base > 0 && `, revision ${state.base}`}
        </p>
        {state.why !== '' && <p>{state.why}</p>}
        <label className="field">
          <span className="label">{words.who}</span>
          <input
            value={who}
            onChange={(event) => keepView({ who: event.target.value })}
            autoComplete="name"
            maxLength={80}
          />
        </label>
        {hasServer && (
          <label className="field">
            <span className="label">{words.saving.why}</span>
            <input
              value={why}
              onChange={(event) => setWhy(event.target.value)}
              autoComplete="off"
              maxLength={1000}
            />
          </label>
        )}
        <div className="line">
          {hasServer && (
            <button
              type="button"
              className="button"
              aria-disabled={!canName}
              onClick={() => {
                if (!canName) return;
                void send(why.trim());
                setWhy('');
              }}
            >
              {words.saving.named}
            </button>
          )}
          <CopyButton />
          {(state.kept === 'device' || state.kept === 'needs-you') && hasServer && (
            <button type="button" className="button" onClick={tryAgain}>
              {words.saving.again}
            </button>
          )}
        </div>
      </section>
      {state.id !== null && state.base > 0 && <Revisions id={state.id} base={state.base} />}
    </>
  );
}

export function CopyButton({ solid = false }: { readonly solid?: boolean }): ReactElement {
  const text = useText();
  const build = useBuild();
  return (
    <button
      type="button"
      className={solid ? 'button solid' : 'button'}
      onClick={() => text !== null && saveFile(fileName(build?.title ?? 'build'), text)}
    >
      {words.failed.copy}
    </button>
  );
}

function Revisions({ id, base }: { readonly id: string; readonly base: number }): ReactElement | null {
  const [list, setList] = useState<readonly RevisionHead[]>([]);
  useEffect(() => {
    let here = true;
    void api
      .revisions(id)
      .then((found) => here && setList(found))
      .catch(() => undefined);
    return () => {
      here = false;
    };
  }, [id, base]);
  if (list.length === 0) return null;
  const goBack = async (number: number): Promise<void> => {
    const { text } = await api.revision(id, number);
    if (buildStore.get().text !== text) await editText(text, words.saving.backTo(number));
  };
  return (
    <section className="margin-pad">
      <h3>{words.saving.revisions}</h3>
      <ul className="rows">
        {list.map(({ number, who, why, saved }) => (
          <li key={number} className="list-line">
            <div>
              <b>{number}</b> <span className="quiet">{when(saved)}</span>
              <div className="small">{[who, why].filter((each) => each !== '').join(': ')}</div>
            </div>
            <button type="button" className="button" onClick={() => void goBack(number)}>
              {words.saving.takeBack}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function TwoVersions({ conflict }: { readonly conflict: Conflict }): ReactElement {
  const { theirs, merged } = conflict;
  const by = theirs.who === '' ? 'another window' : theirs.who;
  return (
    <section className="margin-pad stack">
      <p className="lead">{words.saving.cameFrom(theirs.number, by, when(theirs.saved))}</p>
      <p>{words.saving.meet(merged.yours, merged.meetings.length)}</p>
      {merged.meetings.length > 0 && (
        <table className="table small">
          <thead>
            <tr>
              <th scope="col">value</th>
              <th scope="col">before</th>
              <th scope="col">yours</th>
              <th scope="col">theirs</th>
            </tr>
          </thead>
          <tbody>
            {merged.meetings.map(({ path, before, yours, theirs: other }) => (
              <tr key={path.join('.')}>
                <th scope="row">{path.join(', ')}</th>
                <td>{before}</td>
                <td className="yours">{yours}</td>
                <td>{other}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {merged.text === null && (
        <details>
          <summary>{words.saving.wholeTheirs}</summary>
          <pre className="small text">{theirs.text}</pre>
        </details>
      )}
      <div className="line">
        <button type="button" className="button solid" onClick={() => void settle('yours')}>
          {words.saving.yours}
        </button>
        <button type="button" className="button" onClick={() => void settle('theirs')}>
          {words.saving.theirs}
        </button>
        <CopyButton />
      </div>
      <p className="small quiet">{words.saving.nothingLost}</p>
    </section>
  );
}
