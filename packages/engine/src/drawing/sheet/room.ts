/**
 * Makes room in a picture by moving apart what stands on the two sides of a line across all of it. What stood before or above
 * another thing still does, no distance shrinks, so nothing comes to lie over anything.
 */
import type { Id } from '../../contracts/index.ts';
import type { Frame } from './frame.ts';
import { portId, type Port } from './model.ts';
import { labelBox, nodeById, type Picture, type PlacedNode, type PlacedWire } from './picture.ts';
import type { Point } from './elk.ts';

/** What stands this close to the line, mm, stands at its far side. */
const AT = 1e-6;

/** All that begins at `x` or after it goes `dx` mm towards the tail; what reaches across stays, and wires from it get longer. */
export function widened(picture: Picture, x: number, dx: number): Picture {
  const beyond = (at: number): boolean => at >= x - AT;
  const moved = (point: Point): Point => (beyond(point.x) ? { x: point.x + dx, y: point.y } : point);
  const moves = new Set(picture.nodes.filter((n) => beyond(n.x)).map((n) => n.node.id));
  return {
    nodes: picture.nodes.map((n) => (moves.has(n.node.id) ? { ...n, x: n.x + dx } : n)),
    wires: picture.wires.map((wire) => {
      if (!wire.points.some((point) => beyond(point.x))) return wire;
      const points = withEnds(wire, (point, node) =>
        node === null || moves.has(node) ? moved(point) : point,
      );
      const { left } = labelBox(wire);
      const label = beyond(left) ? { x: wire.label.x + dx, y: wire.label.y } : wire.label;
      return { ...wire, points, label };
    }),
  };
}

/** Its corners; of the first and the last it is told at which part they stand. */
function withEnds(
  { edge, points }: PlacedWire,
  move: (point: Point, node: Id | null) => Point,
): readonly Point[] {
  const nodeAt = (i: number): Id | null =>
    i === 0 ? edge.source.node : i === points.length - 1 ? edge.target.node : null;
  return points.map((point, i) => move(point, nodeAt(i)));
}

/**
 * All that has its axis at `y` or below it goes down by `dy` mm; bars and boxes with ends on both sides of it get longer, and so
 * does `longest`, wherever its ends are.
 */
export function heightened(picture: Picture, y: number, dy: number, longest: Id | null = null): Picture {
  const beyond = (at: number): boolean => at >= y - AT;
  const moved = (point: Point): Point => (beyond(point.y) ? { x: point.x, y: point.y + dy } : point);
  return {
    nodes: picture.nodes.map((placed) => {
      const heights = axesOf(placed);
      if (placed.node.id === longest) return longer(placed, beyond, dy);
      if (heights.every(beyond)) return { ...placed, y: placed.y + dy };
      return heights.some(beyond) ? longer(placed, beyond, dy) : placed;
    }),
    wires: picture.wires.map((wire) =>
      wire.points.some((point) => beyond(point.y))
        ? { ...wire, points: wire.points.map(moved), label: moved(wire.label) }
        : wire,
    ),
  };
}

/** Heights of its ends; of a part without any its middle. */
export const axesOf = ({ y, frame }: PlacedNode): readonly number[] =>
  frame.ports.size === 0 ? [y + frame.height / 2] : [...frame.ports.values()].map((at) => y + at);

function longer(placed: PlacedNode, beyond: (y: number) => boolean, dy: number): PlacedNode {
  const { frame, y } = placed;
  const ports = new Map([...frame.ports].map(([id, at]) => [id, beyond(y + at) ? at + dy : at]));
  const core = { ...frame.core, height: frame.core.height + dy };
  return { ...placed, frame: { ...frame, height: frame.height + dy, ports, core } };
}

/** How much more a part takes, mm; less than nothing where it takes less. */
export interface Growth {
  readonly up: number;
  readonly down: number;
  /** Towards the tail, never less than nothing. */
  readonly wider: number;
  /** Its frame as it will be, for where the symbol then stands. */
  readonly frame: Frame;
}

/** The picture with one part grown where it stands; null where a wire leaves it too soon for that. */
export function grown(picture: Picture, id: Id, growth: Growth): Picture | null {
  const placed = nodeById(picture).get(id);
  if (placed === undefined) return null;
  const now = withGrowth(placed, growth);
  const east = new Set(placed.node.east.map(portId));
  const wires = picture.wires.map((wire) => stretchedTo(wire, east, growth.wider));
  if (wires.includes(null)) return null;
  return {
    nodes: picture.nodes.map((n) => (n === placed ? now : n)),
    wires: wires.filter((wire) => wire !== null),
  };
}

function withGrowth(placed: PlacedNode, { up, down, wider, frame }: Growth): PlacedNode {
  const was = placed.frame;
  const across = wider > 0 ? { x: frame.core.x, width: frame.core.width } : {};
  return {
    ...placed,
    y: placed.y - up,
    frame: {
      width: was.width + wider,
      height: was.height + up + down,
      ports: new Map([...was.ports].map(([id, at]) => [id, at + up])),
      core: { ...was.core, ...across, y: was.core.y + up },
    },
  };
}

/** An end at one of these ports stands `dx` further towards the tail; null: its first run is too short. */
function stretchedTo(wire: PlacedWire, ports: ReadonlySet<string>, dx: number): PlacedWire | null {
  const at = (port: Port): boolean => ports.has(portId(port));
  const { points } = wire;
  const ends = [
    ...(at(wire.edge.source.port) ? [[0, 1] as const] : []),
    ...(at(wire.edge.target.port) ? [[points.length - 1, points.length - 2] as const] : []),
  ];
  if (ends.length === 0 || dx === 0) return wire;
  if (ends.some(([end, next]) => (points[next]?.x ?? 0) < (points[end]?.x ?? 0) + dx + AT)) return null;
  const moves = new Set(ends.map(([end]) => end));
  return { ...wire, points: points.map((p, i) => (moves.has(i) ? { x: p.x + dx, y: p.y } : p)) };
}
