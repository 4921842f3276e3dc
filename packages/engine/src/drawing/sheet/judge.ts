/** How good a picture is, in numbers: overlaps, crossings, bends, size. Tests and layouts use the same ones. */
import { boxOf, heightOf, labelBox, widthOf, type Box, type Picture, type PlacedWire } from './picture.ts';
import type { Point } from './elk.ts';

export interface Marks {
  /** Labels on labels, parts or foreign wires; parts on parts; wires through parts; wires on top of each other. */
  readonly overlaps: number;
  readonly crossings: number;
  readonly bends: number;
  readonly width: number;
  readonly height: number;
}

export interface Segment {
  readonly wire: PlacedWire;
  readonly box: Box;
  readonly level: boolean;
  /** Nodes at its two ends may be touched by it. */
  readonly ends: readonly string[];
}

const TOUCH = 0.01;

export const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right - TOUCH &&
  b.left < a.right - TOUCH &&
  a.top < b.bottom - TOUCH &&
  b.top < a.bottom - TOUCH;

export function segmentsOf(wire: PlacedWire): readonly Segment[] {
  const { points } = wire;
  return points.slice(1).map((b, i) => {
    const a = points[i] ?? b;
    const ends = [
      ...(i === 0 ? [wire.edge.source.node] : []),
      ...(i === points.length - 2 ? [wire.edge.target.node] : []),
    ];
    return { wire, box: spanOf(a, b), level: Math.abs(a.y - b.y) < TOUCH, ends };
  });
}

const spanOf = (a: Point, b: Point): Box => ({
  left: Math.min(a.x, b.x),
  right: Math.max(a.x, b.x),
  top: Math.min(a.y, b.y),
  bottom: Math.max(a.y, b.y),
});

/** A line taken as a hair wide, so that it meets what it runs along the edge of. */
const hair = (box: Box): Box => ({
  left: box.left - 2 * TOUCH,
  right: box.right + 2 * TOUCH,
  top: box.top - 2 * TOUCH,
  bottom: box.bottom + 2 * TOUCH,
});

/** What overlaps, in words, for tests that fail. */
export function overlapsOf(picture: Picture): readonly string[] {
  const found: string[] = [];
  const nodes = picture.nodes.map((n) => ({ name: n.node.id, box: boxOf(n) }));
  const labels = picture.wires.map((w) => ({ name: w.edge.wire.id, box: labelBox(w) }));
  pairs(nodes, (a, b) => overlap(a.box, b.box) && found.push(`part ${a.name} on part ${b.name}`));
  pairs(labels, (a, b) => overlap(a.box, b.box) && found.push(`label ${a.name} on label ${b.name}`));
  for (const label of labels) {
    for (const node of nodes)
      if (overlap(label.box, node.box)) found.push(`label ${label.name} on part ${node.name}`);
  }
  const segments = picture.wires.flatMap(segmentsOf);
  for (const segment of segments) {
    const name = segment.wire.edge.wire.id;
    for (const label of labels) {
      if (label.name !== name && overlap(hair(segment.box), label.box))
        found.push(`wire ${name} through label ${label.name}`);
    }
    for (const node of nodes) {
      if (!segment.ends.includes(node.name) && overlap(hair(segment.box), node.box))
        found.push(`wire ${name} through part ${node.name}`);
    }
  }
  pairs(segments, (a, b) => {
    if (a.wire !== b.wire && a.level === b.level && overlap(hair(a.box), hair(b.box)))
      found.push(`wire ${a.wire.edge.wire.id} along wire ${b.wire.edge.wire.id}`);
  });
  return found;
}

function pairs<T>(list: readonly T[], each: (a: T, b: T) => unknown): void {
  list.forEach((a, i) => {
    for (const b of list.slice(i + 1)) each(a, b);
  });
}

export function crossingsOf(picture: Picture): number {
  const segments = picture.wires.flatMap(segmentsOf);
  const level = segments.filter((s) => s.level);
  const upright = segments.filter((s) => !s.level);
  let count = 0;
  for (const a of level) {
    for (const b of upright) {
      if (a.wire === b.wire) continue;
      const meets = b.box.left > a.box.left + TOUCH && b.box.left < a.box.right - TOUCH;
      if (meets && a.box.top > b.box.top + TOUCH && a.box.top < b.box.bottom - TOUCH) count += 1;
    }
  }
  return count;
}

export const bendsOf = (picture: Picture): number =>
  picture.wires.reduce((sum, wire) => sum + Math.max(0, wire.points.length - 2), 0);

export function judge(picture: Picture): Marks {
  return {
    overlaps: overlapsOf(picture).length,
    crossings: crossingsOf(picture),
    bends: bendsOf(picture),
    width: widthOf(picture),
    height: heightOf(picture),
  };
}

export const costOf = (marks: Marks): number =>
  1000 * marks.overlaps + 60 * marks.crossings + marks.bends + 0.01 * (marks.width + marks.height);
