/** Positions: what is judged, straightened, cut and printed. Millimetres, y downwards. */
import type { Id } from '../../contracts/index.ts';
import type { Frame } from './frame.ts';
import { portId, type Edge, type Node, type Port } from './model.ts';
import type { Point, Raw } from './elk.ts';

export interface PlacedNode {
  readonly node: Node;
  readonly frame: Frame;
  readonly x: number;
  readonly y: number;
}

export interface PlacedWire {
  readonly edge: Edge;
  /** Corners from port to port, without needless ones. */
  readonly points: readonly Point[];
  /** Middle of the label; it stands on a level run of the wire. */
  readonly label: Point;
}

export interface Picture {
  readonly nodes: readonly PlacedNode[];
  readonly wires: readonly PlacedWire[];
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export const boxOf = ({ x, y, frame }: PlacedNode): Box => ({
  left: x,
  top: y,
  right: x + frame.width,
  bottom: y + frame.height,
});

/** The symbol, outline or bar without text. */
export const coreOf = ({ x, y, frame }: PlacedNode): Box => ({
  left: x + frame.core.x,
  top: y + frame.core.y,
  right: x + frame.core.x + frame.core.width,
  bottom: y + frame.core.y + frame.core.height,
});

export const labelBox = ({ edge, label }: PlacedWire): Box => ({
  left: label.x - edge.label.width / 2,
  right: label.x + edge.label.width / 2,
  top: label.y - edge.label.up,
  bottom: label.y + edge.label.down,
});

/** Where a port stands, at the edge of its node's box. */
export function portPoint(placed: PlacedNode, port: Port): Point {
  const y = placed.y + (placed.frame.ports.get(portId(port)) ?? 0);
  return { x: port.side === 'W' ? placed.x : placed.x + placed.frame.width, y };
}

export function pictureOf(raw: Raw): Picture {
  return {
    nodes: raw.nodes,
    wires: raw.wires.map(({ edge, points, labelX }) => {
      const cleaned = cleaner(points);
      return { edge, points: cleaned, label: { x: labelX, y: levelAt(cleaned, labelX) } };
    }),
  };
}

const SAME = 1e-6;

/** Drops points in the middle of a straight run. */
export function cleaner(points: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    const last = kept.at(-1);
    const before = kept.at(-2);
    if (last !== undefined && near(last.x, point.x) && near(last.y, point.y)) continue;
    if (last !== undefined && before !== undefined && inRow(before, last, point)) kept.pop();
    kept.push(point);
  }
  return kept;
}

const near = (a: number, b: number): boolean => Math.abs(a - b) < SAME;
const inRow = (a: Point, b: Point, c: Point): boolean =>
  (near(a.x, b.x) && near(b.x, c.x)) || (near(a.y, b.y) && near(b.y, c.y));

/** Height of the level run over `x`; of the longest one where none lies over it. */
export function levelAt(points: readonly Point[], x: number): number {
  let best: { readonly y: number; readonly score: number } | null = null;
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1], points[i]];
    if (a === undefined || b === undefined || !near(a.y, b.y)) continue;
    const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x)];
    const score = x >= left - SAME && x <= right + SAME ? Infinity : right - left;
    if (best === null || score > best.score) best = { y: a.y, score };
  }
  return best?.y ?? points[0]?.y ?? 0;
}

export const widthOf = (picture: Picture): number => extent(picture, 'left', 'right');
export const heightOf = (picture: Picture): number => extent(picture, 'top', 'bottom');

function extent(picture: Picture, from: 'left' | 'top', to: 'right' | 'bottom'): number {
  const boxes = allBoxes(picture);
  return boxes.length === 0
    ? 0
    : Math.max(...boxes.map((b) => b[to])) - Math.min(...boxes.map((b) => b[from]));
}

export const allBoxes = (picture: Picture): readonly Box[] => [
  ...picture.nodes.map(boxOf),
  ...picture.wires.map(labelBox),
  ...picture.wires.flatMap((wire) =>
    wire.points.map(({ x, y }) => ({ left: x, right: x, top: y, bottom: y })),
  ),
];

export function movedBy(picture: Picture, dx: number, dy: number): Picture {
  const move = ({ x, y }: Point): Point => ({ x: x + dx, y: y + dy });
  return {
    nodes: picture.nodes.map((n) => ({ ...n, ...move(n) })),
    wires: picture.wires.map((w) => ({ ...w, points: w.points.map(move), label: move(w.label) })),
  };
}

export const nodeById = (picture: Picture): ReadonlyMap<Id, PlacedNode> =>
  new Map(picture.nodes.map((placed) => [placed.node.id, placed]));
