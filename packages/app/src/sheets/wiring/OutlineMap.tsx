/** The small outline of the vehicle as a map of its places: pressing one goes there. */
import { outlineMap, type DrawingSubject } from '@loomwright/engine';
import { useMemo, type ReactElement } from 'react';
import { withoutStyles } from '../../engine/cut.ts';

interface Props {
  readonly subject: DrawingSubject;
  /** Place that is meant; null: none. */
  readonly here: string | null;
  readonly press: (place: string) => void;
  /** mm at print size. */
  readonly width?: number;
}

export function OutlineMap({ subject, here, press, width = 74 }: Props): ReactElement {
  const svg = useMemo(
    () => withoutStyles(outlineMap(subject, { width, prefix: 'map-', ...(here === null ? {} : { here }) })),
    [subject, here, width],
  );
  return (
    // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/no-static-element-interactions -- for the hand only: the same places are in the list and under the arrows
    <div
      className="outline-map"
      // oxlint-disable-next-line react/no-danger -- the engine's own drawing, its words escaped there
      dangerouslySetInnerHTML={{ __html: svg }}
      onClick={(event) => {
        const place = (event.target as Element).closest<SVGElement>('[data-place]')?.dataset['place'];
        if (place !== undefined) press(place);
      }}
    />
  );
}
