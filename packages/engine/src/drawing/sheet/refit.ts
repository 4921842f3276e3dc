/**
 * Changed words on old positions: an edit that leaves a view its parts and wires, or takes some away, is drawn where everything
 * stands. Where words need more room than there is, the rest of the picture moves apart for them.
 */
import type { Id } from '../../contracts/index.ts';
import { frameOf, type Frame } from './frame.ts';
import { isClear, overlapsOf } from './judge.ts';
import { portId, type Edge, type Label, type Node, type Port, type SheetModel } from './model.ts';
import { labelBox, type Picture, type PlacedNode, type PlacedWire } from './picture.ts';
import { grown, heightened, widened, type Growth } from './room.ts';

/**
 * The picture with what the model says; null when that has new parts, wires or shapes, nothing in some place where there was
 * something, or its words find no room.
 */
export function refitted(picture: Picture, model: SheetModel): Picture | null {
  const rest = remaining(picture, model);
  return rest === null || placesIn(rest) !== placesIn(picture) ? null : fitted(rest, model);
}

/** The same, even where nothing stays in some place. */
export function refittedRest(picture: Picture, model: SheetModel): Picture | null {
  const rest = remaining(picture, model);
  return rest === null ? null : fitted(rest, model);
}

function fitted(rest: Picture, model: SheetModel): Picture | null {
  const growths = growthsOf(rest, model);
  if (growths === null) return null;
  const most = overlapsOf(rest).length;
  let now: Picture | null = rest;
  for (const [id, growth] of growths) now = now === null ? null : withRoom(now, id, growth, most);
  if (now === null) return null;
  const labelled = withLabels(now, model);
  return labelled.wires.every(straddles) && overlapsOf(labelled).length <= most ? labelled : null;
}

/** Without what the model has no more; null where the model has something else. */
function remaining(picture: Picture, model: SheetModel): Picture | null {
  const nodes = new Map(model.nodes.map((node) => [node.id, node]));
  const wires = new Map(model.edges.map((edge) => [edge.wire.id, edge]));
  const rest: Picture = {
    nodes: picture.nodes.flatMap((placed) => (nodes.has(placed.node.id) ? [without(placed, wires)] : [])),
    wires: picture.wires.filter((wire) => wires.has(wire.edge.wire.id)),
  };
  if (rest.nodes.length !== nodes.size || rest.wires.length !== wires.size) return null;
  const same = rest.nodes.every(({ node }) => sameShape(node, nodes.get(node.id)));
  return same && rest.wires.every((wire) => sameWay(wire.edge, wires.get(wire.edge.wire.id))) ? rest : null;
}

const placesIn = ({ nodes }: Picture): number => new Set(nodes.map((n) => n.node.place)).size;

/** A part without the ends of wires that are gone; it keeps its size. */
function without(placed: PlacedNode, wires: ReadonlyMap<Id, unknown>): PlacedNode {
  const { node, frame } = placed;
  const left = (ports: readonly Port[]): readonly Port[] => ports.filter((port) => wires.has(port.wire));
  const [west, east] = [left(node.west), left(node.east)];
  if (west.length === node.west.length && east.length === node.east.length) return placed;
  const known = new Set([...west, ...east].map(portId));
  const ports = new Map([...frame.ports].filter(([id]) => known.has(id)));
  return { ...placed, node: { ...node, west, east }, frame: { ...frame, ports } };
}

const idsOf = (node: Node): readonly string[] =>
  [...node.west, ...node.east].map((port) => `${portId(port)} ${port.terminal} ${port.side}`).toSorted();

const sameShape = (a: Node, b: Node | undefined): boolean =>
  b !== undefined &&
  a.place === b.place &&
  a.shape === b.shape &&
  a.beside === b.beside &&
  idsOf(a).join() === idsOf(b).join();

export const sameWay = (a: Edge, b: Edge | undefined): boolean =>
  b !== undefined &&
  a.source.node === b.source.node &&
  a.target.node === b.target.node &&
  portId(a.source.port) === portId(b.source.port);

const SAME = 1e-6;

/** What parts take more than before; null where one would have another outline. */
function growthsOf(rest: Picture, model: SheetModel): readonly (readonly [Id, Growth])[] | null {
  const said = reworded(rest, model);
  const before = plainFrames(rest);
  const after = plainFrames(said);
  const found: (readonly [Id, Growth])[] = [];
  for (const placed of rest.nodes) {
    const [old, now] = [before.get(placed.node.id), after.get(placed.node.id)];
    if (old === undefined || now === undefined) return null;
    if (placed.node.shape !== 'bar' && Math.abs(now.core.height - old.core.height) > SAME) return null;
    const growth = growthOf(old, now, placed.frame);
    if (growth.up !== 0 || growth.down !== 0 || growth.wider > 0) found.push([placed.node.id, growth]);
  }
  return found;
}

function growthOf(old: Frame, now: Frame, placed: Frame): Growth {
  return {
    up: more(now.core.y, old.core.y),
    down: more(under(now), under(old)),
    wider: Math.max(0, more(now.width, placed.width)),
    frame: now,
  };
}

const under = ({ height, core }: Frame): number => height - core.y - core.height;
const more = (now: number, old: number): number => (Math.abs(now - old) < SAME ? 0 : now - old);

/** What parts take for themselves, however far apart their wires stand. */
const plainFrames = ({ nodes }: Picture): ReadonlyMap<Id, Frame> =>
  new Map(nodes.map(({ node }) => [node.id, frameOf(node, { west: [], east: [] })]));

/** The part grown where it stands if there is room, else with room made for it. */
export function withRoom(picture: Picture, id: Id, growth: Growth, most: number): Picture | null {
  const inPlace = grown(picture, id, growth);
  if (inPlace !== null && stands(inPlace, id, most)) return inPlace;
  const placed = picture.nodes.find((n) => n.node.id === id);
  if (placed === undefined) return null;
  const { up, down, wider } = growth;
  let now = widened(picture, placed.x + placed.frame.width, wider);
  if (down > 0) now = heightened(now, placed.y + placed.frame.height, down);
  if (up > 0) now = heightened(now, placed.y, up);
  return grown(now, id, growth);
}

/** Nothing lies over anything, and the part is before all that stands in places further aft. */
function stands({ nodes, wires }: Picture, id: Id, most: number): boolean {
  const own = nodes.find((n) => n.node.id === id);
  if (own === undefined || !wires.every(straddles)) return false;
  const end = own.x + own.frame.width;
  const before = nodes.every((n) => n.node.place <= own.node.place || n.x >= end);
  return before && overlapsOf({ nodes, wires }).length <= most;
}

/** The words of the model; a label that is too long for its run, or comes to lie over something, gets room. */
function withLabels(picture: Picture, model: SheetModel): Picture {
  let now = reworded(picture, model);
  for (const [i, { edge }] of picture.wires.entries()) {
    const was = edge.label;
    const wire = now.wires[i];
    if (wire === undefined || !isLarger(wire.edge.label, was)) continue;
    if (straddles(wire) && isClear(now, i)) continue;
    const longer = wire.edge.label.width - was.width;
    if (longer > SAME) now = centred(widened(now, wire.label.x + was.width / 2, longer), i, longer / 2);
    if (!isClear(now, i)) now = withHeight(now, i, was);
  }
  return now;
}

const isLarger = (now: Label, was: Label): boolean =>
  now.width > was.width + SAME || now.up > was.up + SAME || now.down > was.down + SAME;

/** More room under a wire, and over it. */
function withHeight(picture: Picture, at: number, was: Label): Picture {
  const wire = picture.wires[at] as PlacedWire;
  const { label } = wire.edge;
  const [up, down] = [Math.max(0, label.up - was.up), Math.max(0, label.down - was.down)];
  return heightened(heightened(picture, wire.label.y + 0.001, down), wire.label.y, up);
}

/** A label moved along its wire. */
const centred = ({ nodes, wires }: Picture, at: number, dx: number): Picture => ({
  nodes,
  wires: wires.map((wire, i) =>
    i === at ? { ...wire, label: { x: wire.label.x + dx, y: wire.label.y } } : wire,
  ),
});

/** Its label lies wholly on one level run. */
export function straddles(wire: PlacedWire): boolean {
  const { left, right } = labelBox(wire);
  const { points, label } = wire;
  return points.some((b, i) => {
    const a = points[i - 1];
    if (a === undefined || Math.abs(a.y - b.y) > 1e-6 || Math.abs(a.y - label.y) > 0.01) return false;
    return Math.min(a.x, b.x) <= left + 0.01 && Math.max(a.x, b.x) >= right - 0.01;
  });
}

/** The same positions with the words of another model: what that has no more is left out, what is new in it is not there yet. */
export function reworded(picture: Picture, model: SheetModel): Picture {
  const nodes = new Map(model.nodes.map((node) => [node.id, node]));
  const edges = new Map(model.edges.map((edge) => [edge.wire.id, edge]));
  return {
    nodes: picture.nodes.flatMap((placed) => {
      const node = nodes.get(placed.node.id);
      const { west, east } = placed.node;
      return node === undefined ? [] : [{ ...placed, node: { ...node, west, east } }];
    }),
    wires: picture.wires.flatMap((wire) => {
      const edge = edges.get(wire.edge.wire.id);
      return edge === undefined || !sameWay(wire.edge, edge) ? [] : [{ ...wire, edge }];
    }),
  };
}
