/** The source on a line of volts: where it stands, and where the charger would hunt, as things are laid on now. */
import { printValue, type LiveWindow } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { own } from './words.ts';

interface Props {
  readonly window: LiveWindow;
  /** Where the source stands; null: it does not feed. */
  readonly stands: number | null;
  readonly low: number;
  readonly high: number;
}

const WIDE = 368;
const PAD = 18;

export function WindowAxis({ window, stands, low, high }: Props): ReactElement {
  const x = (volts: number): number =>
    PAD + ((WIDE - 2 * PAD) * (Math.min(high, Math.max(low, volts)) - low)) / (high - low);
  const hunts = window.spans.filter((span) => span.outcome === 'cycle' && span.to > low && span.from < high);
  const ticks = [];
  for (let volts = Math.ceil(low); volts <= high; volts += Math.ceil((high - low) / 6)) ticks.push(volts);
  return (
    <svg className="window-axis" viewBox={`0 0 ${WIDE} 62`} role="img" aria-label={spoken(window, stands)}>
      {hunts.map((span) => (
        <g key={span.from}>
          <rect
            className="window-box"
            x={x(span.from)}
            y="24"
            width={Math.max(2, x(span.to) - x(span.from))}
            height="11"
          />
          <path className="window-stripes" d={`M${x(span.from)} 29.5H${x(span.to)}`} />
        </g>
      ))}
      <path className="window-line" d={`M${PAD} 29.5H${WIDE - PAD}`} />
      {ticks.map((volts) => (
        <g key={volts}>
          <path className="window-line" d={`M${x(volts)} 25v9`} />
          <text x={x(volts)} y="52" textAnchor="middle">
            {volts} V
          </text>
        </g>
      ))}
      {stands !== null && (
        <>
          <path className="window-here" d={`M${x(stands)} 23l-6 -8h12Z`} />
          <text
            className="strong"
            x={Math.min(WIDE - 40, Math.max(40, x(stands)))}
            y="11"
            textAnchor="middle"
          >
            {printValue(stands, 'V')}
          </text>
        </>
      )}
    </svg>
  );
}

export function windowWords(window: LiveWindow): string {
  const hunts = window.spans.filter((span) => span.outcome === 'cycle');
  if (hunts.length === 0) return 'It hunts nowhere on this line.';
  return `It hunts from ${hunts.map((span) => `${printValue(span.from, 'V')} to ${printValue(span.to, 'V')}`).join(', and from ')}.`;
}

function spoken(window: LiveWindow, stands: number | null): string {
  return `${own.windowTitle}. ${windowWords(window)}${stands === null ? '' : ` The source stands at ${printValue(stands, 'V')}.`}`;
}
