/**
 * A picture with what an edit added to it: everything that stood stays where it stands, or moves apart along a cut across all of
 * the picture; parts and wires that are new, or another than before, are set into the room that is found or made.
 */
import type { Id } from '../../../contracts/index.ts';
import { frameOf, mayReorder, type Frame } from '../frame.ts';
import { crossingsOf, overlapsOf } from '../judge.ts';
import { grouped } from '../layout.ts';
import { joinedOf, pitchOf, type Joined } from '../pitch.ts';
import { portId, type Edge, type Node, type Port, type SheetModel } from '../model.ts';
import { heightOf, nodeById, widthOf, type Picture, type PlacedNode } from '../picture.ts';
import { refittedRest, sameWay, straddles, withRoom } from '../refit.ts';
import { straighten } from '../straighten.ts';
import { widthWith } from './ends.ts';
import { joined, type Sheet } from './join.ts';
import { isJoinedTo, settled, type Newcomer } from './place.ts';

/** More of them are no small edit; `turned`: parts that stood, and stand otherwise now. */
const MOST = { parts: 4, turned: 2, wires: 10 } as const;
/** Searches and pictures made for one edit, at most. */
const WORK = 120;

/** null: not a small addition, or no good way was found. */
export function added(picture: Picture, model: SheetModel, air: number): Picture | null {
  const split = splitOf(picture, model);
  if (split === null) return null;
  const rest = refittedRest(picture, split.rest);
  if (rest === null) return null;
  const joints = joinedOf(model);
  const sheet: Sheet = {
    nodes: new Map(model.nodes.map((node) => [node.id, node])),
    air,
    work: { left: WORK },
  };
  const most = overlapsOf(rest).length;
  let now: Picture | null = withWidths(rest, split, sheet, most);
  const waiting = new Map(split.parts.map((node) => [node.id, node]));
  const open = new Set(split.wires);
  while (now !== null && waiting.size > 0) {
    const next = nextOf(now, waiting, open, { joints, air, before: picture });
    if (next === null) return null;
    now = settled(now, next, sheet)?.picture ?? null;
    waiting.delete(next.node.id);
    for (const edge of next.edges) open.delete(edge);
  }
  for (const edge of open) now = now === null ? null : (joined(now, edge, sheet)?.picture ?? null);
  if (now === null || !isGood(now, rest, split, most)) return null;
  const level = straighten(inModelOrder(now, model));
  return isGood(level, rest, split, most) ? level : inModelOrder(now, model);
}

interface Split {
  /** The model without what is new or changed. */
  readonly rest: SheetModel;
  readonly parts: readonly Node[];
  readonly wires: readonly Edge[];
}

function splitOf(picture: Picture, model: SheetModel): Split | null {
  const stood = nodeById(picture);
  const wires = new Map(picture.wires.map((wire) => [wire.edge.wire.id, wire.edge]));
  const kept = new Set<Id>();
  for (const edge of model.edges) {
    const was = wires.get(edge.wire.id);
    if (
      was !== undefined &&
      sameWay(was, edge) &&
      was.source.port.terminal === edge.source.port.terminal &&
      was.target.port.terminal === edge.target.port.terminal
    )
      kept.add(edge.wire.id);
  }
  const parts = model.nodes.filter((node) => !stands(node, stood.get(node.id), kept));
  const gone = new Set(parts.map((node) => node.id));
  for (const { wire, source, target } of model.edges)
    if (gone.has(source.node) || gone.has(target.node)) kept.delete(wire.id);
  // A part that has lost all its wires to changed ones is placed anew, too; a box keeps its place without them.
  const bare = model.nodes.filter(
    (node) => !gone.has(node.id) && node.shape !== 'box' && !hasAny(node, kept),
  );
  for (const node of bare) gone.add(node.id);
  const fresh = model.edges.filter((edge) => !kept.has(edge.wire.id));
  const moved = model.nodes.filter((node) => gone.has(node.id));
  const turned = moved.filter((node) => stood.has(node.id)).length;
  if (turned > MOST.turned || moved.length - turned > MOST.parts) return null;
  if (fresh.length > MOST.wires || moved.length === model.nodes.length) return null;
  const left = (ports: readonly Port[]): readonly Port[] => ports.filter((port) => kept.has(port.wire));
  const nodes = model.nodes
    .filter((node) => !gone.has(node.id))
    .map((node) => ({ ...node, west: left(node.west), east: left(node.east) }));
  return {
    rest: {
      ...model,
      nodes,
      edges: model.edges.filter((edge) => kept.has(edge.wire.id)),
    },
    parts: moved,
    wires: fresh,
  };
}

const hasAny = (node: Node, kept: ReadonlySet<Id>): boolean =>
  [...node.west, ...node.east].some((port) => kept.has(port.wire));

const stands = (node: Node, was: PlacedNode | undefined, kept: ReadonlySet<Id>): boolean =>
  was !== undefined &&
  was.node.place === node.place &&
  was.node.shape === node.shape &&
  was.node.beside === node.beside &&
  (node.shape === 'box' || hasAny(node, kept));

/** Boxes with names of new terminals inside get wider first. */
function withWidths(picture: Picture, { wires }: Split, sheet: Sheet, most: number): Picture | null {
  const ends = new Set(wires.flatMap(({ source, target }) => [source.node, target.node]));
  let now: Picture | null = picture;
  for (const { node, frame } of picture.nodes) {
    const full = sheet.nodes.get(node.id);
    if (full === undefined || node.shape !== 'box' || !ends.has(node.id)) continue;
    const wider = widthWith(full) - frame.width;
    if (wider <= 1e-6 || now === null) continue;
    const grown: Frame = { ...frame, core: { ...frame.core, width: frame.core.width + wider } };
    now = withRoom(now, node.id, { up: 0, down: 0, wider, frame: grown }, most);
  }
  return now;
}

interface Ground {
  readonly joints: Joined;
  readonly air: number;
  readonly before: Picture;
}

/** The part with most wires to what stands; of such parts the first. */
function nextOf(
  now: Picture,
  waiting: ReadonlyMap<Id, Node>,
  open: ReadonlySet<Edge>,
  ground: Ground,
): Newcomer | null {
  const standing = nodeById(now);
  let best: { readonly node: Node; readonly edges: readonly Edge[] } | null = null;
  for (const node of waiting.values()) {
    const edges = [...open].filter((edge) => isJoinedTo(edge, node.id) && standing.has(farOf(edge, node.id)));
    if (edges.length > (best?.edges.length ?? 0)) best = { node, edges };
  }
  if (best === null) return null;
  const node = turnedTo(standing, best.node, ground.joints);
  const was = nodeById(ground.before).get(node.id);
  return {
    node,
    edges: best.edges,
    frame: frameOf(node, pitchOf(node, ground.joints, ground.air)),
    was: was?.node.place === node.place ? was : null,
  };
}

const farOf = ({ source, target }: Edge, id: Id): Id => (source.node === id ? target.node : source.node);

/** Its ends in the order of what they lead to, where it may have them in any. */
function turnedTo(standing: ReadonlyMap<Id, PlacedNode>, node: Node, { edgeAt }: Joined): Node {
  if (!mayReorder(node)) return node;
  const height = (port: Port): number => {
    const edge = edgeAt.get(portId(port));
    const far = edge === undefined ? undefined : standing.get(farOf(edge, node.id));
    if (edge === undefined || far === undefined) return 0;
    const end = edge.source.node === node.id ? edge.target.port : edge.source.port;
    return far.y + (far.frame.ports.get(portId(end)) ?? far.frame.height / 2);
  };
  return { ...node, west: grouped(node.west, node, height), east: grouped(node.east, node, height) };
}

/** What one new wire may cross, and how much one more thing may take of the page. */
const CROSSED = 4;
/** And this share of what crosses already. */
const OF_CROSSED = 0.15;
const LARGER = 0.15;
/** Or this of it, mm². */
const ROOM = 3000;

const area = (picture: Picture): number => widthOf(picture) * heightOf(picture);

function isGood(now: Picture, rest: Picture, { parts, wires }: Split, most: number): boolean {
  if (!now.wires.every(straddles) || !inOrder(now) || overlapsOf(now).length > most) return false;
  const crossed = crossingsOf(rest);
  if (crossingsOf(now) - crossed > (CROSSED + OF_CROSSED * crossed) * wires.length) return false;
  const things = Math.max(parts.length, wires.length);
  return area(now) <= area(rest) * (1 + LARGER * things) + ROOM * things;
}

/** Places stand one behind the other. */
function inOrder({ nodes }: Picture): boolean {
  return nodes.every((a) =>
    nodes.every((b) => a.node.place >= b.node.place || a.x + a.frame.width <= b.x + 1e-6),
  );
}

function inModelOrder({ nodes, wires }: Picture, model: SheetModel): Picture {
  const node = new Map(nodes.map((placed) => [placed.node.id, placed]));
  const wire = new Map(wires.map((placed) => [placed.edge.wire.id, placed]));
  return {
    nodes: model.nodes.flatMap(({ id, west: _west, east: _east, ...rest }) => {
      const placed = node.get(id);
      return placed === undefined ? [] : [{ ...placed, node: { ...placed.node, ...rest, id } }];
    }),
    wires: model.edges.flatMap((edge) => {
      const placed = wire.get(edge.wire.id);
      return placed === undefined ? [] : [{ ...placed, edge }];
    }),
  };
}
