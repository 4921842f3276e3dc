/** What hangs on the drawing beside wires and parts: numbers of findings, grips of what is picked up, figures. */
import { printValue, type LiveReading } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { VerdictMark } from '../../../marks/VerdictMark.tsx';
import type { Numbered } from '../margin/numbered.ts';
import type { DrawingHandle } from './DrawingView.tsx';
import { along, type Measured, type Point } from './measure.ts';

const SIZE = 22;

interface FindingMarksProps extends DrawingHandle {
  readonly list: readonly Numbered[];
  readonly press: (id: string) => void;
}

/** Each finding that needs reading, at the first thing that it speaks of on this drawing. */
export function FindingMarks({ list, press, measured, scale }: FindingMarksProps): ReactElement {
  const taken = new Map<string, number>();
  const size = SIZE / scale;
  return (
    <>
      {list.map(({ finding, number }) => {
        const subject = finding.about.find((id) => measured.parts.has(id) || measured.wires.has(id));
        if (number === null || subject === undefined) return null;
        const nth = taken.get(subject) ?? 0;
        taken.set(subject, nth + 1);
        const at = spotFor(measured, subject, nth, size);
        if (at === null) return null;
        return (
          <svg
            key={finding.id}
            className="pressed"
            x={at.x}
            y={at.y}
            width={size}
            height={size}
            viewBox="0 0 26 26"
            onClick={(event) => {
              event.stopPropagation();
              press(finding.id);
            }}
          >
            <title>{`${number}: ${finding.title}`}</title>
            <rect width="26" height="26" fill="var(--sheet)" opacity="0.01" />
            <VerdictMark verdict={finding.verdict} number={number} />
          </svg>
        );
      })}
    </>
  );
}

/** Under the lower right corner of a part, side by side; on a wire ahead of its words. */
function spotFor({ parts, wires }: Measured, id: string, nth: number, size: number): Point | null {
  const step = nth * size * 1.08;
  const part = parts.get(id);
  if (part !== undefined) return { x: part.box.right - size * 0.2 + step, y: part.box.bottom - size * 0.1 };
  const wire = wires.get(id);
  if (wire === undefined) return null;
  const at = along(wire.points, wire.length * 0.2);
  return { x: at.x - size / 2 + step, y: at.y + size * 0.25 };
}

/** Square grips at both ends of picked wires, at the corners of picked parts. */
export function Grips({
  picked,
  measured,
  scale,
}: DrawingHandle & { readonly picked: ReadonlySet<string> }): ReactElement {
  const size = 10 / scale;
  const points = [...picked].flatMap((id): readonly Point[] => {
    const wire = measured.wires.get(id);
    if (wire !== undefined)
      return [wire.points[0], wire.points.at(-1)].filter((point) => point !== undefined);
    const box = measured.parts.get(id)?.box;
    if (box === undefined) return [];
    const air = 7 / scale;
    return [
      { x: box.left - air, y: (box.top + box.bottom) / 2 },
      { x: box.right + air, y: (box.top + box.bottom) / 2 },
    ];
  });
  return (
    <>
      {points.map(({ x, y }) => (
        <rect
          key={`${x} ${y}`}
          className="grip"
          x={x - size / 2}
          y={y - size / 2}
          width={size}
          height={size}
          strokeWidth={1.8 / scale}
        />
      ))}
    </>
  );
}

/** Amperes along each wire that carries any, in the middle of its longest free run. */
export function Amperes({
  reading,
  measured,
  scale,
}: DrawingHandle & { readonly reading: LiveReading }): ReactElement {
  const size = 13.5 / scale;
  return (
    <>
      {[...measured.wires.values()].map((wire) => {
        const amps = Math.abs(reading.wires[wire.id]?.amps ?? 0);
        if (amps < 0.05 || wire.length * scale < 58) return null;
        const { x, y } = along(wire.points, wire.length * 0.84);
        return (
          <text
            key={wire.id}
            className="plain-figure"
            x={x}
            y={y - 6 / scale}
            fontSize={size}
            strokeWidth={4 / scale}
            textAnchor="middle"
          >
            {printValue(amps, 'A')}
          </text>
        );
      })}
    </>
  );
}

/** Terminals that can be pressed now. */
export function TerminalSpots({
  chosen,
  measured,
  scale,
}: DrawingHandle & { readonly chosen: ReadonlySet<string> }): ReactElement {
  return (
    <>
      {[...measured.terminals].map(([id, { x, y }]) => (
        <circle
          key={id}
          className={chosen.has(id) ? 'terminal-spot chosen' : 'terminal-spot'}
          cx={x}
          cy={y}
          r={7 / scale}
          strokeWidth={2 / scale}
        />
      ))}
    </>
  );
}
