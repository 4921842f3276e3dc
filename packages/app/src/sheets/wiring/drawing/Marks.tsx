/** What hangs on the drawing beside wires and parts: numbers of findings, grips of what is picked up, figures. */
import { useEffect, useMemo, useRef, type ReactElement } from 'react';
import { VerdictMark } from '../../../marks/VerdictMark.tsx';
import type { Numbered } from '../margin/numbered.ts';
import type { DrawingHandle } from './DrawingOver.tsx';
import { along, type Box, type Measured, type MeasuredPart, type Point } from './measure.ts';
import { freeSpot, isFree } from './spots.ts';

const SIZE = 22;

interface FindingMarksProps extends DrawingHandle {
  readonly list: readonly Numbered[];
  /** Picks a finding; or, where several hang on one thing, that thing. */
  readonly press: (id: string) => void;
}

interface Hung {
  readonly on: string;
  readonly worst: Numbered;
  readonly more: number;
}

/** At each thing its worst finding that needs reading, with how many more there are. */
export function FindingMarks({ list, press, measured, scale, taken }: FindingMarksProps): ReactElement {
  const hung = useMemo(() => hungOn(list, measured), [list, measured]);
  const spots = useSpots(hung, { measured, scale, taken });
  const size = SIZE / scale;
  return (
    <>
      {hung.map(({ on, worst, more }) => {
        const at = spots.get(on);
        return at === undefined ? null : (
          <g
            key={on}
            className="pressed"
            onClick={(event) => {
              event.stopPropagation();
              press(more > 0 ? on : worst.finding.id);
            }}
          >
            <title>
              {`${worst.number ?? ''}: ${worst.finding.title}${more > 0 ? `, and ${more} more` : ''}`}
            </title>
            <rect className="mark-ground" x={at.x} y={at.y} width={size} height={size} />
            <svg x={at.x} y={at.y} width={size} height={size} viewBox="0 0 26 26">
              <VerdictMark verdict={worst.finding.verdict} number={worst.number ?? undefined} />
            </svg>
            {more > 0 && (
              <text
                className="plain-figure"
                x={at.x + size * 1.08}
                y={at.y + size * 0.72}
                fontSize={12.5 / scale}
                strokeWidth={4 / scale}
              >
                +{more}
              </text>
            )}
          </g>
        );
      })}
    </>
  );
}

interface Hanging {
  readonly at: Point;
  readonly wide: number;
  readonly size: number;
  /** Where the thing stands on which it hangs. */
  readonly thing: string;
}

/**
 * Where each mark stands. Most edits and findings leave all of them where they are, and looking for room costs: a mark whose place is
 * still free, at a thing that did not move, stays there.
 */
function useSpots(
  hung: readonly Hung[],
  { measured, scale, taken }: DrawingHandle,
): ReadonlyMap<string, Point> {
  const marks = JSON.stringify(hung.map(({ on, more }) => [on, more > 0]));
  const room = JSON.stringify(taken);
  const last = useRef<ReadonlyMap<string, Hanging>>(new Map());
  const hanging = useMemo(
    () => hangAll(hung, { measured, scale, taken }, last.current),
    // What the rest of the picture is made of is said by its shape.
    // oxlint-disable-next-line react/exhaustive-deps
    [marks, room, scale, measured.shape],
  );
  useEffect(() => {
    last.current = hanging;
  }, [hanging]);
  return useMemo(() => new Map([...hanging].map(([on, { at }]) => [on, at])), [hanging]);
}

/** `before`: where marks stood. */
function hangAll(
  hung: readonly Hung[],
  { measured, scale, taken }: DrawingHandle,
  before: ReadonlyMap<string, Hanging>,
): ReadonlyMap<string, Hanging> {
  const size = SIZE / scale;
  const done: Box[] = [...taken];
  const made = new Map<string, Hanging>();
  const hang = (on: string, at: Point, wide: number): void => {
    done.push(boxOf(at, wide, size));
    made.set(on, { at, wide, size, thing: thingOf(measured, on) });
  };
  const wideOf = ({ more }: Hung): number => size * (more > 0 ? 1.9 : 1);
  for (const each of hung) {
    const was = before.get(each.on);
    const wide = wideOf(each);
    if (was?.wide !== wide || was.size !== size || was.thing !== thingOf(measured, each.on)) continue;
    if (isFree(measured, boxOf(was.at, wide, size), done)) hang(each.on, was.at, wide);
  }
  for (const each of hung) {
    if (made.has(each.on)) continue;
    const wide = wideOf(each);
    const at = spotFor(measured, each.on, wide, size, done);
    if (at !== null) hang(each.on, at, wide);
  }
  return made;
}

const boxOf = ({ x, y }: Point, wide: number, size: number): Box => ({
  left: x,
  right: x + wide,
  top: y,
  bottom: y + size,
});

function thingOf({ parts, wires }: Measured, on: string): string {
  const part = parts.get(on);
  return JSON.stringify(part === undefined ? wires.get(on)?.points : part.box);
}

/** In the order of the findings: the first at each thing is its worst. */
function hungOn(list: readonly Numbered[], measured: Measured): readonly Hung[] {
  const hung = new Map<string, Hung>();
  for (const each of list) {
    if (each.number === null) continue;
    const on = each.finding.about.find((id) => measured.parts.has(id) || measured.wires.has(id));
    if (on === undefined) continue;
    const known = hung.get(on);
    hung.set(on, known === undefined ? { on, worst: each, more: 0 } : { ...known, more: known.more + 1 });
  }
  return [...hung.values()];
}

/** Beside a part where nothing stands; above a level run of a wire, beside an upright one. */
function spotFor(
  measured: Measured,
  id: string,
  wide: number,
  size: number,
  taken: readonly Box[],
): Point | null {
  const part = measured.parts.get(id);
  if (part !== undefined) return besidePart(measured, part, wide, size, taken);
  const wire = measured.wires.get(id);
  if (wire === undefined) return null;
  const wanted = { half: wide / 2, up: size * 1.15, down: -size * 0.15, level: true };
  const free = freeSpot(measured, wire, wanted, taken);
  if (free !== null) return { x: free.x - wide / 2, y: free.y - size * 1.1 };
  const under = { ...wanted, up: -size * 0.15, down: size * 1.15 };
  const below = freeSpot(measured, wire, under, taken);
  if (below !== null) return { x: below.x - wide / 2, y: below.y + size * 0.15 };
  const { label } = wire;
  if (label !== null) {
    const middle = (label.left + label.right - wide) / 2;
    const beside = [
      { x: middle, y: label.bottom },
      { x: middle, y: label.top - size },
    ];
    const spot = beside.find(({ x, y }) =>
      isFree(measured, { left: x, right: x + wide, top: y, bottom: y + size }, taken),
    );
    if (spot !== undefined) return spot;
  }
  const at = along(wire.points, wire.length * 0.25);
  return { x: at.x - wide / 2, y: at.y + size * 0.2 };
}

function besidePart(
  measured: Measured,
  { box, whole }: MeasuredPart,
  wide: number,
  size: number,
  taken: readonly Box[],
): Point {
  const air = size * 0.12;
  const tries: readonly Point[] = [
    { x: box.right + air, y: box.top - size - air },
    { x: box.left - wide - air, y: box.top - size - air },
    { x: box.right + air, y: box.bottom + air },
    { x: box.left - wide - air, y: box.bottom + air },
    { x: whole.right + air, y: whole.top },
    { x: whole.left - wide - air, y: whole.top },
    { x: (box.left + box.right - wide) / 2, y: whole.bottom + air },
    { x: (box.left + box.right - wide) / 2, y: whole.top - size - air },
  ];
  const free = tries.find(({ x, y }) =>
    isFree(measured, { left: x, right: x + wide, top: y, bottom: y + size }, taken),
  );
  return free ?? { x: box.right - wide / 2, y: box.bottom - size / 2 };
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

/** Amperes along the wires. */
export function Figures({
  placed,
  scale,
}: {
  readonly placed: ReadonlyMap<string, Point & { readonly text: string }>;
  readonly scale: number;
}): ReactElement {
  return (
    <>
      {[...placed].map(([id, { x, y, text }]) => (
        <text
          key={id}
          className="plain-figure"
          x={x}
          y={y}
          fontSize={13.5 / scale}
          strokeWidth={4 / scale}
          textAnchor="middle"
        >
          {text}
        </text>
      ))}
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
