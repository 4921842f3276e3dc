/**
 * From a model to the best picture found: ports of hubs ordered in a first run, set on an elastic pitch in a second, a third where
 * wires still cross, then straightened; tried in up to three canonical orders.
 */
import type { Id } from '../../contracts/index.ts';
import { run, type Elk, type Raw } from './elk.ts';
import { frameOf, mayReorder, type Frame } from './frame.ts';
import { costOf, crossingsOf, judge } from './judge.ts';
import { portId, type Edge, type Node, type Port, type SheetModel } from './model.ts';
import { byText } from './make.ts';
import { pictureOf, type Picture } from './picture.ts';
import { joinedOf, pitchOf } from './pitch.ts';
import { straighten } from './straighten.ts';

/** Order to be kept from the drawing before: nodes from top to bottom, wires from top to bottom at each side of a node. */
export interface Kept {
  readonly nodes: readonly Id[];
  readonly sides: Readonly<Record<Id, { readonly west: readonly Id[]; readonly east: readonly Id[] }>>;
  /** A person wished for it: it stays even where wires then cross. */
  readonly firm?: true;
}

export interface LayoutOptions {
  readonly elk: Elk;
  /** Between boxes of one column, mm: 1.5 to 7. */
  readonly air: number;
  readonly thoroughness: number;
  /** How many canonical orders may be tried, 1 to 3. */
  readonly orders: number;
  readonly kept: Kept | null;
}

export async function layOut(model: SheetModel, options: LayoutOptions): Promise<Picture> {
  if (options.kept !== null) return straighten(pictureOf(await inKeptOrder(model, options.kept, options)));
  let best: Picture | null = null;
  let cost = Infinity;
  for (const order of orders(model).slice(0, options.orders)) {
    const picture = straighten(pictureOf(await free(order, options)));
    const marks = judge(picture);
    const own = costOf(marks);
    if (own < cost) [best, cost] = [picture, own];
    if (marks.overlaps === 0 && marks.crossings === 0 && marks.bends === 0) break;
  }
  return best ?? { nodes: [], wires: [] };
}

/** By wire, by part, and by part backwards: free of the document's order. */
function orders(model: SheetModel): readonly SheetModel[] {
  const first = new Map<Id, string>();
  for (const { wire, source, target } of model.edges) {
    for (const id of [source.node, target.node]) {
      const known = first.get(id);
      if (known === undefined || wire.id < known) first.set(id, wire.id);
    }
  }
  const byWire = model.nodes.toSorted(
    (a, b) => byText(first.get(a.id) ?? '', first.get(b.id) ?? '') || byText(a.id, b.id),
  );
  return [
    { ...model, nodes: byWire },
    model,
    { ...model, nodes: model.nodes.toReversed(), edges: model.edges.toReversed() },
  ];
}

async function free(model: SheetModel, { elk, air, thoroughness }: LayoutOptions): Promise<Raw> {
  const common = { air, thoroughness, keepOrder: false };
  const first = await run(elk, model, { ...common, ...model, frames: framesOf(model, air), free: true });
  const ordered = byHeight(model, first, ownHeight);
  const second = await run(elk, ordered, {
    ...common,
    ...ordered,
    frames: framesOf(ordered, air),
    free: false,
  });
  const crossed = crossingsOf(pictureOf(second));
  if (crossed === 0) return second;
  const again = byHeight(ordered, second, farHeight);
  const third = await run(elk, again, { ...common, ...again, frames: framesOf(again, air), free: false });
  return crossingsOf(pictureOf(third)) < crossed ? third : second;
}

export function framesOf(model: SheetModel, air: number): ReadonlyMap<Id, Frame> {
  const joined = joinedOf(model);
  return new Map(model.nodes.map((node) => [node.id, frameOf(node, pitchOf(node, joined, air))]));
}

type HeightOf = (raw: Raw, port: Port, edge: Edge) => number;

/** Where the port itself was put. */
const ownHeight: HeightOf = (raw, port, edge) => {
  const points = raw.wires.find((w) => w.edge.wire.id === edge.wire.id)?.points ?? [];
  return (isSource(port, edge) ? points[0] : points.at(-1))?.y ?? 0;
};

/** Where its wire went. */
const farHeight: HeightOf = (raw, port, edge) => {
  const points = raw.wires.find((w) => w.edge.wire.id === edge.wire.id)?.points ?? [];
  return (isSource(port, edge) ? points.at(-1) : points[0])?.y ?? 0;
};

const isSource = (port: Port, edge: Edge): boolean => portId(edge.source.port) === portId(port);

/** Ports of hubs in the order of heights; those of one terminal stay together. */
function byHeight(model: SheetModel, raw: Raw, heightOf: HeightOf): SheetModel {
  const { edgeAt } = joinedOf(model);
  const height = (port: Port): number => {
    const edge = edgeAt.get(portId(port));
    return edge === undefined ? 0 : heightOf(raw, port, edge);
  };
  return withPorts(model, (ports, node) => grouped(ports, node, height));
}

function withPorts(
  model: SheetModel,
  order: (ports: readonly Port[], node: Node) => readonly Port[],
): SheetModel {
  return {
    ...model,
    nodes: model.nodes.map((node) =>
      !mayReorder(node) ? node : { ...node, west: order(node.west, node), east: order(node.east, node) },
    ),
  };
}

/** By height; ends at one terminal stay together, and so do the two ends of a row that stand at one side. */
export function grouped(ports: readonly Port[], node: Node, height: (port: Port) => number): readonly Port[] {
  const rowOf = (terminal: string): string => {
    const i = (node.part.symbol.rows ?? []).findIndex(
      (row) => row.left === terminal || row.right === terminal,
    );
    return i < 0 ? terminal : `\n${i}`;
  };
  const mean = (same: (port: Port) => boolean): number => {
    const own = ports.filter(same).map(height);
    return own.reduce((sum, y) => sum + y, 0) / own.length;
  };
  return ports.toSorted((a, b) => {
    const [row, other] = [rowOf(a.terminal), rowOf(b.terminal)];
    if (row !== other)
      return (
        mean((p) => rowOf(p.terminal) === row) - mean((p) => rowOf(p.terminal) === other) ||
        byText(row, other)
      );
    if (a.terminal !== b.terminal)
      return (
        mean((p) => p.terminal === a.terminal) - mean((p) => p.terminal === b.terminal) ||
        byText(a.terminal, b.terminal)
      );
    return height(a) - height(b) || byText(a.wire, b.wire);
  });
}

async function inKeptOrder(
  model: SheetModel,
  kept: Kept,
  { elk, air, thoroughness }: LayoutOptions,
): Promise<Raw> {
  const ordered = withPorts({ ...model, nodes: inOrder(model, kept) }, (ports, node) => {
    const own = kept.sides[node.id];
    const list = own === undefined ? [] : ports[0]?.side === 'W' ? own.west : own.east;
    return grouped(ports, node, rankIn(list, model, kept));
  });
  const frames = framesOf(ordered, air);
  const keepOrder = kept.firm === true ? 'firm' : true;
  return run(elk, ordered, { air, thoroughness, keepOrder, ...ordered, frames, free: false });
}

/** A part that is new stands behind the neighbour that it is wired to. */
function inOrder(model: SheetModel, kept: Kept): readonly Node[] {
  const rank = ranks(model, kept);
  return model.nodes.toSorted((a, b) => (rank.get(a.id) ?? 0) - (rank.get(b.id) ?? 0) || byText(a.id, b.id));
}

function ranks(model: SheetModel, kept: Kept): ReadonlyMap<Id, number> {
  const rank = new Map(kept.nodes.map((id, i) => [id, i]));
  for (let grew = true; grew;) {
    grew = false;
    for (const { source, target } of model.edges) {
      for (const [a, b] of [
        [source.node, target.node],
        [target.node, source.node],
      ] as const) {
        const beside = rank.get(a);
        if (beside === undefined || rank.has(b)) continue;
        rank.set(b, beside + 0.5);
        grew = true;
      }
    }
  }
  return rank;
}

/** Known wires by their place at this side, a new one by the rank of what it leads to. */
function rankIn(list: readonly Id[], model: SheetModel, kept: Kept): (port: Port) => number {
  const rank = ranks(model, kept);
  const farRank = (wire: Id, node: Id | null): number => {
    const edge = model.edges.find((e) => e.wire.id === wire);
    if (edge === undefined) return 0;
    return rank.get(edge.source.node === node ? edge.target.node : edge.source.node) ?? 0;
  };
  return (port) => {
    const at = list.indexOf(port.wire);
    if (at >= 0) return at;
    const node =
      model.nodes.find((n) => [...n.west, ...n.east].some((p) => portId(p) === portId(port)))?.id ?? null;
    const own = farRank(port.wire, node);
    const before = list.filter((wire) => farRank(wire, node) < own).length;
    return before - 0.5;
  };
}

/** The order of a picture, to be kept; laid out in a firm order, it stays firm. */
export function orderOf(picture: Picture, before: Kept | null = null): Kept {
  const nodes = picture.nodes
    .toSorted((a, b) => a.y - b.y || byText(a.node.id, b.node.id))
    .map((n) => n.node.id);
  const sides = Object.fromEntries(
    picture.nodes.map(({ node, frame }) => {
      const list = (ports: readonly Port[]): readonly Id[] =>
        ports
          .toSorted((a, b) => (frame.ports.get(portId(a)) ?? 0) - (frame.ports.get(portId(b)) ?? 0))
          .map((port) => port.wire);
      return [node.id, { west: list(node.west), east: list(node.east) }];
    }),
  );
  return { nodes, sides, ...(before?.firm === true ? { firm: true } : {}) };
}
