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
}

const WAYS: readonly Way[] = ['drawing', 'schedule', 'parts', 'text'];
const ZOOMS: readonly Zoom[] = ['whole', 'place', 'part'];

export function Tools({ way, setWay, zoom, setZoom, phone, doing, setDoing, tidy }: Props): ReactElement {
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
      {way === 'drawing' && !phone && (
        <button type="button" className="button" onClick={tidy}>
          {own.tidy}
        </button>
      )}
      {!phone && way !== 'text' && (
        <button type="button" className="button" onClick={() => window.print()}>
          {own.print}
        </button>
      )}
    </div>
  );
}
