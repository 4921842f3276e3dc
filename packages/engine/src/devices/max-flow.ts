/**
 * Greatest flow through a network of capacities: the sustained current that protective devices allow into a wire. Shortest
 * augmenting paths (Edmonds and Karp 1972), exact up to rounding on the small graphs of a vehicle.
 */

/** A link of which each direction takes at most `capacity` (Infinity: a bare conductor). */
export interface FlowLink {
  readonly a: string;
  readonly b: string;
  readonly capacity: number;
  /** Only from a to b (a source, a diode). */
  readonly oneWay?: boolean;
}

export interface Flow {
  /** Infinity when nothing limits it. */
  readonly total: number;
  /** Indexes of the links that together limit it (a least cut nearest the source); empty when nothing does. */
  readonly limiting: readonly number[];
}

interface Arc {
  readonly to: number;
  room: number;
  /** Index of the arc back. */
  readonly back: number;
  readonly link: number;
}

/** Less than this is rounding. */
const NOTHING = 1e-9;

/** The greatest flow from `source` to `sink`; both may be absent from the links (flow 0). Capacities are at least 0. */
export function maxFlow(links: readonly FlowLink[], source: string, sink: string): Flow {
  const graph = makeGraph(links, source, sink);
  if (source === sink) return { total: Infinity, limiting: [] };
  let total = 0;
  for (;;) {
    const path = shortestPath(graph.arcs, graph.from, graph.to);
    if (path === null) break;
    const step = Math.min(...path.map((arc) => arc.room));
    if (step === Infinity) return { total: Infinity, limiting: [] };
    push(graph, path, step);
    total += step;
  }
  return { total, limiting: cut(graph, links) };
}

interface Graph {
  readonly arcs: Arc[][];
  readonly from: number;
  readonly to: number;
  readonly index: ReadonlyMap<string, number>;
}

function makeGraph(links: readonly FlowLink[], source: string, sink: string): Graph {
  const index = new Map<string, number>();
  const arcs: Arc[][] = [];
  const node = (name: string): number => {
    const known = index.get(name);
    if (known !== undefined) return known;
    index.set(name, arcs.length);
    arcs.push([]);
    return arcs.length - 1;
  };
  const from = node(source);
  const to = node(sink);
  links.forEach((link, i) => {
    const a = node(link.a);
    const b = node(link.b);
    if (a === b) return;
    const there = arcs[a] ?? [];
    const back = arcs[b] ?? [];
    there.push({ to: b, room: link.capacity, back: back.length, link: i });
    back.push({ to: a, room: link.oneWay === true ? 0 : link.capacity, back: there.length - 1, link: i });
  });
  return { arcs, from, to, index };
}

function push(graph: Graph, path: readonly Arc[], step: number): void {
  for (const arc of path) {
    arc.room -= step;
    const back = graph.arcs[arc.to]?.[arc.back];
    if (back !== undefined) back.room += step;
  }
}

/** Breadth first; the arcs of the way, or null. */
function shortestPath(arcs: readonly Arc[][], from: number, to: number): readonly Arc[] | null {
  const came = reach(arcs, from);
  if (!came.has(to)) return null;
  const path: Arc[] = [];
  for (let at = to; at !== from;) {
    const step = came.get(at);
    if (step === undefined) return null;
    path.push(step.arc);
    at = step.from;
  }
  return path;
}

type Came = Map<number, { readonly from: number; readonly arc: Arc } | undefined>;

/** All nodes that can still be reached, with the arc by which each was. */
function reach(arcs: readonly Arc[][], from: number): Came {
  const came: Came = new Map([[from, undefined]]);
  const queue = [from];
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    for (const arc of arcs[at] ?? []) {
      if (arc.room <= NOTHING || came.has(arc.to)) continue;
      came.set(arc.to, { from: at, arc });
      queue.push(arc.to);
    }
  }
  return came;
}

function cut(graph: Graph, links: readonly FlowLink[]): readonly number[] {
  const reached = reach(graph.arcs, graph.from);
  const inside = (name: string): boolean => reached.has(graph.index.get(name) ?? -1);
  const crosses = (link: FlowLink): boolean =>
    link.oneWay === true ? inside(link.a) && !inside(link.b) : inside(link.a) !== inside(link.b);
  return links.flatMap((link, i) => (crosses(link) ? [i] : []));
}
