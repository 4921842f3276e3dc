/** How good a picture is, in numbers: overlaps, crossings, bends, size. Tests and layouts use the same ones. */
import {
  boxOf,
  heightOf,
  labelBox,
  widthOf,
  type Box,
  type Picture,
  type PlacedNode,
  type PlacedWire,
} from './picture.ts';
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
  /** The same, a hair wide. */
  readonly hair: Box;
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

function makeSegments(wire: PlacedWire): readonly Segment[] {
  const { points } = wire;
  return points.slice(1).map((b, i) => {
    const a = points[i] ?? b;
    const ends = [
      ...(i === 0 ? [wire.edge.source.node] : []),
      ...(i === points.length - 2 ? [wire.edge.target.node] : []),
    ];
    const box = spanOf(a, b);
    return { wire, box, hair: hair(box), level: Math.abs(a.y - b.y) < TOUCH, ends };
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

/** Boxes and segments of what does not change are made once. */
const segmentsKnown = new WeakMap<PlacedWire, readonly Segment[]>();
const labelsKnown = new WeakMap<PlacedWire, Box>();
const nodesKnown = new WeakMap<PlacedNode, Box>();

function remembered<K extends object, V>(known: WeakMap<K, V>, key: K, make: (key: K) => V): V {
  const old = known.get(key);
  if (old !== undefined) return old;
  const made = make(key);
  known.set(key, made);
  return made;
}

const boxAt = (node: PlacedNode): Box => remembered(nodesKnown, node, boxOf);
const labelAt = (wire: PlacedWire): Box => remembered(labelsKnown, wire, labelBox);
const segmentsAt = (wire: PlacedWire): readonly Segment[] => remembered(segmentsKnown, wire, makeSegments);

export const segmentsOf = segmentsAt;

type Tell = (what: string) => void;

const name = (wire: PlacedWire): string => wire.edge.wire.id;

/** Between two wires, both ways. */
function wireOnWire(a: PlacedWire, b: PlacedWire, tell: Tell): void {
  if (overlap(labelAt(a), labelAt(b))) tell(`label ${name(a)} on label ${name(b)}`);
  for (const s of segmentsAt(a))
    if (overlap(s.hair, labelAt(b))) tell(`wire ${name(a)} through label ${name(b)}`);
  for (const s of segmentsAt(b))
    if (overlap(s.hair, labelAt(a))) tell(`wire ${name(b)} through label ${name(a)}`);
  for (const s of segmentsAt(a)) {
    for (const t of segmentsAt(b))
      if (s.level === t.level && overlap(s.hair, t.hair)) tell(`wire ${name(a)} along wire ${name(b)}`);
  }
}

function wireOnNode(wire: PlacedWire, node: PlacedNode, tell: Tell): void {
  const box = boxAt(node);
  if (overlap(labelAt(wire), box)) tell(`label ${name(wire)} on part ${node.node.id}`);
  for (const s of segmentsAt(wire)) {
    if (overlap(s.hair, box) && !s.ends.includes(node.node.id))
      tell(`wire ${name(wire)} through part ${node.node.id}`);
  }
}

function nodeOnNode(a: PlacedNode, b: PlacedNode, tell: Tell): void {
  if (overlap(boxAt(a), boxAt(b))) tell(`part ${a.node.id} on part ${b.node.id}`);
}

function crossings(a: PlacedWire, b: PlacedWire): number {
  let count = 0;
  for (const s of segmentsAt(a)) {
    for (const t of segmentsAt(b))
      if (s.level !== t.level && (s.level ? meet(s.box, t.box) : meet(t.box, s.box))) count += 1;
  }
  return count;
}

/** A level line over an upright one, not at an end of either. */
const meet = (level: Box, upright: Box): boolean =>
  upright.left > level.left + TOUCH &&
  upright.left < level.right - TOUCH &&
  level.top > upright.top + TOUCH &&
  level.top < upright.bottom - TOUCH;

/** What overlaps, in words, for tests that fail. */
export function overlapsOf(picture: Picture): readonly string[] {
  const found: string[] = [];
  const tell = (what: string): void => void found.push(what);
  pairs(picture.nodes, (a, b) => nodeOnNode(a, b, tell));
  pairs(picture.wires, (a, b) => wireOnWire(a, b, tell));
  for (const wire of picture.wires) for (const node of picture.nodes) wireOnNode(wire, node, tell);
  return found;
}

function pairs<T>(list: readonly T[], each: (a: T, b: T) => void): void {
  for (let i = 0; i < list.length; i += 1) {
    for (let j = i + 1; j < list.length; j += 1) each(list[i] as T, list[j] as T);
  }
}

export function crossingsOf(picture: Picture): number {
  let count = 0;
  pairs(picture.wires, (a, b) => {
    count += crossings(a, b);
  });
  return count;
}

const bendsIn = (wire: PlacedWire): number => Math.max(0, wire.points.length - 2);

export const bendsOf = (picture: Picture): number =>
  picture.wires.reduce((sum, wire) => sum + bendsIn(wire), 0);

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

/** Cost of the change from one picture to the next: only what is not the same object is looked at. */
export function costOfChange(before: Picture, after: Picture): number {
  const inked = costOfOwn(after, before) - costOfOwn(before, after);
  if (inked >= 1) return inked;
  return inked + 0.01 * (widthOf(after) + heightOf(after) - widthOf(before) - heightOf(before));
}

/** What a picture has and another has not. */
function costOfOwn(picture: Picture, other: Picture): number {
  const nodes = new Set(other.nodes);
  const wires = new Set(other.wires);
  return costAround(
    picture,
    picture.nodes.filter((node) => !nodes.has(node)),
    picture.wires.filter((wire) => !wires.has(wire)),
  );
}

/** Overlaps, crossings and bends in which one of these takes part. */
function costAround(picture: Picture, nodes: readonly PlacedNode[], wires: readonly PlacedWire[]): number {
  let overlaps = 0;
  let crossed = 0;
  const tell = (): void => {
    overlaps += 1;
  };
  const changedNodes = new Set(nodes);
  const changedWires = new Set(wires);
  pairs(nodes, (a, b) => nodeOnNode(a, b, tell));
  for (const a of nodes) {
    for (const b of picture.nodes) if (!changedNodes.has(b)) nodeOnNode(a, b, tell);
    for (const wire of picture.wires) if (!changedWires.has(wire)) wireOnNode(wire, a, tell);
  }
  const both = (a: PlacedWire, b: PlacedWire): void => {
    wireOnWire(a, b, tell);
    crossed += crossings(a, b);
  };
  pairs(wires, both);
  for (const a of wires) {
    for (const b of picture.wires) if (!changedWires.has(b)) both(a, b);
    for (const node of picture.nodes) wireOnNode(a, node, tell);
  }
  return 1000 * overlaps + 60 * crossed + wires.reduce((sum, wire) => sum + bendsIn(wire), 0);
}
