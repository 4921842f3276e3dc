/** Wiring. */
import type { View } from '@loomwright/engine';
import { useState, type ReactElement } from 'react';
import { usePicked } from '../../hooks.ts';
import { InTools } from '../../shell/places.tsx';
import { pick } from '../../view-store.ts';
import type { SheetProps } from '../sheet.ts';
import { DrawingView, type Zoom } from './drawing/DrawingView.tsx';
import { looksOf } from './drawing/look.ts';
import { useDrawing } from './use-drawing.ts';

export function Wiring(_props: SheetProps): ReactElement {
  const [view, setView] = useState<View>('power');
  const [zoom] = useState<Zoom>('whole');
  const picked = usePicked();
  const { drawn } = useDrawing(view, 0);
  return (
    <div style={{ height: '100%', display: 'flex' }}>
      <InTools>
        <div className="segments">
          {(['all', 'power', 'control', 'negative'] as const).map((each) => (
            <button key={each} type="button" aria-pressed={view === each} onClick={() => setView(each)}>
              {each}
            </button>
          ))}
        </div>
      </InTools>
      <h1 className="unseen">Wiring</h1>
      {drawn !== null && (
        <DrawingView
          drawn={drawn}
          looks={looksOf(drawn.subject, null, new Set())}
          picked={new Set(picked === null ? [] : [picked])}
          zoom={zoom}
          onPress={(hit) => pick(hit === null ? null : hit.id)}
        />
      )}
    </div>
  );
}
