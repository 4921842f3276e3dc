/**
 * Takes bends out of a picture: a wire that steps from one height to another is straightened by sliding its tap along a bar, or
 * by moving the part at one end together with all that is joined to it by straight wires. A step is kept only when the picture
 * gets better by its cost.
 */
import type { Id } from '../../contracts/index.ts';
import { FROM_EDGE, stretched } from './bar.ts';
import { LEAST_LUG } from './frame.ts';
import { portId, type Port } from './model.ts';
import { cleaner, levelAt, type Picture, type PlacedNode, type PlacedWire } from './picture.ts';
import type { Point } from './elk.ts';
import { weighing } from './weigh.ts';

const SAME = 1e-6;
const ROUNDS = 3;

interface End {
  readonly node: Id;
  readonly port: Port;
}

export function straighten(picture: Picture): Picture {
  let best = looked(picture);
  /** What was tried of each wire without success, by the picture it was tried on. */
  const triedOn = new Map<number, Looked>();
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = best;
    for (const at of before.picture.wires.flatMap((wire, i) => (stepped(wire) ? [i] : []))) {
      if (triedOn.get(at) === best) continue;
      triedOn.set(at, best);
      const better = firstBetter(best, at);
      if (better !== null) best = { ...best, picture: better, weigh: weighing(better) };
    }
    if (best === before) break;
  }
  return best.picture;
}

function firstBetter(best: Looked, at: number): Picture | null {
  for (const tried of attempts(best, at)) if (best.weigh(tried) < -SAME) return tried;
  return null;
}

/** A picture with what is looked up in it while it is straightened. */
interface Looked {
  readonly picture: Picture;
  readonly nodeAt: ReadonlyMap<Id, number>;
  /** Indexes of the wires at a part, ascending. */
  readonly wiresAt: ReadonlyMap<Id, readonly number[]>;
  readonly weigh: (tried: Picture) => number;
}

function looked(picture: Picture): Looked {
  const wiresAt = new Map<Id, number[]>(picture.nodes.map(({ node }) => [node.id, []]));
  picture.wires.forEach(({ edge: { source, target } }, i) => {
    wiresAt.get(source.node)?.push(i);
    if (target.node !== source.node) wiresAt.get(target.node)?.push(i);
  });
  return {
    picture,
    nodeAt: new Map(picture.nodes.map(({ node }, i) => [node.id, i])),
    wiresAt,
    weigh: weighing(picture),
  };
}

function nodeOf({ picture, nodeAt }: Looked, id: Id): PlacedNode | undefined {
  const at = nodeAt.get(id);
  return at === undefined ? undefined : picture.nodes[at];
}

/** Level, upright, level, at least once. */
const stepped = ({ points }: PlacedWire): boolean => points.length >= 4;

/** Made one after the other, as long as none is taken. */
function* attempts(best: Looked, at: number): Iterable<Picture> {
  const wire = best.picture.wires[at];
  if (wire === undefined || !stepped(wire)) return;
  const { source, target } = wire.edge;
  const { points } = wire;
  const rise = (from: number, to: number): number => (points.at(to)?.y ?? 0) - (points.at(from)?.y ?? 0);
  const atSource = rise(0, 2);
  const atTarget = rise(-1, -3);
  const ways = [
    () => slide(best, target, atTarget),
    () => slide(best, source, atSource),
    () => shift(best, target.node, atTarget),
    () => shift(best, source.node, atSource),
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
function slide(best: Looked, end: End, dy: number): Picture | null {
  const placed = nodeOf(best, end.node);
  if (placed === undefined) return null;
  const shifts =
    placed.node.shape === 'bar' ? pushed(placed, end.port, dy) : new Map([[portId(end.port), dy]]);
  const moved = slid(placed, shifts);
  if (moved === null) return null;
  const { picture } = best;
  const wires = [...picture.wires];
  for (const i of best.wiresAt.get(end.node) ?? []) {
    const wire = picture.wires[i] as PlacedWire;
    const port = [wire.edge.source.port, wire.edge.target.port].find((each) => shifts.has(portId(each)));
    if (port === undefined) continue;
    if (!stepped(wire)) return null;
    wires[i] = bentEnd(wire, port, shifts.get(portId(port)) ?? 0);
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
function shift(best: Looked, start: Id, dy: number): Picture | null {
  const group = rigid(best, start);
  const bars = new Map<Id, PlacedNode>();
  const { picture, wiresAt } = best;
  const wires = [...picture.wires];
  const touched = new Set([...group].flatMap((id) => wiresAt.get(id) ?? []));
  for (const i of [...touched].toSorted((a, b) => a - b)) {
    const moved = withGroup(best, picture.wires[i] as PlacedWire, group, bars, dy);
    if (moved === null) return null;
    wires[i] = moved;
  }
  return {
    nodes: picture.nodes.map(
      (n) => bars.get(n.node.id) ?? (group.has(n.node.id) ? { ...n, y: n.y + dy } : n),
    ),
    wires,
  };
}

/** Parts that straight wires hold at one height; bars give way instead. */
function rigid(best: Looked, start: Id): ReadonlySet<Id> {
  const group = new Set([start]);
  const open = [start];
  for (let here = open.pop(); here !== undefined; here = open.pop()) {
    for (const i of best.wiresAt.get(here) ?? []) {
      const { edge, points } = best.picture.wires[i] as PlacedWire;
      if (points.length !== 2) continue;
      const far = edge.source.node === here ? edge.target.node : edge.source.node;
      if (group.has(far) || nodeOf(best, far)?.node.shape === 'bar') continue;
      group.add(far);
      open.push(far);
    }
  }
  return group;
}

function withGroup(
  best: Looked,
  wire: PlacedWire,
  group: ReadonlySet<Id>,
  bars: Map<Id, PlacedNode>,
  dy: number,
): PlacedWire | null {
  const { source, target } = wire.edge;
  if (group.has(source.node) && group.has(target.node)) return lifted(wire, dy);
  const [own, far] = group.has(source.node) ? [source, target] : [target, source];
  if (stepped(wire)) return bentEnd(wire, own.port, dy);
  // A straight wire to a bar: its tap goes along.
  const bar = bars.get(far.node) ?? nodeOf(best, far.node);
  const moved =
    bar === undefined || bar.node.shape !== 'bar' ? null : slid(bar, new Map([[portId(far.port), dy]]));
  if (moved === null) return null;
  bars.set(far.node, moved);
  return lifted(wire, dy);
}

const lifted = (wire: PlacedWire, dy: number): PlacedWire =>
  rerouted(
    wire,
    wire.points.map((p) => ({ x: p.x, y: p.y + dy })),
  );
