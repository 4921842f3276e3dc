/** The marks of verdicts: told apart by shape, in ink, with a number while they need reading. */
import type { ReactElement } from 'react';

export type MarkName = 'danger' | 'fault' | 'open' | 'advice' | 'met' | 'aside' | 'cannot-tell' | 'may-not';

interface Props {
  readonly verdict: MarkName;
  /** Shown inside; without one the mark has its own sign. */
  readonly number?: number | undefined;
  readonly small?: boolean;
  /** Read out; empty where the word stands beside it. */
  readonly label?: string;
}

/** A 26 px mark. */
export function VerdictMark({ verdict, number, small = false, label = '' }: Props): ReactElement {
  const named = label === '' ? { 'aria-hidden': true } : { role: 'img', 'aria-label': label };
  return (
    <svg className={small ? 'mark mark-small' : 'mark'} viewBox="0 0 26 26" {...named}>
      {shapes[verdict](number)}
    </svg>
  );
}

const figure = (number: number | undefined, y: number, fill: string, otherwise: ReactElement): ReactElement =>
  number === undefined ? (
    otherwise
  ) : (
    <text x="13" y={y} fill={fill}>
      {number}
    </text>
  );

const ink = { stroke: 'var(--ink)', strokeWidth: 2, fill: 'none' } as const;

const shapes: Readonly<Record<MarkName, (number: number | undefined) => ReactElement>> = {
  danger: (n) => (
    <>
      <path
        d="M13 3 24.5 23.5h-23z"
        fill="var(--marker)"
        stroke="var(--ink)"
        strokeWidth="2"
        strokeLinejoin="round"
      />
      {figure(
        n,
        21,
        'var(--on-marker)',
        <path d="M13 10v6.5M13 18.6v2.4" stroke="var(--on-marker)" strokeWidth="2.4" />,
      )}
    </>
  ),
  fault: (n) => (
    <>
      <rect x="3" y="3" width="20" height="20" fill="var(--ink)" />
      {figure(
        n,
        17.5,
        'var(--sheet)',
        <path d="m8.5 8.5 9 9m0-9-9 9" stroke="var(--sheet)" strokeWidth="2.6" />,
      )}
    </>
  ),
  open: (n) => (
    <>
      <path d="M18.2 7.2 13 2 2 13l11 11 5.2-5.2" {...ink} strokeWidth="2.2" />
      {figure(
        n,
        17.3,
        'var(--ink)',
        <>
          <path d="M9.6 10.6c.2-2.2 1.6-3.2 3.5-3.2 2 0 3.5 1.1 3.5 3 0 2.5-3.4 2.6-3.4 5.2" {...ink} />
          <path d="M13.2 17.6v2.2" {...ink} strokeWidth="2.2" />
        </>,
      )}
    </>
  ),
  advice: (n) => (
    <>
      <circle cx="13" cy="13" r="10" {...ink} />
      {figure(n, 17.3, 'var(--ink)', <circle cx="13" cy="13" r="2.4" fill="var(--ink)" />)}
    </>
  ),
  met: () => <path d="m4.5 14 5.7 6L21.5 5.5" {...ink} strokeWidth="3" />,
  aside: () => (
    <>
      <circle cx="13" cy="13" r="10" {...ink} />
      <path d="M6 20 20 6" {...ink} />
    </>
  ),
  'cannot-tell': () => <rect x="3.5" y="3.5" width="19" height="19" {...ink} strokeDasharray="5 3.4" />,
  'may-not': () => <path d="m5 5 16 16M21 5 5 21" {...ink} strokeWidth="3.4" />,
};
