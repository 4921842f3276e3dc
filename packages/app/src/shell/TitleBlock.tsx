/** The title block: the sheets as its cells, the build, the tally, and how safe it is. */
import type { ReactElement } from 'react';
import { useFromBuild, useJudged, useView } from '../hooks.ts';
import { TallyMarks } from '../marks/TallyMarks.tsx';
import { sheets } from '../sheets/registry.ts';
import { keepingStore } from '../store/keeping.ts';
import { useStore } from '../store/store.ts';
import { showMargin, showSheet, viewStore } from '../view-store.ts';
import { SavedCell } from './SavedCell.tsx';
import { FindButton, UndoRedo } from './UndoRedo.tsx';
import { Themes } from './Themes.tsx';

const PRACTICES = { europe: 'Europe', 'north-america': 'North America' } as const;

export function TitleBlock({ phone }: { readonly phone: boolean }): ReactElement {
  return phone ? <PhoneBlock /> : <DeskBlock />;
}

function DeskBlock(): ReactElement {
  return (
    <footer className="title-block" aria-label="Title block">
      <nav className="sheets" aria-label="Sheets">
        <SheetCells />
      </nav>
      <BuildCells />
      <TallyCell />
      <SavedCell />
    </footer>
  );
}

function SheetCells(): ReactElement {
  const here = useView((view) => view.sheet);
  return (
    <>
      {sheets.map(({ id, digit, name }) => (
        <button
          key={id}
          type="button"
          className="cell"
          aria-current={id === here ? 'page' : undefined}
          onClick={() => showSheet(id)}
        >
          <span className="caption">{digit}</span>
          <span className="value">{name}</span>
        </button>
      ))}
    </>
  );
}

function BuildCells(): ReactElement {
  const title = useFromBuild((state) => state.build?.title ?? 'none');
  const practice = useFromBuild((state) => state.build?.practice);
  const revision = useStore(keepingStore, (state) => state.base);
  return (
    <>
      <button type="button" className="cell rule-left build" onClick={() => showMargin('builds')}>
        <span className="caption">Build</span>
        <span className="value">{title}</span>
      </button>
      <button type="button" className="cell revision" onClick={() => showMargin('saving')}>
        <span className="caption">Revision</span>
        <span className="value">{revision === 0 ? 'new' : revision}</span>
      </button>
      <button type="button" className="cell" onClick={() => showMargin('build')}>
        <span className="caption">Practice</span>
        <span className="value">{practice === undefined ? 'not named' : PRACTICES[practice]}</span>
      </button>
    </>
  );
}

function TallyCell({ all = true }: { readonly all?: boolean }): ReactElement {
  const { judged, judging } = useJudged();
  const on = useView((view) => view.margin === 'findings');
  return (
    <button
      type="button"
      className="cell rule-left tally"
      aria-pressed={on}
      onClick={() => showMargin('findings')}
    >
      <span className="caption">{judging ? 'Findings, judging' : 'Findings'}</span>
      <span className="value">
        {judged === null ? 'none yet' : <TallyMarks tally={judged.tally} all={all} />}
      </span>
    </button>
  );
}

function PhoneBlock(): ReactElement {
  const here = useView((view) => view.sheet);
  const up = useView((view) => view.blockUp);
  const at = sheets.findIndex((sheet) => sheet.id === here);
  return (
    <>
      {up && <Raised />}
      <footer className="title-block" aria-label="Title block">
        <button
          type="button"
          className="cell"
          aria-expanded={up}
          onClick={() => viewStore.set({ blockUp: !up, marginUp: false, margin: null })}
        >
          <span className="caption">
            Sheet {at + 1} of {sheets.length}
          </span>
          <span className="value">{sheets[at]?.name}</span>
        </button>
        <TallyCell all={false} />
        <SavedCell />
      </footer>
    </>
  );
}

function Raised(): ReactElement {
  return (
    <div className="block-raised">
      <div className="line raised-tools">
        <FindButton />
        <UndoRedo />
      </div>
      <nav className="grid" aria-label="Sheets">
        <BuildCells />
        <SheetCells />
      </nav>
      <Themes />
    </div>
  );
}
