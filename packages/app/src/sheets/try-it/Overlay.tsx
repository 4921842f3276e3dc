/** On the drawing: volts as pennants at terminals, needles and clamps of the probes, troubles where they are laid on. */
import { printValue, type DrawingSubject, type LiveReading, type Trouble } from '@loomwright/engine';
import { useMemo, type ReactElement } from 'react';
import type { LiveVehicle } from '../../engine/live-desk.ts';
import type { DrawingHandle } from '../wiring/drawing/DrawingOver.tsx';
import { along, type Box, type Measured, type MeasuredWire, type Point } from '../wiring/drawing/measure.ts';
import { firstFree, isFree } from '../wiring/drawing/spots.ts';
import { clampPoint, pointOf } from './probe-room.ts';
import type { Probe } from './probes.ts';

interface PennantsProps extends DrawingHandle {
  readonly reading: LiveReading;
  readonly vehicle: LiveVehicle;
}

const WIDE = 54;
const HIGH = 19;
/** From a terminal's middle to the tip of its pennant, mm. */
const CLEAR = 1.1;

/** Volts to the own negative, at each terminal that has room for them. */
export function Pennants({ reading, vehicle, measured, scale, taken }: PennantsProps): ReactElement {
  const spots = useMemo(() => pennantSpots(measured, scale, taken), [measured, scale, taken]);
  return (
    <>
      {spots.map(({ terminal, x, y, tip }) => {
        const volts = voltsToOwn(reading, vehicle, terminal);
        if (volts === null || Math.abs(volts) < 0.5) return null;
        const [w, h, point] = [WIDE / scale, HIGH / scale, 7 / scale];
        const right = tip.x > x;
        const d = right
          ? `M${x} ${y}h${w}l${point} ${h / 2}l${-point} ${h / 2}h${-w}Z`
          : `M${x + w} ${y}h${-w}l${-point} ${h / 2}l${point} ${h / 2}h${w}Z`;
        return (
          <g key={terminal} className="pennant">
            <path d={d} strokeWidth={1.3 / scale} />
            <text x={x + w / 2} y={y + h * 0.73} fontSize={13 / scale} textAnchor="middle">
              {printValue(volts, 'V')}
            </text>
          </g>
        );
      })}
    </>
  );
}

/** null: no battery on its island. */
export function voltsToOwn(reading: LiveReading, vehicle: LiveVehicle, terminal: string): number | null {
  const [volts, island] = [reading.volts[terminal], reading.island[terminal]];
  const negatives = vehicle.batteries.flatMap(({ minus }) => {
    const at = reading.volts[minus];
    return at !== undefined && reading.island[minus] === island ? [at] : [];
  });
  return volts === undefined || negatives.length === 0 ? null : volts - Math.min(...negatives);
}

interface PennantSpot extends Point {
  readonly terminal: string;
  readonly tip: Point;
}

function pennantSpots(measured: Measured, scale: number, taken: readonly Box[]): readonly PennantSpot[] {
  if (scale < 2.4) return [];
  const done: Box[] = [...taken];
  const [w, h, point] = [WIDE / scale, HIGH / scale, 7 / scale];
  return [...measured.terminals].flatMap(([terminal, tip]): readonly PennantSpot[] => {
    // Clear of the terminal's own circle, before or behind it, above the wire or below.
    const [before, behind] = [tip.x - w - point - CLEAR, tip.x + point + CLEAR];
    const tries: readonly Point[] = [
      { x: behind, y: tip.y - h - 4 / scale },
      { x: before, y: tip.y - h - 4 / scale },
      { x: behind, y: tip.y + 5 / scale },
      { x: before, y: tip.y + 5 / scale },
    ];
    const room = ({ x, y }: Point): Box => ({
      left: x > tip.x ? x - point : x,
      right: x > tip.x ? x + w : x + w + point,
      top: y,
      bottom: y + h,
    });
    const spot = tries.find((each) => isFree(measured, room(each), done));
    if (spot === undefined) return [];
    done.push(room(spot));
    return [{ ...spot, terminal, tip }];
  });
}

export function Probes({
  probes,
  measured,
  scale,
}: DrawingHandle & { readonly probes: readonly Probe[] }): ReactElement {
  return (
    <>
      {probes.map((probe) => {
        if (probe.type === 'clamp') {
          const wire = probe.wire === null ? undefined : measured.wires.get(probe.wire);
          return wire === undefined ? null : (
            <Clamp
              key={probe.letter}
              at={clampPoint(measured, wire, scale)}
              letter={probe.letter}
              scale={scale}
            />
          );
        }
        const [plus, minus] = [pointOf(measured, probe.plus), pointOf(measured, probe.minus)];
        // The two lean away from each other.
        const up = plus === null || minus === null || plus.y <= minus.y;
        const { letter } = probe;
        return (
          <g key={letter}>
            {plus !== null && <Needle at={plus} letter={letter} scale={scale} up={up} plus />}
            {minus !== null && <Needle at={minus} letter={letter} scale={scale} up={!up} />}
          </g>
        );
      })}
    </>
  );
}

interface NeedleProps {
  readonly at: Point;
  readonly letter: string;
  readonly scale: number;
  readonly up: boolean;
  readonly plus?: boolean;
}

function Needle({ at, letter, scale, up, plus = false }: NeedleProps): ReactElement {
  const turn = up ? -118 : 118;
  return (
    <g
      className={plus ? 'needle plus' : 'needle'}
      transform={`translate(${at.x} ${at.y}) scale(${1 / scale}) rotate(${turn})`}
    >
      <path d="M0 0 14 -6H44a6 6 0 0 1 0 12H14Z" />
      <text x="30" y="4.5" textAnchor="middle" transform={`rotate(${-turn} 30 0)`}>
        {letter}
      </text>
    </g>
  );
}

function Clamp({
  at,
  letter,
  scale,
}: {
  readonly at: Point;
  readonly letter: string;
  readonly scale: number;
}): ReactElement {
  return (
    <g className="clamp" transform={`translate(${at.x} ${at.y}) scale(${1 / scale})`}>
      <path d="M5 -14.5A15.5 15.5 0 1 0 14.5 -5" />
      <rect x="-9" y="17" width="18" height="18" rx="3" />
      <text x="0" y="31" textAnchor="middle">
        {letter}
      </text>
    </g>
  );
}

interface TroublesProps extends DrawingHandle {
  readonly troubles: readonly Trouble[];
  readonly reading: LiveReading | null;
  readonly subject: DrawingSubject;
}

export function Troubles({
  troubles,
  reading,
  subject,
  measured,
  scale,
  taken,
}: TroublesProps): ReactElement {
  const near = { measured, taken };
  return (
    <>
      {troubles.map((trouble, i) => {
        if (trouble.type === 'stuck') {
          const box = measured.parts.get(trouble.part)?.box;
          if (box === undefined) return null;
          const at = { x: (box.left + box.right) / 2, y: box.bottom + 8 / scale };
          // oxlint-disable-next-line react/no-array-index-key -- troubles have no other name
          return <Words key={i} at={at} scale={scale} lines={[`sticks ${trouble.at}`]} {...near} />;
        }
        const wire = measured.wires.get(trouble.wire);
        if (wire === undefined) return null;
        const amps = Math.abs(reading?.wires[trouble.wire]?.amps ?? 0);
        return trouble.type === 'open-wire' ? (
          // oxlint-disable-next-line react/no-array-index-key -- troubles have no other name
          <Break key={i} wire={wire} scale={scale} near={near} />
        ) : (
          <Joint
            // oxlint-disable-next-line react/no-array-index-key -- troubles have no other name
            key={i}
            wire={wire}
            end={trouble.end}
            scale={scale}
            near={near}
            lines={[
              `${subject.wires.get(trouble.wire)?.number ?? ''} + ${printValue(trouble.ohms * 1000, 'mΩ', true)}`,
              `${amps < 0.05 ? '0 W' : printValue(amps * amps * trouble.ohms, 'W')} now`,
            ]}
          />
        );
      })}
    </>
  );
}

interface JointProps {
  readonly wire: MeasuredWire;
  readonly end: 'from' | 'to';
  readonly scale: number;
  readonly lines: readonly string[];
  readonly near: Near;
}

/** A zigzag in the wire near the end that it is at. */
function Joint({ wire, end, scale, lines, near }: JointProps): ReactElement {
  const inward = Math.min(wire.length * 0.3, 22 / scale + 2);
  const at = along(wire.points, end === 'from' ? inward : wire.length - inward);
  return (
    <g>
      <g
        transform={`translate(${at.x} ${at.y}) rotate(${at.degrees}) scale(${1 / scale})`}
        className="joint-trouble"
      >
        <rect x="-17" y="-10" width="34" height="20" />
        <path d="M-17 0h3l4 -9 6 18 6 -18 6 18 4 -9h5" />
      </g>
      <Words at={at} scale={scale} lines={lines} {...near} />
    </g>
  );
}

/** The wire is apart in its middle. */
function Break({
  wire,
  scale,
  near,
}: {
  readonly wire: MeasuredWire;
  readonly scale: number;
  readonly near: Near;
}): ReactElement {
  const at = along(wire.points, wire.length / 2);
  return (
    <g>
      <g
        transform={`translate(${at.x} ${at.y}) rotate(${at.degrees}) scale(${1 / scale})`}
        className="joint-trouble"
      >
        <rect x="-9" y="-12" width="18" height="24" />
        <path d="M-9 -11l5 22M9 11l-5 -22" />
      </g>
      <Words at={at} scale={scale} lines={['broken']} {...near} />
    </g>
  );
}

interface Near {
  readonly measured: Measured;
  readonly taken: readonly Box[];
}

interface WordsProps extends Near {
  readonly at: Point;
  readonly scale: number;
  readonly lines: readonly string[];
}

/** Near a point, where they meet nothing. */
function Words({ at, scale, lines, measured, taken }: WordsProps): ReactElement | null {
  const size = {
    width: (Math.max(...lines.map((line) => line.length)) * 6.6) / scale,
    height: (lines.length * 15) / scale,
  };
  const x = at.x - size.width / 2;
  const spot = firstFree(
    measured,
    [
      { x, y: at.y + 12 / scale },
      { x, y: at.y - size.height - 12 / scale },
      { x: at.x + 24 / scale, y: at.y + 6 / scale },
      { x: at.x - size.width - 24 / scale, y: at.y + 6 / scale },
      { x, y: at.y + 34 / scale },
      { x, y: at.y - size.height - 34 / scale },
    ],
    size,
    taken,
  );
  if (spot === null) return null;
  return (
    <>
      {lines.map((text, i) => (
        <text
          key={text}
          className="plain-figure"
          x={spot.x + size.width / 2}
          y={spot.y + ((i + 0.8) * 15) / scale}
          fontSize={13 / scale}
          strokeWidth={4 / scale}
          textAnchor="middle"
        >
          {text}
        </text>
      ))}
    </>
  );
}
