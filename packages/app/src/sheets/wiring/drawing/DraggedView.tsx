/** What is in the hand, and what letting go would do: in words beside it, and as a bar or band where it would stand. */
import type { DrawingSubject } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { own } from '../words.ts';
import type { Drop } from './dragging.ts';
import type { Box, Measured, Point } from './measure.ts';
import type { Dragged } from './use-dragging.ts';

interface Props {
  readonly dragged: Dragged;
  readonly measured: Measured;
  readonly subject: DrawingSubject;
  readonly scale: number;
}

export function DraggedView({ dragged, measured, subject, scale }: Props): ReactElement {
  const { held, from, at, drop } = dragged;
  return (
    <g className="dragged">
      {drop !== null && <Target drop={drop} measured={measured} subject={subject} scale={scale} />}
      {held.type === 'part' ? (
        <Outline
          box={measured.parts.get(held.part)?.box}
          by={{ x: at.x - from.x, y: at.y - from.y }}
          scale={scale}
        />
      ) : (
        <Line from={farEnd(measured, held.wire, held.end)} to={at} scale={scale} />
      )}
      <Says at={at} scale={scale} text={drop === null ? own.drag.nothing : wordsOf(drop, subject)} />
    </g>
  );
}

export function wordsOf(drop: Drop, subject: DrawingSubject): string {
  const name = (id: string): string =>
    subject.parts.get(id)?.designation ?? subject.wires.get(id)?.number ?? id;
  if (drop.type === 'place')
    return own.drag.place(
      name(drop.part),
      subject.places.find(({ id }) => id === drop.place)?.label ?? drop.place,
    );
  if (drop.type === 'order')
    return own.drag.order(name(drop.part), drop.before === null ? null : name(drop.before));
  if (drop.type === 'wire-order')
    return own.drag.order(name(drop.wire), drop.before === null ? null : name(drop.before));
  if (drop.type === 'onto') return own.drag.onto(name(drop.wire), name(drop.part));
  const [part = '', ...terminal] = drop.terminal.split('.');
  return own.drag.onto(name(drop.wire), `${name(part)} ${terminal.join('.')}`);
}

function Target({
  drop,
  measured,
  subject,
  scale,
}: {
  readonly drop: Drop;
  readonly measured: Measured;
  readonly subject: DrawingSubject;
  readonly scale: number;
}): ReactElement | null {
  if (drop.type === 'place')
    return <Band box={measured.places.find(({ id }) => id === drop.place)?.box} scale={scale} />;
  if (drop.type === 'onto') return <Band box={measured.parts.get(drop.part)?.box} scale={scale} />;
  if (drop.type === 'terminal') {
    const at = measured.terminals.get(drop.terminal);
    return at === undefined ? null : (
      <circle className="drop-spot" cx={at.x} cy={at.y} r={9 / scale} strokeWidth={2 / scale} />
    );
  }
  if (drop.type === 'wire-order') return null;
  const place = subject.parts.get(drop.part)?.place;
  const band = measured.places.find(({ id }) => id === place)?.box;
  if (band === undefined) return null;
  const others = [...measured.parts.values()].filter(
    ({ id }) => id !== drop.part && subject.parts.get(id)?.place === place,
  );
  const y =
    drop.before === null
      ? Math.max(...others.map(({ box }) => box.bottom)) + 12 / scale
      : (measured.parts.get(drop.before)?.box.top ?? band.top) - 12 / scale;
  return <path className="drop-bar" d={`M${band.left} ${y}H${band.right}`} strokeWidth={5 / scale} />;
}

function Band({
  box,
  scale,
}: {
  readonly box: Box | undefined;
  readonly scale: number;
}): ReactElement | null {
  if (box === undefined) return null;
  return (
    <rect
      className="drop-band"
      x={box.left}
      y={box.top}
      width={box.right - box.left}
      height={box.bottom - box.top}
      strokeWidth={4 / scale}
    />
  );
}

function Outline({
  box,
  by,
  scale,
}: {
  readonly box: Box | undefined;
  readonly by: Point;
  readonly scale: number;
}): ReactElement | null {
  if (box === undefined) return null;
  return (
    <rect
      className="held-box"
      x={box.left + by.x}
      y={box.top + by.y}
      width={box.right - box.left}
      height={box.bottom - box.top}
      strokeWidth={2 / scale}
    />
  );
}

function farEnd(measured: Measured, wire: string, end: 'from' | 'to'): Point | null {
  const points = measured.wires.get(wire)?.points ?? [];
  return (end === 'from' ? points.at(-1) : points[0]) ?? null;
}

function Line({
  from,
  to,
  scale,
}: {
  readonly from: Point | null;
  readonly to: Point;
  readonly scale: number;
}): ReactElement | null {
  if (from === null) return null;
  return (
    <path
      className="held-line"
      d={`M${from.x} ${from.y}L${to.x} ${to.y}`}
      strokeWidth={3 / scale}
      strokeDasharray={`${6 / scale} ${4 / scale}`}
    />
  );
}

function Says({
  at,
  scale,
  text,
}: {
  readonly at: Point;
  readonly scale: number;
  readonly text: string;
}): ReactElement {
  const size = 14 / scale;
  const wide = (text.length * 7.2 + 16) / scale;
  return (
    <g className="tag">
      <rect x={at.x + 14 / scale} y={at.y + 14 / scale} width={wide} height={size * 1.7} />
      <text
        x={at.x + 14 / scale + wide / 2}
        y={at.y + 14 / scale + size * 1.2}
        fontSize={size}
        textAnchor="middle"
      >
        {text}
      </text>
    </g>
  );
}
