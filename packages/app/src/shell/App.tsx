/** The frame: state line, sheet, margin, title block. */
import { Suspense, useEffect, useMemo, useRef, useState, type ReactElement } from 'react';
import { useView } from '../hooks.ts';
import { sheets } from '../sheets/registry.ts';
import { ErrorBoundary } from './ErrorBoundary.tsx';
import { listenToKeys } from './keys.ts';
import { Margin } from './Margin.tsx';
import { PlacesContext, type Places } from './places.tsx';
import { Spoken } from './Spoken.tsx';
import { StateLine } from './StateLine.tsx';
import { TitleBlock } from './TitleBlock.tsx';
import { usePhone } from './use-phone.ts';
import { useTheme } from './use-theme.ts';

export function App(): ReactElement {
  useTheme();
  useEffect(listenToKeys, []);
  const phone = usePhone();
  const id = useView((view) => view.sheet);
  const sheet = sheets.find((each) => each.id === id) ?? sheets[0];
  const [state, setState] = useState<HTMLElement | null>(null);
  const [tools, setTools] = useState<HTMLElement | null>(null);
  const [margin, setMargin] = useState<HTMLElement | null>(null);
  const [foot, setFoot] = useState<HTMLElement | null>(null);
  const [slip, setSlip] = useState<HTMLElement | null>(null);
  const places: Places = useMemo(
    () => ({ state, tools, margin, foot, slip }),
    [state, tools, margin, foot, slip],
  );
  const main = useRef<HTMLElement>(null);
  useEffect(() => {
    document.title = sheet === undefined ? 'Loomwright' : `${sheet.name}, Loomwright`;
    main.current?.scrollTo(0, 0);
  }, [sheet]);
  const Content = sheet?.component;
  return (
    <PlacesContext value={places}>
      <a
        className="skip"
        href="#sheet"
        onClick={(event) => {
          event.preventDefault();
          main.current?.focus();
        }}
      >
        To the sheet
      </a>
      <div className="shell">
        <StateLine state={setState} tools={setTools} phone={phone} />
        <div className="sheet-area">
          <main className="sheet" id="sheet" tabIndex={-1} ref={main} aria-label={sheet?.name}>
            <ErrorBoundary key={sheet?.id}>
              <Suspense fallback={null}>{Content !== undefined && <Content phone={phone} />}</Suspense>
            </ErrorBoundary>
          </main>
          <div className="slip" ref={setSlip} role="region" aria-label="What is picked up" />
        </div>
        <Margin body={setMargin} foot={setFoot} phone={phone} />
        <TitleBlock phone={phone} />
      </div>
      <Spoken />
    </PlacesContext>
  );
}
