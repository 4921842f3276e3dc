/** The strip: paper out of a recorder, newest on top, one lane per pen, limits dotted in their lanes. */
import { printValue } from '@loomwright/engine';
import { useMemo, type ReactElement } from 'react';
import type { Pen } from './pens.ts';
import { FASTER, type Rate, type Recorded } from './try-store.ts';
import { own } from './words.ts';

interface Props {
  readonly pens: readonly Pen[];
  readonly record: readonly Recorded[];
  readonly clock: number;
  readonly rate: Rate;
  readonly width: number;
  readonly height: number;
}

const HEAD = 52;
const PAD = 10;
/** Room for the times at the right. */
const GUTTER = 62;

/** Time that the paper shows, ms: a minute, or an hour where time runs sixty times. */
export const spanOf = (rate: Rate): number => (FASTER[rate] > 1 ? 3_600_000 : 60_000);

export function Strip({ pens, record, clock, rate, width, height }: Props): ReactElement {
  const span = spanOf(rate);
  const lane = (width - GUTTER) / Math.max(1, pens.length);
  const paper = height - HEAD;
  const seen = useMemo(() => seenIn(record, clock, span), [record, clock, span]);
  const y = (atMs: number): number => HEAD + (paper * (clock - atMs)) / span;
  const marks = [1, 2, 3, 4, 5].map((i) => (i * span) / 6);
  return (
    <svg className="strip" width={width} height={height} role="img" aria-label={spoken(pens, record)}>
      <rect className="strip-paper" x="0" y={HEAD} width={width} height={paper} />
      {marks.map((ago) => (
        <g key={ago}>
          <path className="strip-time" d={`M0 ${y(clock - ago)}H${width}`} />
          <text className="strip-ago" x={width - 3} y={y(clock - ago) - 3} textAnchor="end">
            {printValue(ago, 'ms', true)} ago
          </text>
        </g>
      ))}
      {pens.map((pen, i) => (
        <Lane
          key={pen.id}
          pen={pen}
          seen={seen}
          left={i * lane}
          width={lane}
          bottom={height}
          y={y}
          clock={clock}
        />
      ))}
      <path className="strip-lane" d={`M${width - GUTTER} 0V${height}`} />
      <path className="strip-head" d={`M0 ${HEAD}H${width}`} />
    </svg>
  );
}

interface LaneProps {
  readonly pen: Pen;
  readonly seen: readonly Recorded[];
  readonly left: number;
  readonly width: number;
  readonly bottom: number;
  readonly y: (atMs: number) => number;
  readonly clock: number;
}

function Lane({ pen, seen, left, width, bottom, y, clock }: LaneProps): ReactElement {
  const values = seen.map(({ reading }) => pen.value(reading));
  const [low, high] = scaleOf([...values, ...pen.limits.map((limit) => limit.value)], pen.unit);
  const x = (value: number): number => left + PAD + ((width - 2 * PAD) * (value - low)) / (high - low);
  const d = seen
    .map(({ atMs }, i) => {
      const value = values[i] ?? null;
      const until = seen[i + 1]?.atMs ?? clock;
      if (value === null) return '';
      const joined = i > 0 && (values[i - 1] ?? null) !== null;
      return `${joined ? 'L' : 'M'}${x(value).toFixed(1)} ${y(atMs).toFixed(1)}V${y(until).toFixed(1)}`;
    })
    .join('');
  const now = values.at(-1) ?? null;
  return (
    <g>
      {left > 0 && <path className="strip-lane" d={`M${left} 0V${bottom}`} />}
      <text className="strip-title" x={left + 4} y={13}>
        {fitted(pen.title, width)}, {pen.unit}
      </text>
      <text className="strip-scale" x={left + 4} y={28}>
        {shortOf(low)}
      </text>
      <text className="strip-scale" x={left + width - 4} y={28} textAnchor="end">
        {shortOf(high)}
      </text>
      {pen.limits.map((limit, i) => (
        <g key={limit.words}>
          <path className="strip-limit" d={`M${x(limit.value)} ${HEAD}V${bottom}`} />
          <text
            className="strip-limit-word"
            x={i === 0 ? Math.max(left + 26, x(limit.value) - 2) : x(limit.value) + 2}
            y={HEAD - 10}
            textAnchor={i === 0 ? 'end' : 'start'}
          >
            {limit.words}
          </text>
        </g>
      ))}
      <path className="strip-line" d={d} />
      {now !== null && <path className="strip-pen" d={`M${x(now)} ${HEAD}l-6 -8h12Z`} />}
    </g>
  );
}

/** What the paper still shows; the stretch that reaches over its end begins there. */
function seenIn(record: readonly Recorded[], clock: number, span: number): readonly Recorded[] {
  const from = clock - span;
  const first = record.findLastIndex((each) => each.atMs <= from);
  const seen = record.slice(Math.max(0, first));
  return seen.map((each) => (each.atMs < from ? { ...each, atMs: from } : each));
}

/** Room around the values; never so narrow that a millivolt fills a lane. */
function scaleOf(values: readonly (number | null)[], unit: 'V' | 'A'): readonly [number, number] {
  const known = values.filter((value) => value !== null);
  const least = unit === 'V' ? 0.4 : 4;
  const [low, high] = known.length === 0 ? [0, 1] : [Math.min(...known), Math.max(...known)];
  const room = Math.max(high - low, least);
  const middle = (low + high) / 2;
  const step = room > 8 ? 5 : room > 2 ? 1 : 0.2;
  return [Math.floor((middle - 0.6 * room) / step) * step, Math.ceil((middle + 0.6 * room) / step) * step];
}

const shortOf = (value: number): string => String(Number(value.toFixed(2))).replace('-', '−');

/** Cut to what a lane holds. */
function fitted(title: string, width: number): string {
  const most = Math.floor((width - 26) / 6.2);
  return title.length <= most ? title : `${title.slice(0, Math.max(1, most - 1))}…`;
}

function spoken(pens: readonly Pen[], record: readonly Recorded[]): string {
  const last = record.at(-1);
  if (last === undefined) return own.strip;
  const now = pens.map((pen) => {
    const value = pen.value(last.reading);
    return `${pen.title} ${value === null ? 'no reading' : printValue(value, pen.unit)}`;
  });
  return `${own.strip}: ${now.join(', ')}`;
}

/** Mean of a pen over the last minute of the record; null without any. */
export function meanOf(pen: Pen, record: readonly Recorded[], clock: number): number | null {
  const seen = seenIn(record, clock, 60_000);
  let time = 0;
  let sum = 0;
  seen.forEach(({ atMs, reading }, i) => {
    const value = pen.value(reading);
    const lasts = (seen[i + 1]?.atMs ?? clock) - atMs;
    if (value === null || lasts <= 0) return;
    time += lasts;
    sum += lasts * value;
  });
  return time === 0 ? null : sum / time;
}
