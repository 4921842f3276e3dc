/** What fuses and breakers have in common: opening times, device factor, resistance by the voltage lost at the rating. */
import type {
  Basis,
  FieldContext,
  Glyph,
  Kind,
  Sourced,
  Stated,
  TimeCurrentBand,
  ValueReader,
} from '../contracts/index.ts';
import { isFigure, weakest, type NoFigure, type Figure, type TimeCurve } from '../reference/index.ts';
import { straight } from './battery-model.ts';
import { ask, asGiven, isStated, memory, times } from './figures.ts';
import type { DeviceResistance } from '../quantity/index.ts';
import { anyOf, choiceShape, field, listShape, quantityShape, recordShape, rowShape } from './shapes.ts';
import { plateOr, row } from './symbols.ts';

type Point = readonly [multiple: number, seconds: number];

/** Multiple of the rating at and below which the published data of some families end. */
const DATA_END = 2;

/** Resistance of a device whose rating nobody gave, Ω. */
const UNKNOWN_OHMS = memory(0.001, 'Ω', 'protective device of unknown rating', times(0.001, 0.3, 3));

/** A protective device in a conductor: from the supply's side to the load's, with its rating beside the symbol. */
export const inConductor = (
  glyph: Glyph,
): Required<Pick<Kind, 'letter' | 'leadsOn' | 'terminals' | 'symbol'>> => ({
  letter: 'F',
  leadsOn: true,
  terminals: () => ({ type: 'named', names: ['line', 'load'] }),
  symbol: (read) => ({
    shape: 'inline',
    terminals: ['line', 'load'],
    glyph: null,
    rows: [row('line', 'load', glyph)],
    plate: plateOr(read, 'A', 'rating'),
  }),
});

export const curveField = field(
  listShape(
    recordShape({
      at: field(quantityShape('share', { min: 0 }), 'Current, percent of the rating.'),
      opens: field(
        quantityShape('time', { min: 0, never: true }),
        'From when it may open to when it surely has; `never` where it may not, or need not.',
      ),
    }),
    1,
  ),
  'Its opening times: `[{ at: 135 %, opens: never..3600 s }, { at: 200 %, opens: 4..40 s }]`; wins over published ones.',
);

export const heatFactorField = (doc: string, ...words: readonly string[]) =>
  field(
    anyOf(
      'a factor such as 0.9, or a table such as [[40 °C, 1.0], [60 °C, 0.85]]',
      ...(words.length === 0 ? [] : [choiceShape(...words)]),
      quantityShape('factor', { min: 0, max: 1.5 }),
      listShape(rowShape(quantityShape('temperature'), quantityShape('factor', { min: 0, max: 1.5 })), 1),
    ),
    doc,
    { slack: 'down' },
  );

/** A device's resistance in Ω: as given, or the voltage lost at its rating over the rating. */
export function deviceResistance(read: ValueReader, name: string, drop: Sourced): Basis {
  const raw = read.raw(name) as DeviceResistance | 'unknown' | null;
  const rating = read.quantity('rating')?.sourced.value ?? null;
  const asked = ask('resistance of {part}', 'up', 'meter', 'measure: volts across, amperes through');
  if (typeof raw === 'object' && raw !== null && 'ohms' in raw)
    return certain(read.resolve(name, raw.ohms, null, asked));
  if (typeof raw === 'object' && raw !== null && rating !== null && rating > 0) {
    return certain(read.resolve(name, over(raw.voltsAtRating, rating), null, asked));
  }
  const fallback =
    rating !== null && rating > 0
      ? { ...drop, unit: 'Ω', value: drop.value / rating, ...bandOver(drop.band, rating) }
      : UNKNOWN_OHMS;
  return certain(read.resolve(name, null, fallback, asked));
}

const over = (volts: Stated, rating: number): Stated => ({
  value: volts.value / rating,
  text: volts.text,
  ...bandOver(volts.band, rating),
});

const bandOver = (
  band: readonly [number, number] | undefined,
  rating: number,
): { readonly band?: readonly [number, number] } =>
  band === undefined ? {} : { band: [band[0] / rating, band[1] / rating] };

interface CurveRow {
  readonly at: Stated;
  readonly opens: Stated;
}

/** The rows of a `curve:` field that can be used, by rising current. */
function curveRows(read: ValueReader): readonly CurveRow[] {
  const raw = read.raw('curve');
  if (!Array.isArray(raw)) return [];
  return (raw as readonly { readonly at?: unknown; readonly opens?: unknown }[])
    .filter((row): row is CurveRow => isStated(row.at) && isStated(row.opens))
    .toSorted((a, b) => a.at.value - b.at.value);
}

/** Opening times as the build gives them. */
export function givenCurve(read: ValueReader, clearing: number | null): TimeCurrentBand | null {
  const rows = curveRows(read);
  if (rows.length === 0) return null;
  const edges = rows.map(({ at, opens }) => {
    const [fastest, slowest] = opens.band ?? [opens.value, opens.value];
    return { multiple: at.value, fastest, slowest };
  });
  const slow = edges.filter((e) => Number.isFinite(e.slowest)).map((e): Point => [e.multiple, e.slowest]);
  const fast = edges.filter((e) => Number.isFinite(e.fastest)).map((e): Point => [e.multiple, e.fastest]);
  const never = edges.filter((e) => !Number.isFinite(e.fastest)).map((e) => e.multiple);
  const basis = certain(
    read.resolve('curve', { value: rows.length, text: 'as given' }, null, ask('opening times of {part}')),
  );
  return {
    slow,
    fast: fast.length === 0 ? null : fast,
    // Without a "never" it is taken to hold its rated current.
    hold: Math.max(1, ...never),
    beyond: 'flat',
    clearing,
    basis,
  };
}

/** Published opening times of a family, named `of` in reports; a stated clearing I²t counts them as given with it. */
export function publishedCurve(
  read: ValueReader,
  path: string,
  of: string,
  found: TimeCurve | NoFigure,
  clearing: Basis | null,
): TimeCurrentBand | null {
  if (!isFigure(found)) return clearing === null ? null : onlyClearing(clearing);
  const slow: Point[] = [];
  const fast: Point[] = [];
  const points = founded(found.points);
  for (const point of points) {
    if (point.max !== undefined) slow.push([point.percent / 100, point.max]);
    if (point.min !== undefined) fast.push([point.percent / 100, point.min]);
  }
  const last = slow.at(-1)?.[0] ?? 0;
  return {
    slow,
    fast: fast.length === 0 ? null : fast,
    hold: found.hold.percent / 100,
    beyond: last <= DATA_END ? 'no-figure' : 'flat',
    clearing: clearing?.sourced.value ?? null,
    basis:
      clearing ??
      read.figure(
        `table:${path}`,
        {
          value: points.length,
          unit: '',
          prov: weakest(found.hold.prov, ...points.map((point) => point.prov)),
          source: found.source,
        },
        ask(`opening times of ${of}`, undefined, 'confirm', "compare with the maker's sheet"),
      ),
  };
}

/**
 * Rows from memory that stand between rows that were read are left out: the straight line between those is on the slow side
 * of them, and a verdict need not hang on them.
 */
function founded(points: TimeCurve['points']): TimeCurve['points'] {
  const isRead = (i: number): boolean => points[i]?.prov !== 'memory';
  if (!isRead(0) || !isRead(points.length - 1)) return points;
  return points.filter((_, i) => isRead(i));
}

const onlyClearing = (clearing: Basis): TimeCurrentBand => ({
  slow: [],
  fast: null,
  hold: 1,
  beyond: 'no-figure',
  clearing: clearing.sourced.value,
  basis: clearing,
});

/** The device factor as the part states it: one factor, or a table by temperature; null when it states neither. */
export function statedFactor(read: ValueReader, airC: number): Basis | null {
  const raw = read.raw('heat-factor');
  const asked = ask('factor for heat of {part}', 'down');
  const single = asGiven(raw);
  if (isStated(single)) return read.resolve('heat-factor', single, null, asked);
  if (!Array.isArray(raw)) return null;
  const points = (raw as readonly (readonly unknown[])[]).flatMap(([celsius, factor]) =>
    isStated(celsius) && isStated(factor) ? [[celsius.value, factor.value] as const] : [],
  );
  if (points.length === 0) return null;
  const value = straight(
    points.toSorted((a, b) => a[0] - b[0]),
    airC,
  );
  return read.resolve('heat-factor', { value, text: 'as given' }, null, asked);
}

/** The device factor of a published table or default, for devices that reports call `of`. */
export function publishedFactor(
  read: ValueReader,
  path: string,
  of: string,
  found: Figure,
  otherwise: Sourced,
): Basis {
  const asked = ask(`factor for heat of ${of}`, 'down', 'read');
  return read.figure(`table:${path}`, isFigure(found) ? found : otherwise, asked);
}

/** Default device factor, pushed over its band. */
export const defaultFactor = (read: ValueReader, sourced: Sourced): Basis =>
  certain(read.resolve('heat-factor', null, sourced, ask('factor for heat of {part}', 'down')));

/** The greatest voltage that a net of this nominal voltage reaches, V (common practice): 16, 32 and 58.4 V. */
export function greatestVolts(about: FieldContext): number {
  if (about.nominal <= 12) return 16;
  return about.nominal <= 24 ? 32 : 58.4;
}

function certain(basis: Basis | null): Basis {
  if (basis === null) throw new Error('the value was given or has a default');
  return basis;
}
