/** The vehicle, nose left: what is given is drawn with its weight, what is not is thin and dashed with a question mark. */
import { parseSize } from '@loomwright/engine';
import type { CSSProperties, ReactElement } from 'react';
import type { FirstView } from '../../engine/first.ts';
import { FactButton, type FactsShown } from './FactCells.tsx';
import { knownOf, type FactId } from './facts.ts';

interface Props extends FactsShown {
  readonly view: FirstView | null;
  /** A map only, without the facts. */
  readonly small?: boolean;
}

const WIDTH = 980;
const HEIGHT = 318;
const FLOOR = 246;

/** Left edge of the vehicle battery by where it is. */
const SPOTS: Readonly<Record<string, number>> = { bonnet: 46, seat: 236, behind: 346 };

export function VehiclePicture(props: Props): ReactElement {
  const { answers, facts, inHand, view, small = false } = props;
  const known = (id: FactId): boolean => {
    const fact = facts.find((each) => each.id === id);
    return fact !== undefined && knownOf(fact, answers) === 'given';
  };
  const battery = SPOTS[answers.battery ?? 'bonnet'] ?? 46;
  const copper = weightOf(view);
  return (
    <div className={small ? 'vehicle small-vehicle' : 'vehicle'}>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true" focusable="false">
        <Outline />
        <Marker inHand={inHand} battery={battery} />
        <Feed battery={battery} known={known} copper={copper} body={answers.return === 'body'} />
        <Source
          known={known('supply')}
          battery={battery}
          converter={answers.supply?.startsWith('converter') === true}
        />
        <BatteryBox x={battery} known={answers.battery !== undefined} name="G1" />
        <Charger known={known('charger')} />
        <House known={known('house')} />
        {!small && <Dimension from={battery + 90} known={answers.length !== undefined} />}
      </svg>
      {!small &&
        facts.map((fact) => (
          <div key={fact.id} className={`fact-spot ${fact.id}`} style={spotOf(fact.id, battery)}>
            <FactButton {...props} fact={fact} />
          </div>
        ))}
    </div>
  );
}

const share = (part: number, whole: number): string => `${((part / whole) * 100).toFixed(2)}%`;

/** Where a fact stands in the vehicle, as shares of the picture. */
function spotOf(id: FactId, battery: number): CSSProperties {
  const middle = (battery + 90 + 600) / 2;
  const spots: Readonly<Record<FactId, readonly [number, number]>> = {
    supply: [20, 62],
    way: [middle - 90, 257],
    charger: [600, 100],
    house: [778, 100],
    return: [middle - 60, 201],
    stock: [middle - 90, 128],
  };
  const [x, y] = spots[id];
  return { left: share(x, WIDTH), top: share(y, HEIGHT) };
}

/** Stroke of the feed by its copper, px at 100 %; null while the size is a band or not known. */
function weightOf(view: FirstView | null): number | null {
  const value = view?.rows.find((row) => row.id === 'cable')?.value ?? '';
  if (value.includes(' to ')) return null;
  const size = parseSize(
    value
      .replace('mm²', 'mm2')
      .replace(/\u00a0/g, ' ')
      .replace(/\s*\[.*\]$/, ''),
  );
  return size.ok ? Math.max(1.5, 1.2 * Math.sqrt(size.size.areaMm2)) : null;
}

function Outline(): ReactElement {
  return (
    <g fill="none" stroke="var(--ink-3)" strokeWidth="1.5">
      <path
        d={`M28 ${FLOOR}V186q0-26 26-34l96-20L214 34q12-18 36-18h680q26 0 28 28l4 ${FLOOR - 44}`}
        fill="none"
      />
      <path d="M172 132 226 50h48v82z" strokeDasharray="2 4" />
      <path d={`M92 ${FLOOR + 3}a40 40 0 0 0 80 0M748 ${FLOOR + 3}a40 40 0 0 0 80 0`} />
      <path d={`M20 ${FLOOR}H970`} stroke="var(--ink)" strokeWidth="3" />
      <path d={hatch()} strokeWidth="1" />
    </g>
  );
}

function hatch(): string {
  return Array.from({ length: 47 }, (_, i) => `M${36 + i * 20} ${FLOOR + 2}l-8 9`).join('');
}

const UNKNOWN = { fill: 'none', stroke: 'var(--ink-2)', strokeWidth: 2, strokeDasharray: '5 4.5' } as const;
const solid = (width: number) => ({ fill: 'none', stroke: 'var(--ink)', strokeWidth: width }) as const;
const negative = (width: number) => ({ ...solid(width), strokeDasharray: '16 4' }) as const;
const box = (known: boolean) =>
  known
    ? { fill: 'var(--sheet)', stroke: 'var(--ink)', strokeWidth: 1.5 }
    : { ...UNKNOWN, fill: 'var(--sheet)' };

function Source({
  known,
  battery,
  converter,
}: {
  readonly known: boolean;
  readonly battery: number;
  readonly converter: boolean;
}): ReactElement {
  return (
    <g>
      <path d={battery < 100 ? 'M90 162V178' : `M90 162V222H${battery}`} {...(known ? solid(3) : UNKNOWN)} />
      <circle cx="90" cy="146" r="17" {...box(known)} />
      <text x="90" y="152" className="symbol">
        {known ? (converter ? 'T' : 'G') : '?'}
      </text>
    </g>
  );
}

function BatteryBox({
  x,
  known,
  name,
}: {
  readonly x: number;
  readonly known: boolean;
  readonly name: string;
}): ReactElement {
  return (
    <g>
      <rect x={x} y="178" width="84" height="50" {...box(known)} />
      <path d={`M${x + 30} 193v20m8-14v8m8-14v20m8-14v8`} stroke="var(--ink)" strokeWidth="3" />
      <text x={x + 12} y="197" className="symbol small-symbol">
        {name}
      </text>
      <circle cx={x + 84} cy="190" r="4" {...box(true)} />
      <circle cx={x + 84} cy="216" r="4" {...box(true)} />
    </g>
  );
}

interface FeedProps {
  readonly battery: number;
  readonly known: (id: FactId) => boolean;
  readonly copper: number | null;
  readonly body: boolean;
}

function Feed({ battery, known, copper, body }: FeedProps): ReactElement {
  const from = battery + 88;
  const line = copper === null ? UNKNOWN : solid(copper);
  const back = known('return') ? negative(copper ?? 2.5) : UNKNOWN;
  return (
    <g>
      <path d={`M${from} 190H596`} {...line} />
      <rect
        x={from + 30}
        y="183"
        width="30"
        height="14"
        fill="var(--sheet)"
        stroke="var(--ink)"
        strokeWidth="1.5"
        {...(copper === null ? { strokeDasharray: '5 4.5' } : {})}
      />
      {body && known('return') ? (
        <path d={`M${from} 216h14V${FLOOR}M596 216h-14V${FLOOR}`} {...back} />
      ) : (
        <path d={`M${from} 216h14v12H582v-12h14`} {...back} />
      )}
    </g>
  );
}

function Charger({ known }: { readonly known: boolean }): ReactElement {
  return (
    <g>
      <rect x="600" y="158" width="86" height="72" {...box(known)} />
      <path d="M600 230 686 158" stroke="var(--ink-3)" strokeWidth="1" />
      <text x="632" y="200" className="symbol">
        T1
      </text>
      <circle cx="600" cy="190" r="4" {...box(true)} />
      <circle cx="600" cy="216" r="4" {...box(true)} />
      <circle cx="686" cy="178" r="4" {...box(true)} />
      <circle cx="686" cy="216" r="4" {...box(true)} />
    </g>
  );
}

function House({ known }: { readonly known: boolean }): ReactElement {
  return (
    <g>
      <path d="M690 178h84" {...(known ? solid(4.8) : UNKNOWN)} />
      <rect
        x="712"
        y="171"
        width="30"
        height="14"
        fill="var(--sheet)"
        stroke="var(--ink)"
        strokeWidth="1.5"
      />
      <path d="M690 216h28v20H880v-46h-14" {...(known ? negative(4.8) : UNKNOWN)} />
      <rect x="778" y="160" width="84" height="56" {...box(known)} />
      <path d="M816 176v24m8-17v10m8-17v24m8-17v10" stroke="var(--ink)" strokeWidth="3" />
      <text x="792" y="180" className="symbol small-symbol">
        G2
      </text>
    </g>
  );
}

function Dimension({ from, known }: { readonly from: number; readonly known: boolean }): ReactElement {
  return (
    <g stroke="var(--ink-3)" fill="none" strokeWidth="1.5">
      <path d={`M${from} 274v20M596 274v20`} />
      <path d={`M${from} 284H596`} {...(known ? {} : { strokeDasharray: '5 4.5' })} />
    </g>
  );
}

/** The marker behind what the fact in hand is about. */
function Marker({
  inHand,
  battery,
}: {
  readonly inHand: FactId | null;
  readonly battery: number;
}): ReactElement | null {
  const from = battery + 88;
  const paths: Readonly<Record<FactId, string>> = {
    supply: 'M90 124v44',
    way: `M${from} 190H596`,
    stock: `M${from} 190H596`,
    return: `M${from} 216h14v12H582v-12h14`,
    charger: 'M594 194H692',
    house: 'M772 188h96',
  };
  const widths: Readonly<Record<FactId, number>> = {
    supply: 48,
    way: 20,
    stock: 20,
    return: 20,
    charger: 84,
    house: 68,
  };
  return inHand === null ? null : (
    <path d={paths[inHand]} fill="none" stroke="var(--band)" strokeWidth={widths[inHand]} />
  );
}
