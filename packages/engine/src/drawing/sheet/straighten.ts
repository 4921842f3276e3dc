/**
 * Takes bends out of a picture: a wire that steps from one height to another is straightened by sliding its tap along a bar, or
 * by moving the part at one end together with all that is joined to it by straight wires. A step is kept only when the picture
 * gets better by its cost.
 */
import type { Id } from '../../contracts/index.ts';
import { BAR, LEAST_LUG, type Frame } from './frame.ts';
import { costOfChange } from './judge.ts';
import { portId, type Port } from './model.ts';
import { cleaner, levelAt, type Picture, type PlacedNode, type PlacedWire } from './picture.ts';
import type { Point } from './elk.ts';

const SAME = 1e-6;
const ROUNDS = 3;
/** A terminal keeps this from the edge of its box, mm. */
const FROM_EDGE = 3;

interface End {
  readonly node: Id;
  readonly port: Port;
  /** Index of the wire's corner at this end. */
  readonly first: boolean;
}

export function straighten(picture: Picture): Picture {
  let best = picture;
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = best;
    for (const id of best.wires.filter(stepped).map((w) => w.edge.wire.id)) {
      for (const tried of attempts(best, id)) {
        if (costOfChange(best, tried) >= -SAME) continue;
        best = tried;
        break;
      }
    }
    if (best === before) break;
  }
  return best;
}

/** Level, upright, level, at least once. */
const stepped = ({ points }: PlacedWire): boolean => points.length >= 4;

const endsOf = ({ edge }: PlacedWire): readonly [End, End] => [
  { ...edge.source, first: true },
  { ...edge.target, first: false },
];

/** Made one after the other, as long as none is taken. */
function* attempts(picture: Picture, id: Id): Iterable<Picture> {
  const wire = picture.wires.find((w) => w.edge.wire.id === id);
  if (wire === undefined || !stepped(wire)) return;
  const [source, target] = endsOf(wire);
  const { points } = wire;
  const rise = (from: number, to: number): number => (points.at(to)?.y ?? 0) - (points.at(from)?.y ?? 0);
  const atSource = rise(0, 2);
  const atTarget = rise(-1, -3);
  const ways = [
    () => slide(picture, target, atTarget),
    () => slide(picture, source, atSource),
    () => shift(picture, target.node, atTarget),
    () => shift(picture, source.node, atSource),
  ];
  for (const way of ways) {
    const tried = way();
    if (tried !== null) yield tried;
  }
}

/**
 * A tap along its bar, which stretches with it, or along a box as far as that reaches. Order and distance are kept: taps in its
 * way are pushed along where their wires step anyway.
 */
function slide(picture: Picture, end: End, dy: number): Picture | null {
  const placed = picture.nodes.find((n) => n.node.id === end.node);
  if (placed === undefined) return null;
  const shifts =
    placed.node.shape === 'bar' ? pushed(placed, end.port, dy) : new Map([[portId(end.port), dy]]);
  const moved = slid(placed, shifts);
  if (moved === null) return null;
  const wires: PlacedWire[] = [];
  for (const wire of picture.wires) {
    const port = [wire.edge.source.port, wire.edge.target.port].find((each) => shifts.has(portId(each)));
    if (port !== undefined && !stepped(wire)) return null;
    wires.push(port === undefined ? wire : bentEnd(wire, port, shifts.get(portId(port)) ?? 0));
  }
  return { nodes: picture.nodes.map((n) => (n === placed ? moved : n)), wires };
}

/** How far each tap of a bar moves when one does. */
function pushed({ node, frame }: PlacedNode, port: Port, dy: number): ReadonlyMap<string, number> {
  const side = port.side === 'W' ? node.west : node.east;
  const at = (p: Port): number => frame.ports.get(portId(p)) ?? 0;
  const own = side.findIndex((p) => portId(p) === portId(port));
  const shifts = new Map([[portId(port), dy]]);
  const way = dy > 0 ? 1 : -1;
  let edge = at(port) + dy;
  for (let i = own + way; i >= 0 && i < side.length; i += way) {
    const next = side[i];
    if (next === undefined || (at(next) - edge) * way >= LEAST_LUG - SAME) break;
    edge += way * LEAST_LUG;
    shifts.set(portId(next), edge - at(next));
  }
  return shifts;
}

function slid(placed: PlacedNode, shifts: ReadonlyMap<string, number>): PlacedNode | null {
  const { node, frame } = placed;
  const ports = new Map([...frame.ports].map(([id, y]) => [id, y + (shifts.get(id) ?? 0)]));
  if (![node.west, node.east].every((side) => inStep(side, ports))) return null;
  if (node.shape === 'bar') return stretched(placed, ports);
  return inBox(placed, ports) ? { ...placed, frame: { ...frame, ports } } : null;
}

const inStep = (side: readonly Port[], ports: ReadonlyMap<string, number>): boolean =>
  side.every((p, i) => {
    const before = side[i - 1];
    return (
      before === undefined ||
      (ports.get(portId(p)) ?? 0) - (ports.get(portId(before)) ?? 0) >= LEAST_LUG - SAME
    );
  });

/** A terminal of a box may slide where no row of the symbol holds it, and not to the box's very edge. */
function inBox({ node, frame }: PlacedNode, ports: ReadonlyMap<string, number>): boolean {
  if (node.shape !== 'box' || (node.part.symbol.rows?.length ?? 0) > 0) return false;
  const { y, height } = frame.core;
  return [...ports.values()].every((at) => at >= y + FROM_EDGE - SAME && at <= y + height - FROM_EDGE + SAME);
}

/** A bar from just over its highest tap to just under its lowest, its text above it. */
function stretched(placed: PlacedNode, ports: ReadonlyMap<string, number>): PlacedNode {
  const { node, frame } = placed;
  const ys = [...ports.values()];
  const top = Math.min(...ys) - BAR.over - frame.core.y;
  const span = Math.max(...ys) - Math.min(...ys) + 2 * BAR.over;
  const foot = frame.height - frame.core.y - frame.core.height;
  const moved: Frame = {
    width: frame.width,
    height: frame.core.y + span + foot,
    ports: new Map([...ports].map(([id, y]) => [id, y - top])),
    core: { ...frame.core, height: span },
  };
  return { node, frame: moved, x: placed.x, y: placed.y + top };
}

/** Which end of the wire stands at this port. */
function endAt(wire: PlacedWire, port: Port): 'source' | 'target' | null {
  const id = portId(port);
  if (portId(wire.edge.source.port) === id) return 'source';
  return portId(wire.edge.target.port) === id ? 'target' : null;
}

/** The wire with one end at another height: its level run there moves with it. */
function bentEnd(wire: PlacedWire, port: Port, dy: number): PlacedWire {
  const last = wire.points.length - 1;
  const atSource = endAt(wire, port) === 'source';
  const moves = (i: number): boolean => (atSource ? i <= 1 : i >= last - 1);
  return rerouted(
    wire,
    wire.points.map((p, i) => (moves(i) ? { x: p.x, y: p.y + dy } : p)),
  );
}

function rerouted(wire: PlacedWire, points: readonly Point[]): PlacedWire {
  const cleaned = cleaner(points);
  return { edge: wire.edge, points: cleaned, label: { x: wire.label.x, y: levelAt(cleaned, wire.label.x) } };
}

/** A part with all that straight wires join to it; taps of bars slide, other wires bend where they already do. */
function shift(picture: Picture, start: Id, dy: number): Picture | null {
  const group = rigid(picture, start);
  const bars = new Map<Id, PlacedNode>();
  const wires: PlacedWire[] = [];
  for (const wire of picture.wires) {
    const moved = withGroup(picture, wire, group, bars, dy);
    if (moved === null) return null;
    wires.push(moved);
  }
  return {
    nodes: picture.nodes.map(
      (n) => bars.get(n.node.id) ?? (group.has(n.node.id) ? { ...n, y: n.y + dy } : n),
    ),
    wires,
  };
}

/** Parts that straight wires hold at one height; bars give way instead. */
function rigid(picture: Picture, start: Id): ReadonlySet<Id> {
  const bars = new Set(picture.nodes.flatMap((n) => (n.node.shape === 'bar' ? [n.node.id] : [])));
  const straight = new Map<Id, Id[]>();
  for (const { edge, points } of picture.wires) {
    if (points.length !== 2) continue;
    const [a, b] = [edge.source.node, edge.target.node];
    straight.set(a, [...(straight.get(a) ?? []), b]);
    straight.set(b, [...(straight.get(b) ?? []), a]);
  }
  const group = new Set([start]);
  const open = [start];
  for (let here = open.pop(); here !== undefined; here = open.pop()) {
    for (const far of straight.get(here) ?? []) {
      if (group.has(far) || bars.has(far)) continue;
      group.add(far);
      open.push(far);
    }
  }
  return group;
}

function withGroup(
  picture: Picture,
  wire: PlacedWire,
  group: ReadonlySet<Id>,
  bars: Map<Id, PlacedNode>,
  dy: number,
): PlacedWire | null {
  const [source, target] = endsOf(wire);
  const inside = [source, target].filter((end) => group.has(end.node));
  if (inside.length === 0) return wire;
  if (inside.length === 2)
    return rerouted(
      wire,
      wire.points.map((p) => ({ x: p.x, y: p.y + dy })),
    );
  const [own = source] = inside;
  if (wire.points.length >= 4) return bentEnd(wire, own.port, dy);
  // A straight wire to a bar: its tap goes along.
  const far = own === source ? target : source;
  const bar = bars.get(far.node) ?? picture.nodes.find((n) => n.node.id === far.node);
  const moved =
    bar === undefined || bar.node.shape !== 'bar' ? null : slid(bar, new Map([[portId(far.port), dy]]));
  if (moved === null) return null;
  bars.set(far.node, moved);
  return rerouted(
    wire,
    wire.points.map((p) => ({ x: p.x, y: p.y + dy })),
  );
}
