/**
 * Elastic pitch: two wire ends at one side of a hub stand as far apart as what hangs on the upper wire below it and on the lower
 * wire above it needs, along a chain of parts in line up to the next hub. Then fuse, label and load lie in one straight row.
 */
import type { Id } from '../../contracts/index.ts';
import { frameOf, LEAST_LUG, LEAST_PITCH, reach, type Pitch } from './frame.ts';
import { portId, type Edge, type Node, type Port, type SheetModel } from './model.ts';

interface Reach {
  readonly up: number;
  readonly down: number;
}

/** What to look up in a model by port and by node. */
export interface Joined {
  readonly nodes: ReadonlyMap<Id, Node>;
  readonly edgeAt: ReadonlyMap<string, Edge>;
}

export function joinedOf(model: SheetModel): Joined {
  return {
    nodes: new Map(model.nodes.map((node) => [node.id, node])),
    edgeAt: new Map(
      model.edges.flatMap((edge) => [
        [portId(edge.source.port), edge] as const,
        [portId(edge.target.port), edge] as const,
      ]),
    ),
  };
}

/** Pitches of a node's sides; `air` mm are left between what hangs on neighbouring wires. */
export function pitchOf(node: Node, joined: Joined, air: number): Pitch {
  return { west: side(node.west, joined, air), east: side(node.east, joined, air) };
}

function side(ports: readonly Port[], joined: Joined, air: number): readonly number[] {
  const reaches = ports.map((port) => along(port, joined));
  return ports.map((port, i) => {
    const before = ports[i - 1];
    if (before === undefined) return 0;
    const least = before.terminal === port.terminal ? LEAST_LUG : LEAST_PITCH;
    return Math.max(least, (reaches[i - 1]?.down ?? 0) + (reaches[i]?.up ?? 0) + air);
  });
}

function along(port: Port, joined: Joined): Reach {
  let up = 0;
  let down = 0;
  const seen = new Set<string>();
  for (let here: Port | undefined = port; here !== undefined;) {
    const edge: Edge | undefined = joined.edgeAt.get(portId(here));
    if (edge === undefined || seen.has(edge.wire.id)) break;
    seen.add(edge.wire.id);
    up = Math.max(up, edge.label.up);
    down = Math.max(down, edge.label.down);
    const far: { readonly node: Id; readonly port: Port } =
      portId(edge.source.port) === portId(here) ? edge.target : edge.source;
    const node = joined.nodes.get(far.node);
    const own = node === undefined ? null : ownReach(node, far.port);
    if (node === undefined || own === null) break;
    up = Math.max(up, own.up);
    down = Math.max(down, own.down);
    here =
      node.shape === 'inline'
        ? [...node.west, ...node.east].find((p) => portId(p) !== portId(far.port))
        : undefined;
  }
  return { up, down };
}

/** Of an inline or round part what it takes; of a small hub, too; a hub with several wires stands where it must. */
function ownReach(node: Node, port: Port): Reach | null {
  const own = reach(node);
  if (own !== null) return own;
  if (node.west.length > 1 || node.east.length > 1) return null;
  const frame = frameOf(node, { west: [], east: [] });
  const y = frame.ports.get(portId(port)) ?? 0;
  return { up: y, down: frame.height - y };
}
