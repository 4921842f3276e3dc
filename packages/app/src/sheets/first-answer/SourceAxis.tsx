/** A line of volts: where the source may stand, and where the charger would hunt. */
import { printBand, printValue } from '@loomwright/engine';
import type { ReactElement } from 'react';
import type { SourceLine } from '../../engine/first.ts';

const WIDTH = 320;
const LEFT = 14;

export function SourceAxis({ line }: { readonly line: SourceLine }): ReactElement {
  const [low, high] = line.axis;
  const x = (volts: number): number => LEFT + ((volts - low) / (high - low)) * (WIDTH - 2 * LEFT);
  const ticks = Array.from({ length: high - low + 1 }, (_, index) => low + index);
  const step = ticks.length > 8 ? 2 : 1;
  const [from, to] = line.source;
  const source = printBand(from, to, 'V', true);
  const hunts = line.hunts.map(([a, b]) => printBand(a, b, 'V')).join(' and ');
  const middle = Math.min(Math.max((x(from) + x(to)) / 2, 80), WIDTH - 80);
  return (
    <span className="source-axis">
      <svg
        viewBox={`0 0 ${WIDTH} 58`}
        role="img"
        aria-label={`The source may stand at ${source}. ${hunts === '' ? 'It hunts nowhere near.' : `It hunts at ${hunts}.`}`}
      >
        <text x={middle} y="11" textAnchor="middle">
          the source: {source}
        </text>
        <path d={`M${x(from)} 23v-6H${x(to)}v6`} fill="none" stroke="var(--ink)" strokeWidth="1.5" />
        <path d={`M4 34H${WIDTH - 4}`} stroke="var(--ink)" strokeWidth="1.5" />
        {ticks
          .filter((volts) => (volts - low) % step === 0)
          .map((volts) => (
            <g key={volts}>
              <path d={`M${x(volts)} 30v8`} stroke="var(--ink)" strokeWidth="1.5" />
              <text x={x(volts)} y="53" textAnchor="middle">
                {printValue(volts, 'V', true)}
              </text>
            </g>
          ))}
        {line.hunts.map(([a, b]) => (
          <g key={a}>
            <rect
              x={x(a)}
              y="28.5"
              width={Math.max(4, x(b) - x(a))}
              height="11"
              fill="var(--sheet)"
              stroke="var(--ink)"
              strokeWidth="2"
            />
            <path
              d={`M${x(a)} 34H${x(a) + Math.max(4, x(b) - x(a))}`}
              stroke="var(--ink)"
              strokeWidth="9"
              strokeDasharray="4 4"
            />
          </g>
        ))}
      </svg>
      {hunts !== '' && <span className="small">hunts at {hunts}</span>}
    </span>
  );
}
