/** How large a node is and where its ports stand: text, symbol, outline. Millimetres from its upper left corner. */
import type { Glyph, SymbolRow } from '../../contracts/index.ts';
import { blockHeight, roundUp, textWidth, widest } from '../text/measure.ts';
import { terminalText } from '../subject-of.ts';
import { portId, type Node, type Port } from './model.ts';

/** Between text and symbol. */
export const TEXT_AIR = 0.6;
/** From an outline to the first port, and the least distance of two wire ends. */
const EDGE = 3.8;
export const LEAST_PITCH = 8.5;
/** Ends of wires that share a terminal stand at least this far apart. */
export const LEAST_LUG = 5;
/** An inline symbol is drawn this wide, with what leads to it. */
const INLINE_WIDTH = 10;
export const BAR = { busbar: 2, body: 1.4, over: 1.25 } as const;
/** From an outline to the name of a terminal. */
export const NAME_INSET = 1.5;

export interface Frame {
  readonly width: number;
  readonly height: number;
  /** Port id -> distance from the top. */
  readonly ports: ReadonlyMap<string, number>;
  /** Symbol, outline or bar. */
  readonly core: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

/** Distances from each port to the one above it, per side (the first counts as 0). */
export interface Pitch {
  readonly west: readonly number[];
  readonly east: readonly number[];
}

export function frameOf(node: Node, pitch: Pitch): Frame {
  if (node.shape === 'inline') return inline(node);
  if (node.shape === 'round') return node.beside ? roundBeside(node) : roundStacked(node);
  return node.shape === 'bar' ? bar(node, pitch) : box(node, pitch);
}

/** Above and below the axis of a node that has one port at each side at most; null for bars and boxes. */
export function reach(node: Node): { readonly up: number; readonly down: number } | null {
  if (node.shape === 'bar' || node.shape === 'box') return null;
  const frame = frameOf(node, { west: [], east: [] });
  const axis = [...frame.ports.values()][0] ?? 0;
  return { up: axis, down: frame.height - axis };
}

export const glyphOf = (node: Node): Glyph | null =>
  node.shape === 'inline' ? (rowOf(node)?.glyph ?? null) : node.part.symbol.glyph;

/** The row of an inline node. */
export function rowOf(node: Node): SymbolRow | null {
  const used = [...node.west, ...node.east].map((port) => port.terminal);
  const rows = node.part.symbol.rows ?? [];
  return rows.find((row) => used.every((t) => t === row.left || t === row.right)) ?? rows[0] ?? null;
}

function inline(node: Node): Frame {
  const glyph = glyphOf(node);
  const width = roundUp(Math.max(INLINE_WIDTH, widest(node.head) + 1, widest(node.foot) + 1));
  const above = glyph?.above ?? 0;
  const axis = blockHeight(node.head.length) + TEXT_AIR + above;
  const height = axis + (glyph?.below ?? 0) + TEXT_AIR + blockHeight(node.foot.length);
  return {
    width,
    height,
    ports: at([...node.west, ...node.east], axis),
    core: { x: width / 2 - 5, y: axis - above, width: 10, height: above + (glyph?.below ?? 0) },
  };
}

const at = (ports: readonly Port[], y: number): ReadonlyMap<string, number> =>
  new Map(ports.map((port) => [portId(port), y]));

function roundBeside(node: Node): Frame {
  const glyph = glyphOf(node);
  const half = glyph?.half ?? 0;
  const text = widest(node.head);
  const width = roundUp(2 * half + 1.2 + text);
  const tall = Math.max((glyph?.above ?? 0) + (glyph?.below ?? 0), blockHeight(node.head.length));
  const x = node.west.length > 0 ? 0 : width - 2 * half;
  return {
    width,
    height: tall,
    ports: at([...node.west, ...node.east], tall / 2),
    core: {
      x,
      y: tall / 2 - (glyph?.above ?? 0),
      width: 2 * half,
      height: (glyph?.above ?? 0) + (glyph?.below ?? 0),
    },
  };
}

function roundStacked(node: Node): Frame {
  const glyph = glyphOf(node);
  const half = glyph?.half ?? 0;
  const width = roundUp(Math.max(2 * half, widest(node.head), widest(node.foot)));
  const axis = blockHeight(node.head.length) + TEXT_AIR + (glyph?.above ?? 0);
  return {
    width,
    height: axis + (glyph?.below ?? 0) + TEXT_AIR + blockHeight(node.foot.length),
    ports: at([...node.west, ...node.east], axis),
    core: {
      x: width / 2 - half,
      y: axis - (glyph?.above ?? 0),
      width: 2 * half,
      height: (glyph?.above ?? 0) + (glyph?.below ?? 0),
    },
  };
}

/** Offsets of a side's ports from its first. */
function offsets(ports: readonly Port[], pitch: readonly number[]): readonly number[] {
  let y = 0;
  return ports.map((_port, i) => {
    if (i > 0) y += pitch[i] ?? LEAST_PITCH;
    return y;
  });
}

function bar(node: Node, pitch: Pitch): Frame {
  const width = roundUp(Math.max(4, widest(node.head)));
  const top = blockHeight(node.head.length) + TEXT_AIR + BAR.over;
  const sides = centred(offsets(node.west, pitch.west), offsets(node.east, pitch.east));
  const foot = node.part.symbol.glyph;
  const thick = foot === null ? BAR.busbar : BAR.body;
  const height = top + sides.span + BAR.over + (foot === null ? 0 : foot.above + foot.below);
  return {
    width,
    height,
    ports: placed(node, sides, top),
    core: { x: (width - thick) / 2, y: top - BAR.over, width: thick, height: sides.span + 2 * BAR.over },
  };
}

interface Sides {
  readonly west: readonly number[];
  readonly east: readonly number[];
  readonly span: number;
}

/** The shorter side stands in the middle of the longer. */
function centred(west: readonly number[], east: readonly number[]): Sides {
  const span = Math.max(west.at(-1) ?? 0, east.at(-1) ?? 0);
  const middle = (list: readonly number[]): readonly number[] => {
    const shift = (span - (list.at(-1) ?? 0)) / 2;
    return list.map((y) => y + shift);
  };
  return { west: middle(west), east: middle(east), span };
}

const placed = (node: Node, sides: Sides, top: number): ReadonlyMap<string, number> =>
  new Map([
    ...node.west.map((port, i) => [portId(port), top + (sides.west[i] ?? 0)] as const),
    ...node.east.map((port, i) => [portId(port), top + (sides.east[i] ?? 0)] as const),
  ]);

function box(node: Node, pitch: Pitch): Frame {
  const head = blockHeight(node.head.length) + TEXT_AIR;
  const sides = levelled(node, centred(offsets(node.west, pitch.west), offsets(node.east, pitch.east)));
  const inside = insideOf(node);
  const tall = Math.max(sides.span + 2 * edgeOf(node), inside.height);
  const width = roundUp(Math.max(widest(node.head), inside.width));
  const top = head + (tall - sides.span) / 2;
  return {
    width,
    height: head + tall,
    ports: placed(node, sides, top),
    core: { x: 0, y: head, width, height: tall },
  };
}

/** A grip over a contact keeps clear of the outline. */
const edgeOf = (node: Node): number =>
  Math.max(EDGE, ...(node.part.symbol.rows ?? []).map((row) => row.glyph.above + 1.2));

/** Rows of a symbol are kept level: the two ends of a current path stand at one height where each has one wire. */
function levelled(node: Node, sides: Sides): Sides {
  const rows = levelRows(node);
  if (rows.length === 0) return sides;
  const west = [...sides.west];
  const east = [...sides.east];
  // From the top: whichever end of a row stands higher is lowered, and with it everything below on its side.
  for (const { w, e } of rows) {
    const drop = (west[w] ?? 0) - (east[e] ?? 0);
    const lower = drop < 0 ? west : east;
    for (let i = drop < 0 ? w : e; i < lower.length; i += 1) lower[i] = (lower[i] ?? 0) + Math.abs(drop);
  }
  const first = Math.min(west[0] ?? Infinity, east[0] ?? Infinity);
  const back = (y: number): number => y - first;
  return {
    west: west.map(back),
    east: east.map(back),
    span: Math.max(west.at(-1) ?? 0, east.at(-1) ?? 0) - first,
  };
}

/** Rows with one wire at each end, on opposite sides, in an order that both sides keep. */
export function levelRows(
  node: Node,
): readonly { readonly row: SymbolRow; readonly w: number; readonly e: number }[] {
  const found: { row: SymbolRow; w: number; e: number }[] = [];
  for (const row of node.part.symbol.rows ?? []) {
    for (const [a, b] of [
      [row.left, row.right],
      [row.right, row.left],
    ]) {
      const w = only(node.west, a ?? '');
      const e = only(node.east, b ?? '');
      if (w === null || e === null) continue;
      if (found.every((f) => f.w < w && f.e < e)) found.push({ row, w, e });
    }
  }
  return found;
}

/** Ports may change their order where no row of the symbol goes across the box. */
export const mayReorder = (node: Node): boolean =>
  (node.part.symbol.rows?.length ?? 0) < 2 || levelRows(node).length === 0;

function only(ports: readonly Port[], terminal: string): number | null {
  const indexes = ports.flatMap((port, i) => (port.terminal === terminal ? [i] : []));
  return indexes.length === 1 ? (indexes[0] ?? null) : null;
}

export const nameWidth = (ports: readonly Port[]): number =>
  Math.max(0, ...ports.map((port) => textWidth(terminalText(port.terminal))));

const nameRoom = (ports: readonly Port[]): number =>
  ports.length === 0 ? 1.5 : NAME_INSET + nameWidth(ports) + 1.5;

/** What the inside of a box needs: names at both sides, the symbol between them. */
function insideOf(node: Node): { readonly width: number; readonly height: number } {
  const glyphs = [...(node.part.symbol.rows ?? []).map((row) => row.glyph), node.part.symbol.glyph].filter(
    (g) => g !== null,
  );
  const half = Math.max(0, ...glyphs.map((g) => g.half));
  const tall = Math.max(0, ...glyphs.map((g) => g.above + g.below));
  // A symbol that stands upright between two rows of one side is no wider than a lying one.
  return { width: nameRoom(node.west) + 2 * Math.max(half, 3.5) + 1 + nameRoom(node.east), height: tall + 2 };
}
