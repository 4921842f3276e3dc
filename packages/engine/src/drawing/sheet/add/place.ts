/** Sets a part that is new into a picture, in the band of its place and in one row with what it is wired to. */
import type { Id } from '../../../contracts/index.ts';
import type { Frame } from '../frame.ts';
import type { Edge, Node } from '../model.ts';
import { nodeById, type Picture, type PlacedNode } from '../picture.ts';
import { widened } from '../room.ts';
import { joined, led, type Joined, type Sheet } from './join.ts';
import { WEIGHT } from './weight.ts';

export interface Newcomer {
  readonly node: Node;
  readonly frame: Frame;
  /** Its wires to parts that stand. */
  readonly edges: readonly Edge[];
  /** Where it stood before it changed. */
  readonly was: PlacedNode | null;
}

/** From a part to the label on its wire, both sides of that. */
const LABEL_ROOM = 3.6;
/** Between parts of different places: the insides of two bands and the white between them. */
const BETWEEN_BANDS = 8;
const COLUMNS = 3;
/** For an upright leg beside the label, mm. */
const LEG_ROOM = 6;
/** Pictures with the part and its first wire that are led on to the other wires. */
const TRIED = 4;

/** The picture with the part and its wires; null where no way was found. */
export function settled(picture: Picture, newcomer: Newcomer, sheet: Sheet): Joined | null {
  const { node, frame, edges, was } = newcomer;
  const starts: { readonly made: Joined; readonly first: Edge }[] = [];
  for (const first of edges.slice(0, 3)) {
    for (const { picture: from, x, cost } of columns(picture, newcomer, first)) {
      const floating = { node, frame, x, y: was?.y ?? null };
      for (const made of led(from, first, sheet, floating).slice(0, 3))
        starts.push({
          made: { picture: made.picture, cost: made.cost + cost + movedCost(made.picture, newcomer) },
          first,
        });
    }
  }
  let best: Joined | null = null;
  for (const { made, first } of starts.toSorted((a, b) => a.made.cost - b.made.cost).slice(0, TRIED)) {
    if (best !== null && made.cost >= best.cost) break;
    const whole = edges.reduce<Joined | null>(
      (now, edge) => (edge === first ? now : also(now, edge, sheet)),
      made,
    );
    if (whole !== null && (best === null || whole.cost < best.cost)) best = whole;
  }
  return best;
}

function also(now: Joined | null, edge: Edge, sheet: Sheet): Joined | null {
  const next = now === null ? null : joined(now.picture, edge, sheet);
  return now === null || next === null ? null : { picture: next.picture, cost: now.cost + next.cost };
}

function movedCost(picture: Picture, { node, was }: Newcomer): number {
  const now = was === null ? undefined : nodeById(picture).get(node.id);
  return now === undefined || was === null ? 0 : WEIGHT.apart * Math.abs(now.y - was.y);
}

interface Column {
  readonly picture: Picture;
  readonly x: number;
  readonly cost: number;
}

/** Something that the part must stand aft of, or before. */
interface Bound {
  readonly at: number;
  /** Edge of what bounds it. */
  readonly edge: number;
}

/** A part that changed stays where it stood, and gets the width that it needs now; one that cannot is left to the library. */
function columns(picture: Picture, newcomer: Newcomer, first: Edge): readonly Column[] {
  const { frame, was } = newcomer;
  if (was !== null) {
    const dx = Math.max(0, frame.width - was.frame.width);
    const opened = dx > 0 ? widened(picture, was.x + was.frame.width - 1e-3, dx) : picture;
    return [{ picture: opened, x: was.x, cost: WEIGHT.apart * dx }];
  }
  const all = columnsIn(picture, newcomer, bounds(picture, newcomer, newcomer.edges));
  return all ?? columnsIn(picture, newcomer, bounds(picture, newcomer, [first])) ?? [];
}

interface Bounds {
  readonly after: readonly Bound[];
  readonly before: readonly Bound[];
}

function bounds({ nodes }: Picture, { node, frame }: Newcomer, edges: readonly Edge[]): Bounds {
  const after: Bound[] = [];
  const before: Bound[] = [];
  for (const other of nodes) {
    const right = other.x + other.frame.width;
    if (other.node.place < node.place) after.push({ at: right + BETWEEN_BANDS, edge: right });
    if (other.node.place > node.place)
      before.push({ at: other.x - BETWEEN_BANDS - frame.width, edge: other.x });
    for (const { source, target, label } of edges) {
      const room = label.width + LABEL_ROOM;
      if (source.node === other.node.id) after.push({ at: right + room, edge: right });
      if (target.node === other.node.id) before.push({ at: other.x - room - frame.width, edge: other.x });
    }
  }
  return { after, before };
}

/** null: it would have to stand aft of what it stands before. */
function columnsIn(
  picture: Picture,
  newcomer: Newcomer,
  { after, before }: Bounds,
): readonly Column[] | null {
  const low = Math.max(...after.map((b) => b.at), -Infinity);
  const high = Math.min(...before.map((b) => b.at), Infinity);
  if (low <= high + 1e-6) return within(picture, newcomer, low, high).map((x) => ({ picture, x, cost: 0 }));
  const tight = before.filter((b) => b.at < low);
  const cut = Math.min(...tight.map((b) => b.edge));
  const dx = low - high;
  if (after.some((b) => b.at === low && b.edge > cut)) return null;
  return [{ picture: widened(picture, cut, dx), x: low, cost: WEIGHT.apart * dx }];
}

/** Where its place has columns already, else next to what it is wired to. */
function within(picture: Picture, { node, frame }: Newcomer, low: number, high: number): readonly number[] {
  const west = node.west.length > 0;
  const free = Number.isFinite(low) ? low : Number.isFinite(high) ? high : 0;
  const next = west && Number.isFinite(low) ? low : Number.isFinite(high) ? high : free;
  const aligned = picture.nodes
    .filter((n) => n.node.place === node.place)
    .map((n) => alignedTo(n, node, frame));
  const fit = [...new Set(aligned)].filter((x) => x >= low - 1e-6 && x <= high + 1e-6);
  const sorted = fit.toSorted((a, b) => Math.abs(a - next) - Math.abs(b - next));
  const aside = [next, next + (next === low ? LEG_ROOM : -LEG_ROOM)];
  return fit.length > 0 ? sorted.slice(0, COLUMNS) : aside.filter((x) => x >= low - 1e-6 && x <= high + 1e-6);
}

/** Loads line up at their wire, sources too; what has both stands in the middle. */
function alignedTo(other: PlacedNode, node: Node, frame: Frame): number {
  if (node.east.length === 0) return other.x;
  if (node.west.length === 0) return other.x + other.frame.width - frame.width;
  return other.x + (other.frame.width - frame.width) / 2;
}

export const isJoinedTo = ({ source, target }: Edge, id: Id): boolean =>
  source.node === id || target.node === id;
