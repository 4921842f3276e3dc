/** Parts as drawn: symbol, outline, terminals, lettering. */
import type { SymbolRow } from '../../contracts/index.ts';
import {
  glyphAt,
  LINE_WEIGHT,
  n,
  path,
  rectangle,
  TERMINAL_RADIUS,
  text,
  type Ink,
  type TextInk,
} from '../ink.ts';
import { ASCENT, DESCENT, LINE, type Line } from '../text/measure.ts';
import { boxInk } from './box-ink.ts';
import { glyphOf, rowOf, TEXT_AIR } from './frame.ts';
import { portId, type Node, type Port } from './model.ts';
import { coreOf, type PlacedNode } from './picture.ts';
import type { Point } from './elk.ts';
import { REFERENCE_SPACE } from './make.ts';

/** Half the length of an inline symbol with its leads. */
const INLINE_HALF = 5;

/** Where a wire ends on the part itself: the symbol, the bar, the outline. */
export function contactOf(placed: PlacedNode, port: Port): Point {
  const y = placed.y + (placed.frame.ports.get(portId(port)) ?? 0);
  const core = coreOf(placed);
  const middle = (core.left + core.right) / 2;
  const west = port.side === 'W';
  if (placed.node.shape === 'bar') return { x: middle, y };
  if (placed.node.shape === 'inline') {
    const half = glyphOf(placed.node)?.half ?? 0;
    return { x: west ? middle - half : middle + half, y };
  }
  return { x: west ? core.left : core.right, y };
}

/** `reference` is what stands in the line kept free for other pages. */
export function nodeInk(placed: PlacedNode, reference: string): readonly Ink[] {
  return [...shapeInk(placed), ...texts(placed, reference)];
}

function shapeInk(placed: PlacedNode): readonly Ink[] {
  if (placed.node.shape === 'inline') return inlineInk(placed);
  if (placed.node.shape === 'round') return roundInk(placed);
  return placed.node.shape === 'bar' ? barInk(placed) : boxInk(placed);
}

const axisOf = ({ y, frame }: PlacedNode): number => y + ([...frame.ports.values()][0] ?? 0);

function inlineInk(placed: PlacedNode): readonly Ink[] {
  const { node } = placed;
  const row = rowOf(node);
  if (row === null) return [];
  const { left, right } = coreOf(placed);
  const x = (left + right) / 2;
  const y = axisOf(placed);
  const west = node.west[0]?.terminal ?? null;
  const east = node.east[0]?.terminal ?? null;
  const mirrored = west === null ? row.left === east : west !== row.left;
  return [glyphAt(row.glyph, x, y, 0, mirrored), ...freeEnd(node, row, x, y)];
}

/** A side without a wire in this view: its lead, and an open circle where no view has one. */
function freeEnd(node: Node, row: SymbolRow, x: number, y: number): readonly Ink[] {
  const [west, east] = [node.west[0]?.terminal ?? null, node.east[0]?.terminal ?? null];
  if (west !== null && east !== null) return [];
  const way = west === null ? -1 : 1;
  const end = x + way * INLINE_HALF;
  const other = row.left === (west ?? east) ? row.right : row.left;
  const lead = path(`M${n(x + way * row.glyph.half)} ${n(y)}H${n(end)}`, LINE_WEIGHT.symbol);
  if (other !== null && node.part.wired.has(other)) return [lead];
  return [lead, { type: 'circle', x: end, y, radius: TERMINAL_RADIUS, weight: LINE_WEIGHT.symbol }];
}

function roundInk(placed: PlacedNode): readonly Ink[] {
  const glyph = placed.node.part.symbol.glyph;
  if (glyph === null) return [];
  const { left, right } = coreOf(placed);
  return [glyphAt(glyph, (left + right) / 2, axisOf(placed))];
}

function barInk(placed: PlacedNode): readonly Ink[] {
  const core = coreOf(placed);
  const foot = placed.node.part.symbol.glyph;
  const middle = (core.left + core.right) / 2;
  return [
    path(rectangle(core), 0, { fill: 'ink' }),
    ...(foot === null ? [] : [glyphAt(foot, middle, core.bottom + foot.above)]),
  ];
}

function texts(placed: PlacedNode, reference: string): readonly TextInk[] {
  const { node, frame, x, y } = placed;
  const head = filled(node.head, reference);
  const foot = filled(node.foot, reference);
  if (node.shape === 'round' && node.beside) return besideTexts(placed, head);
  const middle = x + frame.width / 2;
  const [at, anchor] = node.shape === 'box' ? [x, 'start' as const] : [middle, 'middle' as const];
  const top = y + ASCENT;
  const under = y + frame.core.y + frame.core.height + TEXT_AIR + ASCENT;
  return [
    ...head.map((line, i) => text(at, top + i * LINE, line, anchor)),
    ...foot.map((line, i) => text(at, under + i * LINE, line, anchor)),
  ];
}

function besideTexts(placed: PlacedNode, lines: readonly Line[]): readonly TextInk[] {
  const core = coreOf(placed);
  const west = placed.node.west.length > 0;
  const x = west ? core.right + 1.2 : core.left - 1.2;
  const axis = axisOf(placed);
  const first = axis - ((lines.length - 1) * LINE) / 2 + (ASCENT - DESCENT) / 2;
  return lines.map((line, i) => text(x, first + i * LINE, line, west ? 'start' : 'end'));
}

const filled = (lines: readonly Line[], reference: string): readonly Line[] =>
  lines
    .map((line) => line.map((run) => (run.text === REFERENCE_SPACE ? { ...run, text: reference } : run)))
    .filter((line) => line.some((run) => run.text !== ''));
