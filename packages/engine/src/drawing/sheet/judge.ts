/** How good a picture is, in numbers: overlaps, crossings, bends, size. Tests and layouts use the same ones. */
import { nodeOutline, overlap, TOUCH, wireOutline, type NodeOutline, type WireOutline } from './outline.ts';
import { heightOf, widthOf, type Box, type Picture, type PlacedWire } from './picture.ts';

export interface Marks {
  /** Labels on labels, parts or foreign wires; parts on parts; wires through parts; wires on top of each other. */
  readonly overlaps: number;
  readonly crossings: number;
  readonly bends: number;
  readonly width: number;
  readonly height: number;
}

/** Told of every overlap, in words. */
export type Tell = (what: string) => void;

const name = ({ wire }: WireOutline): string => wire.edge.wire.id;

/** Between two wires, both ways. */
export function wireOnWire(a: WireOutline, b: WireOutline, tell: Tell): void {
  if (!overlap(a.around, b.around)) return;
  if (overlap(a.label, b.label)) tell(`label ${name(a)} on label ${name(b)}`);
  for (const s of a.segments) if (overlap(s.hair, b.label)) tell(`wire ${name(a)} through label ${name(b)}`);
  for (const s of b.segments) if (overlap(s.hair, a.label)) tell(`wire ${name(b)} through label ${name(a)}`);
  for (const s of a.segments) {
    for (const t of b.segments)
      if (s.level === t.level && overlap(s.hair, t.hair)) tell(`wire ${name(a)} along wire ${name(b)}`);
  }
}

export function wireOnNode(wire: WireOutline, { node, box }: NodeOutline, tell: Tell): void {
  if (!overlap(wire.around, box)) return;
  const { id } = node.node;
  if (overlap(wire.label, box)) tell(`label ${name(wire)} on part ${id}`);
  for (const s of wire.segments)
    if (overlap(s.hair, box) && !s.ends.includes(id)) tell(`wire ${name(wire)} through part ${id}`);
}

export function nodeOnNode(a: NodeOutline, b: NodeOutline, tell: Tell): void {
  if (overlap(a.box, b.box)) tell(`part ${a.node.node.id} on part ${b.node.node.id}`);
}

export function crossings(a: WireOutline, b: WireOutline): number {
  if (!overlap(a.around, b.around)) return 0;
  let count = 0;
  for (const s of a.segments) {
    for (const t of b.segments)
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
  const nodes = picture.nodes.map(nodeOutline);
  const wires = picture.wires.map(wireOutline);
  pairs(nodes, (a, b) => nodeOnNode(a, b, tell));
  pairs(wires, (a, b) => wireOnWire(a, b, tell));
  for (const wire of wires) for (const node of nodes) wireOnNode(wire, node, tell);
  return found;
}

/** Neither this wire nor its label lies over anything. */
export function isClear({ nodes, wires }: Picture, at: number): boolean {
  let clear = true;
  const tell = (): void => {
    clear = false;
  };
  const own = wireOutline(wires[at] as PlacedWire);
  for (const [i, wire] of wires.entries()) if (i !== at) wireOnWire(own, wireOutline(wire), tell);
  for (const node of nodes) wireOnNode(own, nodeOutline(node), tell);
  return clear;
}

function pairs<T>(list: readonly T[], each: (a: T, b: T) => void): void {
  for (let i = 0; i < list.length; i += 1) {
    for (let j = i + 1; j < list.length; j += 1) each(list[i] as T, list[j] as T);
  }
}

export function crossingsOf(picture: Picture): number {
  let count = 0;
  pairs(picture.wires.map(wireOutline), (a, b) => {
    count += crossings(a, b);
  });
  return count;
}

export const bendsOf = (picture: Picture): number =>
  picture.wires.reduce((sum, wire) => sum + wireOutline(wire).bends, 0);

export function judge(picture: Picture): Marks {
  return {
    overlaps: overlapsOf(picture).length,
    crossings: crossingsOf(picture),
    bends: bendsOf(picture),
    width: widthOf(picture),
    height: heightOf(picture),
  };
}

/** Cost of one overlap, of one crossing; a bend costs 1. */
export const COST = { overlap: 1000, crossing: 60, size: 0.01 } as const;

export const costOf = (marks: Marks): number =>
  COST.overlap * marks.overlaps +
  COST.crossing * marks.crossings +
  marks.bends +
  COST.size * (marks.width + marks.height);
