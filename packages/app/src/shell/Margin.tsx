/** The margin: the sheet's own words, or what was called into it. Never two things at once. */
import { Suspense, lazy, type ReactElement } from 'react';
import { undo } from '../build-store.ts';
import { useFromBuild, useJudged, useView } from '../hooks.ts';
import { viewStore, type MarginView } from '../view-store.ts';
import { words } from '../words.ts';
import { useMiddle } from './use-phone.ts';

interface Props {
  readonly body: (element: HTMLElement | null) => void;
  readonly foot: (element: HTMLElement | null) => void;
  readonly phone: boolean;
}

const Findings = lazy(async () => ({ default: (await import('./margin/Findings.tsx')).Findings }));
const Find = lazy(async () => ({ default: (await import('./margin/Find.tsx')).Find }));
const Builds = lazy(async () => ({ default: (await import('./margin/Builds.tsx')).Builds }));
const ThisBuild = lazy(async () => ({ default: (await import('./margin/ThisBuild.tsx')).ThisBuild }));
const Saving = lazy(async () => ({ default: (await import('./margin/Saving.tsx')).Saving }));
const Keys = lazy(async () => ({ default: (await import('./margin/Keys.tsx')).Keys }));

const VIEWS: Readonly<Partial<Record<NonNullable<MarginView>, () => ReactElement>>> = {
  findings: () => <Findings />,
  find: () => <Find />,
  keys: () => <Keys />,
  builds: () => <Builds />,
  build: () => <ThisBuild />,
  saving: () => <Saving />,
};

const TITLES: Readonly<Record<NonNullable<MarginView>, string>> = {
  findings: 'Findings',
  find: words.find,
  keys: words.keys.title,
  builds: 'Builds',
  build: 'This build',
  saving: 'Saving',
};

export function Margin({ body, foot, phone }: Props): ReactElement {
  const view = useView((state) => state.margin);
  const up = useView((state) => state.marginUp);
  const middle = useMiddle();
  return (
    <aside className={up ? 'margin up' : 'margin'} aria-label="Margin">
      {middle && view === null && <Heading up={up} />}
      {view !== null && (
        <div className="margin-pad margin-head">
          <h2>{TITLES[view]}</h2>
          <button
            type="button"
            className="button"
            onClick={() => viewStore.set({ margin: null, marginUp: false })}
          >
            {words.close}
          </button>
        </div>
      )}
      {view !== null && (
        <div className="margin-body">
          <Suspense fallback={null}>{VIEWS[view]?.()}</Suspense>
        </div>
      )}
      <div className="margin-body" ref={body} hidden={view !== null} />
      <Said />
      <div className="margin-foot" ref={foot} hidden={view !== null} />
      {phone && view === null && up && (
        <div className="margin-foot">
          <button type="button" className="button" onClick={() => viewStore.set({ marginUp: false })}>
            {words.close}
          </button>
        </div>
      )}
    </aside>
  );
}

/** Between phone and desk the margin is drawn up by its heading. */
function Heading({ up }: { readonly up: boolean }): ReactElement {
  const sheet = useView((state) => state.sheet);
  const { judged } = useJudged();
  const says = sheet === 'wiring' ? (judged?.firstLine ?? words.nothingJudged) : words.beside[sheet];
  return (
    <button
      type="button"
      className="margin-heading"
      aria-expanded={up}
      onClick={() => viewStore.set({ marginUp: !up })}
    >
      <svg width="16" height="10" viewBox="0 0 16 10" aria-hidden="true">
        <path d={up ? 'M1 1l7 7 7-7' : 'M1 9l7-7 7 7'} fill="none" stroke="currentColor" strokeWidth="2.5" />
      </svg>
      <b>{says}</b>
    </button>
  );
}

/** What the last change did; stays until the next one. */
function Said(): ReactElement | null {
  const said = useFromBuild((state) => state.said);
  const refused = useFromBuild((state) => state.refused);
  const some = useFromBuild((state) => state.back.length > 0);
  const why = refused.map((each) => each.message).join(' ');
  if (said === '' && why === '') return null;
  return (
    <div className="said">
      <p>{why === '' ? said : why}</p>
      {why === '' && some && (
        <button type="button" className="button" onClick={() => void undo()}>
          {words.undo} <kbd className="key">Ctrl Z</kbd>
        </button>
      )}
    </div>
  );
}
