/** A part drawn as a box: outline, named terminals, the rows of its symbol between them. */
import type { Glyph, SymbolRow } from '../../contracts/index.ts';
import { glyphAt, LINE_WEIGHT, n, path, rectangle, TERMINAL_RADIUS, text, type Ink } from '../ink.ts';
import { terminalText } from '../subject-of.ts';
import { CAPITALS } from '../text/measure.ts';
import { levelRows, NAME_INSET, nameWidth, type Frame } from './frame.ts';
import { portId, type Node, type Port } from './model.ts';
import { coreOf, type Box, type PlacedNode } from './picture.ts';

const LUG_WEIGHT = 1.4;

export function boxInk(placed: PlacedNode): readonly Ink[] {
  const core = coreOf(placed);
  return [
    path(rectangle(core), LINE_WEIGHT.outline, { fill: 'paper' }),
    ...insideInk(placed),
    ...sideInk(placed, placed.node.west, 'W'),
    ...sideInk(placed, placed.node.east, 'E'),
  ];
}

interface Terminal {
  readonly name: string;
  readonly ports: readonly Port[];
  readonly ys: readonly number[];
  /** Height of its name. */
  readonly y: number;
}

function terminalsOf(
  { y, frame }: { readonly y: number; readonly frame: Frame },
  ports: readonly Port[],
): readonly Terminal[] {
  return [...new Set(ports.map((port) => port.terminal))].map((name) => {
    const own = ports.filter((port) => port.terminal === name);
    const ys = own.map((port) => y + (frame.ports.get(portId(port)) ?? 0));
    return { name, ports: own, ys, y: ys.reduce((sum, each) => sum + each, 0) / ys.length };
  });
}

function sideInk(placed: PlacedNode, ports: readonly Port[], side: 'W' | 'E'): readonly Ink[] {
  const core = coreOf(placed);
  const x = side === 'W' ? core.left : core.right;
  const inside = side === 'W' ? x + NAME_INSET : x - NAME_INSET;
  return terminalsOf(placed, ports).flatMap(({ name, ys, y }): readonly Ink[] => [
    ...(ys.length > 1
      ? [path(`M${n(x)} ${n(Math.min(...ys) - 0.7)}V${n(Math.max(...ys) + 0.7)}`, LUG_WEIGHT)]
      : []),
    ...ys.map((at): Ink => ({
      type: 'circle',
      x,
      y: at,
      radius: TERMINAL_RADIUS,
      weight: LINE_WEIGHT.symbol,
      terminal: name,
    })),
    text(
      inside,
      y + CAPITALS / 2,
      [{ text: terminalText(name), strong: false }],
      side === 'W' ? 'start' : 'end',
    ),
  ]);
}

interface Inside {
  readonly west: readonly Terminal[];
  readonly east: readonly Terminal[];
  /** Where names end. */
  readonly left: number;
  readonly right: number;
  readonly middle: number;
}

const nameEnd = (ports: readonly Port[]): number =>
  ports.length === 0 ? 1.2 : NAME_INSET + nameWidth(ports) + 0.8;

function insideOf(placed: PlacedNode): Inside {
  const { node } = placed;
  const core = coreOf(placed);
  const left = core.left + nameEnd(node.west);
  const right = core.right - nameEnd(node.east);
  return {
    west: terminalsOf(placed, node.west),
    east: terminalsOf(placed, node.east),
    left,
    right,
    middle: (left + right) / 2,
  };
}

function insideInk(placed: PlacedNode): readonly Ink[] {
  const inside = insideOf(placed);
  const rows = rowInk(placed, inside);
  if (rows.length > 0) return rows;
  const { glyph } = placed.node.part.symbol;
  const fallback = glyph ?? placed.node.part.symbol.rows?.[0]?.glyph ?? null;
  const core = coreOf(placed);
  return fallback === null ? [] : [glyphAt(fallback, inside.middle, (core.top + core.bottom) / 2)];
}

interface Drawn {
  readonly glyph: Glyph;
  readonly y: number;
  readonly mirrored: boolean;
  readonly upright: boolean;
}

function rowInk(placed: PlacedNode, inside: Inside): readonly Ink[] {
  const { symbol } = placed.node.part;
  const ink: Ink[] = [];
  const drawn: Drawn[] = [];
  const rows = symbol.rows ?? [];
  for (const row of rows) {
    const made = level(placed.node, row, inside) ?? upright(row, inside) ?? half(row, inside, drawn.at(-1));
    if (made === null) continue;
    ink.push(...made.ink);
    drawn.push(made.drawn);
  }
  if (symbol.linked !== true) return ink;
  return [...links(drawn, inside.middle), ...looseLink(drawn, rows, inside.middle, coreOf(placed)), ...ink];
}

interface Made {
  readonly ink: readonly Ink[];
  readonly drawn: Drawn;
}

const find = (list: readonly Terminal[], name: string | null): Terminal | null =>
  list.find((terminal) => terminal.name === name) ?? null;

/** From one side to the other; where the two ends stand at different heights the lead steps. */
function level(node: Node, row: SymbolRow, inside: Inside): Made | null {
  const straight = find(inside.west, row.left) !== null && find(inside.east, row.right) !== null;
  const west = find(inside.west, straight ? row.left : row.right);
  const east = find(inside.east, straight ? row.right : row.left);
  if (west === null || east === null || !keeps(node, row)) return null;
  const { left, right, middle } = inside;
  const { half: reach } = row.glyph;
  const step = left + 0.6;
  const lead = `M${n(left)} ${n(west.y)}H${n(step)}V${n(east.y)}H${n(middle - reach)}M${n(middle + reach)} ${n(east.y)}H${n(right)}`;
  return {
    ink: [path(lead, LINE_WEIGHT.symbol), glyphAt(row.glyph, middle, east.y, 0, !straight)],
    drawn: { glyph: row.glyph, y: east.y, mirrored: !straight, upright: false },
  };
}

/** A row that is level, or the only one of its part. */
const keeps = (node: Node, row: SymbolRow): boolean =>
  (node.part.symbol.rows?.length ?? 0) === 1 || levelRows(node).some((each) => each.row === row);

/** Both ends at one side: the glyph stands upright between them. */
function upright(row: SymbolRow, inside: Inside): Made | null {
  for (const [list, edge] of [
    [inside.west, inside.left],
    [inside.east, inside.right],
  ] as const) {
    const a = find(list, row.left);
    const b = find(list, row.right);
    if (a === null || b === null || Math.abs(list.indexOf(a) - list.indexOf(b)) !== 1) continue;
    const [top, bottom] = a.y < b.y ? [a.y, b.y] : [b.y, a.y];
    const { half: reach } = row.glyph;
    if (bottom - top < 2 * reach + 0.5) return null;
    const x = inside.middle;
    const y = (top + bottom) / 2;
    const lead = `M${n(edge)} ${n(top)}H${n(x)}V${n(y - reach)}M${n(x)} ${n(y + reach)}V${n(bottom)}H${n(edge)}`;
    return {
      ink: [path(lead, LINE_WEIGHT.symbol), glyphAt(row.glyph, x, y, a.y < b.y ? 1 : -1)],
      drawn: { glyph: row.glyph, y, mirrored: false, upright: true },
    };
  }
  return null;
}

/** Only one end is used here, or the other one is that of the row above (a change-over contact). */
function half(row: SymbolRow, inside: Inside, above: Drawn | undefined): Made | null {
  for (const name of [row.right, row.left]) {
    const west = find(inside.west, name);
    const east = find(inside.east, name);
    const end = west ?? east;
    if (name === null || end === null) continue;
    const { middle } = inside;
    const { half: reach } = row.glyph;
    const mirrored = (name === row.right) === (west !== null);
    const lead =
      west === null
        ? `M${n(middle + reach)} ${n(end.y)}H${n(inside.right)}`
        : `M${n(inside.left)} ${n(end.y)}H${n(middle - reach)}`;
    const far = west === null ? middle - reach : middle + reach;
    const joined =
      row.left === null && above !== undefined && !above.upright
        ? `M${n(far)} ${n(above.y)}V${n(end.y)}`
        : '';
    return {
      ink: [path(lead + joined, LINE_WEIGHT.symbol), glyphAt(row.glyph, middle, end.y, 0, mirrored)],
      drawn: { glyph: row.glyph, y: end.y, mirrored, upright: false },
    };
  }
  return null;
}

function links(drawn: readonly Drawn[], x: number): readonly Ink[] {
  return drawn.slice(1).flatMap((below, i) => {
    const above = drawn[i];
    if (above === undefined || above.upright || below.upright) return [];
    const from = above.y + (above.glyph.link ?? 0);
    const to = below.y + (below.glyph.link ?? 0);
    return [path(`M${n(x)} ${n(from)}V${n(to)}`, LINE_WEIGHT.link, { dashed: true })];
  });
}

/** What moves it, or what it moves, stands in another view: the link goes on to the outline. */
function looseLink(
  drawn: readonly Drawn[],
  rows: readonly SymbolRow[],
  x: number,
  core: Box,
): readonly Ink[] {
  const [only] = drawn;
  if (only === undefined || drawn.length > 1 || rows.length < 2 || only.upright) return [];
  const from = only.y + (only.glyph.link ?? 0);
  const to = rows[0]?.glyph === only.glyph ? core.bottom : core.top;
  return [path(`M${n(x)} ${n(from)}V${n(to)}`, LINE_WEIGHT.link, { dashed: true })];
}
