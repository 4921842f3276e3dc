/**
 * Other words on positions that stand: where a label that grew, or a part whose text shrank, still has its room, nothing moves.
 */
import type { Frame } from './frame.ts';
import { overlapsOf } from './judge.ts';
import { framesOf } from './layout.ts';
import { portId, type Edge, type Node, type SheetModel } from './model.ts';
import { labelBox, type Picture, type PlacedNode, type PlacedWire } from './picture.ts';

/** The picture with the words of the model, when it has the same parts, ports and wires and all words find room; else null. */
export function refitted(picture: Picture, model: SheetModel, air: number): Picture | null {
  if (picture.nodes.length !== model.nodes.length || picture.wires.length !== model.edges.length) return null;
  const before = new Map(framesOf(modelOf(picture, model), air));
  const after = framesOf(model, air);
  const nodes = new Map(model.nodes.map((node) => [node.id, node]));
  for (const placed of picture.nodes) {
    const node = nodes.get(placed.node.id);
    if (node === undefined || !sameShape(placed.node, node)) return null;
    if (!holds(before.get(node.id), after.get(node.id))) return null;
  }
  const fitted = reworded(picture, model);
  if (fitted.wires.length !== picture.wires.length || !fitted.wires.every(straddles)) return null;
  return overlapsOf(fitted).length > overlapsOf(picture).length ? null : fitted;
}

/** What the picture was made of, in the order of its own parts. */
const modelOf = (picture: Picture, { mode, places }: SheetModel): SheetModel => ({
  mode,
  places,
  nodes: picture.nodes.map((placed: PlacedNode) => placed.node),
  edges: picture.wires.map((wire) => wire.edge),
});

const idsOf = (node: Node): readonly string[] =>
  [...node.west, ...node.east].map((port) => `${portId(port)} ${port.terminal} ${port.side}`).toSorted();

const sameShape = (a: Node, b: Node): boolean =>
  a.place === b.place && a.shape === b.shape && a.beside === b.beside && idsOf(a).join() === idsOf(b).join();

const same = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;

/** A frame of the same height and ports, and no wider. */
function holds(old: Frame | undefined, now: Frame | undefined): boolean {
  if (old === undefined || now === undefined) return false;
  return (
    now.width <= old.width + 1e-6 && same(now.height, old.height) && same(now.core.height, old.core.height)
  );
}

/** Its label lies wholly on one level run. */
function straddles(wire: PlacedWire): boolean {
  const { left, right } = labelBox(wire);
  const { points, label } = wire;
  return points.some((b, i) => {
    const a = points[i - 1];
    if (a === undefined || Math.abs(a.y - b.y) > 1e-6 || Math.abs(a.y - label.y) > 0.01) return false;
    return Math.min(a.x, b.x) <= left + 0.01 && Math.max(a.x, b.x) >= right - 0.01;
  });
}

const sameWay = (a: Edge, b: Edge): boolean =>
  a.source.node === b.source.node &&
  a.target.node === b.target.node &&
  portId(a.source.port) === portId(b.source.port);

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
      return edge === undefined || !sameWay(edge, wire.edge) ? [] : [{ ...wire, edge }];
    }),
  };
}
