/** On the phone: one place at a time, nose to tail, with the small vehicle as the way around. */
import type { DrawingSubject } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { OutlineMap } from './OutlineMap.tsx';
import { Arrow } from './StateView.tsx';
import { own } from './words.ts';

interface Props {
  readonly subject: DrawingSubject;
  readonly place: string;
  readonly set: (place: string) => void;
}

export function PlaceSteps({ subject, place, set }: Props): ReactElement {
  const { places } = subject;
  const at = Math.max(
    0,
    places.findIndex((each) => each.id === place),
  );
  const step = (by: number): void => {
    const next = places[(at + by + places.length) % places.length];
    if (next !== undefined) set(next.id);
  };
  return (
    <div className="place-steps">
      <OutlineMap subject={subject} here={places[at]?.id ?? null} press={set} width={58} />
      <div className="place-step">
        <button type="button" aria-label={own.previous} onClick={() => step(-1)}>
          <Arrow back />
        </button>
        <p aria-live="polite">
          <span className="caption">{own.place(at + 1, places.length)}</span>
          <b>{places[at]?.label}</b>
        </p>
        <button type="button" aria-label={own.next} onClick={() => step(1)}>
          <Arrow />
        </button>
      </div>
    </div>
  );
}
