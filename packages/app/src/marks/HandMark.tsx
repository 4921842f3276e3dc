/** The hands of a vehicle as marks: the same on every sheet and on paper. Always with the word beside them. */
import type { ReactElement } from 'react';

export type HandMarkName =
  | `key-${'off' | 'on' | 'crank'}`
  | `engine-${'stopped' | 'idling' | 'driving' | 'overrun' | 'paused'}`
  | `drive-${'off' | 'ready'}`
  | `vehicle-${'asleep' | 'awake' | 'falling-asleep'}`
  | `lead-${'out' | 'in'}`
  | `switch-${'off' | 'on'}`
  | `contact-${'open' | 'closed'}`
  | `shore-${'out' | 'in'}`
  | 'time';

interface Props {
  readonly name: HandMarkName;
  /** Edge length, px. */
  readonly size?: number;
}

export function HandMark({ name, size = 26 }: Props): ReactElement {
  return (
    <svg className="hand-mark" width={size} height={size} viewBox="0 0 40 40" aria-hidden="true">
      {SHAPES[name]}
    </svg>
  );
}

const INK = 'var(--ink)';
const line = { stroke: INK, strokeWidth: 3, fill: 'none', strokeLinecap: 'butt' } as const;
const disc = <circle cx="20" cy="20" r="16" {...line} />;
const full = <circle cx="20" cy="20" r="17.5" fill={INK} />;

/** The slot of the key, turned clockwise from upright; at work it points at a tick outside. */
const slot = (degrees: number, tick: boolean): ReactElement => (
  <>
    {disc}
    <g transform={`rotate(${degrees} 20 20)`}>
      <path d="M20 9v22" {...line} strokeWidth={5} />
      {tick && <path d="M20 1v4" {...line} strokeWidth={3.4} />}
    </g>
  </>
);

const lid = 'M3 20c5-8 11-11.5 17-11.5S32 12 37 20';
const eye = `${lid}c-5 8-11 11.5-17 11.5S8 28 3 20Z`;
const pins = (fill: string): ReactElement => (
  <g fill={fill}>
    <circle cx="20" cy="10.5" r="2.1" />
    <circle cx="15" cy="18" r="2.1" />
    <circle cx="25" cy="18" r="2.1" />
  </g>
);
const rocker = (on: boolean): ReactElement => (
  <>
    <rect x="11" y="4" width="18" height="32" rx="3" {...line} />
    <rect x="11" y={on ? 4 : 20} width="18" height="16" fill={INK} />
    {on ? (
      <path d="M20 8v8" stroke="var(--sheet)" strokeWidth="2.6" />
    ) : (
      <circle cx="20" cy="28" r="3.6" fill="none" stroke="var(--sheet)" strokeWidth="2.4" />
    )}
  </>
);
const plug = (filled: boolean): ReactElement => (
  <>
    <path d="M14.5 4v9M25.5 4v9" {...line} strokeWidth={3.4} />
    <path d="M9 13.5h22V21a11 9.5 0 0 1-22 0Z" {...line} fill={filled ? INK : 'none'} />
    <path d="M20 30v7" {...line} strokeWidth={3.4} />
  </>
);

const SHAPES: Readonly<Record<HandMarkName, ReactElement>> = {
  'key-off': slot(0, false),
  'key-on': slot(60, true),
  'key-crank': slot(100, true),
  'engine-stopped': (
    <>
      {disc}
      <path d="M14 20h12" {...line} strokeWidth={3.6} />
    </>
  ),
  'engine-idling': (
    <>
      {disc}
      <path d="M20 20V4a16 16 0 0 1 16 16Z" fill={INK} />
    </>
  ),
  'engine-driving': full,
  'engine-overrun': (
    <>
      {full}
      <path d="M30 20H11m6.5-6.5L11 20l6.5 6.5" stroke="var(--sheet)" strokeWidth="3" fill="none" />
    </>
  ),
  'engine-paused': (
    <>
      {disc}
      <path d="M16 13v14M24 13v14" {...line} strokeWidth={3.6} />
    </>
  ),
  'drive-off': (
    <>
      {disc}
      <path d="M11 20 25 12v16Z" {...line} strokeWidth={2.6} strokeLinejoin="round" />
    </>
  ),
  'drive-ready': (
    <>
      {disc}
      <path d="M10 20 26 11v18Z" fill={INK} />
    </>
  ),
  'vehicle-asleep': (
    <path d="M3 17c5 7 11 10 17 10s12-3 17-10M20 27v6M11 24.5l-3 5M29 24.5l3 5" {...line} strokeWidth={2.8} />
  ),
  'vehicle-awake': (
    <>
      <path d={eye} {...line} strokeWidth={2.8} />
      <circle cx="20" cy="20" r="5.5" fill={INK} />
    </>
  ),
  'vehicle-falling-asleep': (
    <>
      <path d={eye} {...line} strokeWidth={2.8} />
      <path d="M4 19h32" {...line} strokeWidth={2.8} />
      <path d="M14 20a6 6 0 0 0 12 0Z" fill={INK} />
    </>
  ),
  'lead-out': (
    <>
      <circle cx="20" cy="15.5" r="12.5" {...line} />
      <path d="M20 28v10" {...line} strokeWidth={3.6} />
      {pins(INK)}
    </>
  ),
  'lead-in': (
    <>
      <circle cx="20" cy="15.5" r="14" fill={INK} />
      <path d="M20 28v10" {...line} strokeWidth={3.6} />
      {pins('var(--sheet)')}
    </>
  ),
  'switch-off': rocker(false),
  'switch-on': rocker(true),
  'contact-open': (
    <>
      <circle cx="6" cy="26" r="3.8" fill={INK} />
      <circle cx="34" cy="26" r="3.8" fill={INK} />
      <path d="M6 26 29 11" {...line} strokeWidth={4.2} />
    </>
  ),
  'contact-closed': (
    <>
      <circle cx="6" cy="20" r="3.8" fill={INK} />
      <circle cx="34" cy="20" r="3.8" fill={INK} />
      <path d="M6 20h28" {...line} strokeWidth={4.2} />
    </>
  ),
  'shore-out': plug(false),
  'shore-in': plug(true),
  time: (
    <>
      {disc}
      <path d="M20 9v11l7 5" {...line} />
    </>
  ),
};
