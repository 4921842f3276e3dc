/** Under the drawing: how the wiring is shown, how near, and what can be done to it. */
import type { ReactElement } from 'react';
import type { Zoom } from './drawing/DrawingView.tsx';
import type { Doing } from './Wiring.tsx';
import { own } from './words.ts';

export type Way = 'drawing' | 'schedule' | 'parts' | 'text';

interface Props {
  readonly way: Way;
  readonly setWay: (way: Way) => void;
  readonly zoom: Zoom;
  readonly setZoom: (zoom: Zoom) => void;
  readonly phone: boolean;
  readonly doing: Doing;
  readonly setDoing: (doing: Doing) => void;
  readonly tidy: () => void;
  /** Whether the sheet is chosen where the vehicle would do; null: there is no choice. */
  readonly sheet: boolean | null;
  readonly setSheet: (sheet: boolean) => void;
  readonly print: () => void;
}

const WAYS: readonly Way[] = ['drawing', 'schedule', 'parts', 'text'];
const ZOOMS: readonly Zoom[] = ['whole', 'place', 'part'];

export function Tools(props: Props): ReactElement {
  const { way, setWay, zoom, setZoom, phone, doing, setDoing, tidy, sheet, setSheet, print } = props;
  const toggle = (next: Doing): void => setDoing(doing.type === next.type ? { type: 'nothing' } : next);
  return (
    <div className="wiring-tools">
      <div className="segments" role="group" aria-label={own.waysTitle}>
        {WAYS.map((each) => (
          <button key={each} type="button" aria-pressed={way === each} onClick={() => setWay(each)}>
            {own.ways[each]}
          </button>
        ))}
      </div>
      {way === 'drawing' && !phone && (
        <div className="segments" role="group" aria-label={own.zoomTitle}>
          {ZOOMS.map((each) => (
            <button key={each} type="button" aria-pressed={zoom === each} onClick={() => setZoom(each)}>
              {own.zooms[each]}
            </button>
          ))}
        </div>
      )}
      {way === 'drawing' && !phone && sheet !== null && (
        <div className="segments" role="group" aria-label={own.formTitle}>
          <button type="button" aria-pressed={!sheet} onClick={() => setSheet(false)}>
            {own.forms.vehicle}
          </button>
          <button type="button" aria-pressed={sheet} onClick={() => setSheet(true)}>
            {own.forms.sheet}
          </button>
        </div>
      )}
      <span className="gap" />
      {way !== 'text' && (
        <>
          <button
            type="button"
            className="button"
            aria-pressed={doing.type === 'adding'}
            onClick={() => toggle({ type: 'adding' })}
          >
            {own.addPart}
          </button>
          <button
            type="button"
            className="button"
            aria-pressed={doing.type === 'joining'}
            onClick={() => toggle({ type: 'joining', ends: { from: null, to: null } })}
          >
            {own.connect}
          </button>
        </>
      )}
      {way === 'drawing' && !phone && sheet !== false && (
        <button type="button" className="button" onClick={tidy}>
          {own.tidy}
        </button>
      )}
      {!phone && way !== 'text' && (
        <button type="button" className="button" onClick={print}>
          {own.print}
        </button>
      )}
    </div>
  );
}
