/**
 * The parts of one place, laid out among themselves. Wires that leave the place are led to the block's edge by the same layout:
 * each ends there in an exit, a box of no size, so that the way out is never blocked.
 */
import type { Id } from '../../contracts/index.ts';
import type { Layouts } from '../sheet/memo.ts';
import { portId, type Edge, type Label, type Node, type Port, type SheetModel } from '../sheet/model.ts';
import type { Picture, PlacedWire } from '../sheet/picture.ts';
import type { Point } from '../sheet/elk.ts';
import type { SubjectPart, SubjectWire } from '../subject.ts';

export interface Block {
  /** Parts and the wires between them. */
  readonly picture: Picture;
  /** From each leaving wire's port to the block's edge. */
  readonly exits: readonly Exit[];
}

export interface Exit {
  readonly wire: Id;
  readonly end: Port['end'];
  /** From the part outwards; the last point lies at the edge. */
  readonly points: readonly Point[];
  readonly way: -1 | 1;
}

const NO_LABEL: Label = { above: [], below: [], width: 0, up: 0.5, down: 0.5 };
/** Columns of the exits beside that of the place. */
const BEFORE = -1;
const BEHIND = Number.MAX_SAFE_INTEGER;
const AIR = 2;

const isExit = (id: Id): boolean => id.startsWith('\u0000');

const EXIT: SubjectPart = {
  id: '',
  designation: '',
  name: '',
  title: '',
  place: '',
  symbol: { shape: 'round', terminals: ['exit'], glyph: null },
  notes: [],
  wired: new Set(),
  digits: 1,
};

function exitNode(port: Port): Node {
  const id = `\u0000${portId(port)}`;
  const own: Port = {
    wire: port.wire,
    end: port.end === 'from' ? 'to' : 'from',
    terminal: 'exit',
    side: port.side === 'E' ? 'W' : 'E',
  };
  return {
    id,
    part: { ...EXIT, id },
    place: port.side === 'E' ? BEHIND : BEFORE,
    shape: 'round',
    west: own.side === 'W' ? [own] : [],
    east: own.side === 'E' ? [own] : [],
    head: [],
    foot: [],
    beside: false,
  };
}

function exitEdge(wire: SubjectWire, node: Node, port: Port, exit: Node, label: Label): Edge {
  const inner = { node: node.id, port };
  const outer = { node: exit.id, port: exit.west[0] ?? exit.east[0] ?? port };
  return port.side === 'E'
    ? { wire, source: inner, target: outer, label }
    : { wire, source: outer, target: inner, label };
}

export interface BlockOptions {
  readonly layouts: Layouts;
  readonly thoroughness: number;
  /** Room is kept for the labels of leaving wires at their source: wider, but they surely find it. */
  readonly roomy: boolean;
}

/** Lays out one place of a model. */
export async function layBlock(
  model: SheetModel,
  place: number,
  { layouts, thoroughness, roomy }: BlockOptions,
): Promise<Block> {
  const nodes = model.nodes.filter((node) => node.place === place);
  const own = new Set(nodes.map((node) => node.id));
  const edges = model.edges.filter((edge) => own.has(edge.source.node) && own.has(edge.target.node));
  const inside = new Set(edges.map((edge) => edge.wire.id));
  const all = new Map(model.edges.map((edge) => [edge.wire.id, edge]));
  const leaving = nodes.flatMap((node) =>
    [...node.west, ...node.east].flatMap((port) => {
      const edge = all.get(port.wire);
      if (edge === undefined || inside.has(port.wire)) return [];
      const label = roomy && port.side === 'E' ? edge.label : NO_LABEL;
      return [{ node, port, wire: edge.wire, exit: exitNode(port), label }];
    }),
  );
  const whole: SheetModel = {
    mode: model.mode,
    nodes: [...nodes, ...leaving.map((each) => each.exit)],
    edges: [
      ...edges,
      ...leaving.map(({ wire, node, port, exit, label }) => exitEdge(wire, node, port, exit, label)),
    ],
    places: [BEFORE, place, BEHIND],
  };
  const picture = await layouts.layOut(whole, { air: AIR, thoroughness, orders: 2, kept: null });
  return {
    picture: {
      nodes: picture.nodes.filter((placed) => !isExit(placed.node.id)),
      wires: picture.wires.filter((wire) => inside.has(wire.edge.wire.id)),
    },
    exits: picture.wires.filter((wire) => !inside.has(wire.edge.wire.id)).map(exitOf),
  };
}

function exitOf({ edge, points }: PlacedWire): Exit {
  const outEast = isExit(edge.target.node);
  const port = outEast ? edge.source.port : edge.target.port;
  return {
    wire: edge.wire.id,
    end: port.end,
    points: outEast ? points : points.toReversed(),
    way: outEast ? 1 : -1,
  };
}

export function movedBlock(
  { picture, exits }: Block,
  dx: number,
  dy: number,
  move: (picture: Picture, dx: number, dy: number) => Picture,
): Block {
  return {
    picture: move(picture, dx, dy),
    exits: exits.map((exit) => ({
      ...exit,
      points: exit.points.map(({ x, y }) => ({ x: x + dx, y: y + dy })),
    })),
  };
}
