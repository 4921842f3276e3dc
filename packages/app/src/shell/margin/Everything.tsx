/** Everything as one archive: out, and in again. What is here already is never changed by one. */
import { useState, type ReactElement } from 'react';
import { takeArchive, type Taken } from '../../store/archive.ts';
import { askForFile } from '../../store/files.ts';
import { words } from '../../words.ts';

type Stage =
  | { readonly type: 'nothing' }
  | { readonly type: 'taking' }
  | { readonly type: 'taken'; readonly taken: Taken }
  | { readonly type: 'refused'; readonly why: string };

export function Everything(): ReactElement {
  const [stage, setStage] = useState<Stage>({ type: 'nothing' });
  const takeIn = async (): Promise<void> => {
    const file = await askForFile('.tar,application/x-tar');
    if (file === null) return;
    setStage({ type: 'taking' });
    try {
      setStage({ type: 'taken', taken: await takeArchive(file) });
    } catch (error) {
      setStage({ type: 'refused', why: error instanceof Error ? error.message : String(error) });
    }
  };
  return (
    <section className="margin-pad stack">
      <h3>{words.everything.title}</h3>
      <p className="small quiet">{words.everything.says}</p>
      <p className="line">
        <a className="button" href="/api/archive" download>
          {words.everything.out}
        </a>
        <button
          type="button"
          className="button"
          disabled={stage.type === 'taking'}
          onClick={() => void takeIn()}
        >
          {words.everything.in}
        </button>
      </p>
      <p className="small" role="status">
        {stage.type === 'taking' && words.everything.taking}
        {stage.type === 'taken' && words.everything.taken(stage.taken)}
      </p>
      {stage.type === 'refused' && <p role="alert">{stage.why}</p>}
    </section>
  );
}
