/** What lies over a drawing: figures, marks, what is dragged, the ring of the focus; and how its wires and parts are dressed. */
import type { LiveReading } from '@loomwright/engine';
import { memo, useLayoutEffect, useMemo, type ReactElement, type ReactNode, type RefObject } from 'react';
import type { Drawn } from '../../../engine/drawer.ts';
import { DraggedView } from './DraggedView.tsx';
import { dress } from './dress.ts';
import { fitPlaceNames } from './far-places.ts';
import { pressSpots } from './focusing.ts';
import { FAR, type WireLook } from './look.ts';
import { Figures } from './Marks.tsx';
import { along, withoutLabels, type Box, type Measured } from './measure.ts';
import { placeOnWires } from './places-on-wires.ts';
import type { Dragged } from './use-dragging.ts';

export interface DrawingHandle {
  readonly measured: Measured;
  readonly scale: number;
  /** Room that figures, sleeves and what was kept free take. */
  readonly taken: readonly Box[];
}

interface Props {
  readonly drawn: Drawn;
  readonly measured: Measured;
  /** `measured` is that of `drawn`. Where it is not yet, all stays as it was: it is measured before anything is painted. */
  readonly fits: boolean;
  readonly ink: RefObject<HTMLDivElement | null>;
  readonly looks: ReadonlyMap<string, WireLook>;
  readonly reading: LiveReading | null;
  readonly picked: ReadonlySet<string>;
  readonly scale: number;
  readonly labels: boolean;
  readonly focused: string | null;
  readonly dragged: Dragged | null;
  readonly keep: ((measured: Measured, scale: number) => readonly Box[]) | undefined;
  readonly children: ((at: DrawingHandle) => ReactNode) | undefined;
}

export const DrawingOver = memo(Over, (_before, after) => !after.fits);

/** The looks that were there before, where they are the same. */
function useAlike(looks: ReadonlyMap<string, WireLook>): ReadonlyMap<string, WireLook> {
  const words = JSON.stringify([...looks]);
  // oxlint-disable-next-line react/exhaustive-deps -- its words say all of it
  return useMemo(() => looks, [words]);
}

function Over(props: Props): ReactElement {
  const { drawn, measured, ink, looks, reading, picked, scale, labels, focused, dragged, keep, children } =
    props;
  const shown = useMemo(
    () => (labels && scale >= FAR ? measured : withoutLabels(measured, scale >= FAR ? null : 13 / scale)),
    [measured, labels, scale],
  );
  const placed = useMemo(
    () =>
      placeOnWires(shown, looks, reading, {
        scale,
        least: labels ? FAR : 2.2,
        kept: keep?.(shown, scale) ?? [],
      }),
    // An edit mostly leaves all where it stands, and looking for room costs.
    // oxlint-disable-next-line react/exhaustive-deps
    [shown.shape, useAlike(looks), reading, scale, labels, keep],
  );
  useLayoutEffect(() => {
    if (ink.current !== null) pressSpots(ink.current, picked);
    dress(measured, { looks, picked, scale, sleeves: placed.sleeves, taken: placed.taken });
    if (ink.current !== null) fitPlaceNames(ink.current, measured, scale, scale < FAR);
  }, [ink, measured, looks, picked, scale, placed]);
  return (
    <svg className="drawing-over" viewBox={`0 0 ${drawn.width} ${drawn.height}`}>
      <Figures placed={placed.figures} scale={scale} />
      {children?.({ measured: shown, scale, taken: placed.taken })}
      {dragged !== null && (
        <DraggedView dragged={dragged} measured={measured} subject={drawn.subject} scale={scale} />
      )}
      {focused !== null && <Ring box={ringOf(focused, measured)} scale={scale} />}
    </svg>
  );
}

function ringOf(id: string, { parts, wires, terminals }: Measured): Box | null {
  const part = parts.get(id);
  if (part !== undefined) return part.box;
  const wire = wires.get(id);
  const spot = wire === undefined ? terminals.get(id) : along(wire.points, wire.length / 2);
  if (wire?.label !== undefined && wire.label !== null) return wire.label;
  return spot === undefined
    ? null
    : { left: spot.x - 1, right: spot.x + 1, top: spot.y - 1, bottom: spot.y + 1 };
}

function Ring({ box, scale }: { readonly box: Box | null; readonly scale: number }): ReactElement | null {
  if (box === null) return null;
  const air = 6 / scale;
  const size = {
    x: box.left - air,
    y: box.top - air,
    width: box.right - box.left + 2 * air,
    height: box.bottom - box.top + 2 * air,
  };
  return (
    <>
      <rect className="ring-gap" {...size} strokeWidth={7 / scale} />
      <rect className="ring" {...size} strokeWidth={3 / scale} />
    </>
  );
}
