/** What is asked of a placed wire or part again and again while a picture is judged: made once for each. */
import { boxOf, labelBox, type Box, type PlacedNode, type PlacedWire } from './picture.ts';
import type { Point } from './elk.ts';

export interface Segment {
  readonly box: Box;
  /** The same, a hair wide, so that it meets what it runs along the edge of. */
  readonly hair: Box;
  readonly level: boolean;
  /** Nodes at its two ends may be touched by it. */
  readonly ends: readonly string[];
}

export interface WireOutline {
  readonly wire: PlacedWire;
  readonly segments: readonly Segment[];
  readonly label: Box;
  /** Around its label and its corners. */
  readonly extent: Box;
  /** The same with the hairs: two wires touch only where these overlap. */
  readonly around: Box;
  readonly bends: number;
}

export interface NodeOutline {
  readonly node: PlacedNode;
  readonly box: Box;
}

/** Nearer than this, mm, is not yet over each other. */
export const TOUCH = 0.01;

export const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right - TOUCH &&
  b.left < a.right - TOUCH &&
  a.top < b.bottom - TOUCH &&
  b.top < a.bottom - TOUCH;

const wires = new WeakMap<PlacedWire, WireOutline>();
const nodes = new WeakMap<PlacedNode, NodeOutline>();

export function wireOutline(wire: PlacedWire): WireOutline {
  const old = wires.get(wire);
  if (old !== undefined) return old;
  const made = outlined(wire);
  wires.set(wire, made);
  return made;
}

export function nodeOutline(node: PlacedNode): NodeOutline {
  const old = nodes.get(node);
  if (old !== undefined) return old;
  const made = { node, box: boxOf(node) };
  nodes.set(node, made);
  return made;
}

function outlined(wire: PlacedWire): WireOutline {
  const segments = segmentsOf(wire);
  const label = labelBox(wire);
  const corners = wire.points.map(({ x, y }) => ({ left: x, right: x, top: y, bottom: y }));
  return {
    wire,
    segments,
    label,
    extent: around([label, ...corners]),
    around: around([label, ...segments.map((segment) => segment.hair)]),
    bends: Math.max(0, wire.points.length - 2),
  };
}

function segmentsOf({ points, edge }: PlacedWire): readonly Segment[] {
  return points.slice(1).map((b, i) => {
    const a = points[i] ?? b;
    const ends = [
      ...(i === 0 ? [edge.source.node] : []),
      ...(i === points.length - 2 ? [edge.target.node] : []),
    ];
    const box = spanOf(a, b);
    return { box, hair: hair(box), level: Math.abs(a.y - b.y) < TOUCH, ends };
  });
}

const spanOf = (a: Point, b: Point): Box => ({
  left: Math.min(a.x, b.x),
  right: Math.max(a.x, b.x),
  top: Math.min(a.y, b.y),
  bottom: Math.max(a.y, b.y),
});

const hair = (box: Box): Box => ({
  left: box.left - 2 * TOUCH,
  right: box.right + 2 * TOUCH,
  top: box.top - 2 * TOUCH,
  bottom: box.bottom + 2 * TOUCH,
});

/** The box around all of them. */
export function around(boxes: readonly Box[]): Box {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const box of boxes) {
    if (box.left < left) ({ left } = box);
    if (box.right > right) ({ right } = box);
    if (box.top < top) ({ top } = box);
    if (box.bottom > bottom) ({ bottom } = box);
  }
  return { left, right, top, bottom };
}
