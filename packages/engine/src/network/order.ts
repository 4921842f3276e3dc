/**
 * Order of elimination for star-mesh reduction, worked out once per topology.
 *
 * Nodes that no device touches go first, save for a few hubs; then the nodes of the devices (ports) and those hubs, the
 * reference last. Within each group the order is taken in rounds of mutually independent nodes of least degree, which keeps
 * fill low and chains short.
 */

/** Which slot (merged branch) belongs to which step of the elimination, and where products of slots go. */
export interface Elimination {
  readonly nodeCount: number;
  /** Position at which the ports and hubs begin: steps before it never see a device. */
  readonly firstPort: number;
  /** Position -> node, and node -> position. The reference has the last position. */
  readonly nodeAt: Int32Array;
  readonly positionOf: Int32Array;
  /** Slots of position k are `start[k] .. start[k + 1]`; `column[slot]` is the later position that the slot leads to. */
  readonly start: Int32Array;
  readonly column: Int32Array;
  readonly slotCount: number;
  /** For each step the slots that receive its products, for pairs of its slots in reading order. */
  readonly target: Int32Array;
  /** Runs of equal degree: degree, first position, end position, first index into `target`. */
  readonly runs: Int32Array;
  /** Number of runs before the ports begin. */
  readonly portRun: number;
  /** Slot of each edge handed in; -1 where both ends are the same node. */
  readonly slotOfEdge: Int32Array;
}

function neighbours(nodeCount: number, edges: Int32Array): Set<number>[] {
  const adjacent: Set<number>[] = [];
  for (let node = 0; node < nodeCount; node += 1) adjacent.push(new Set());
  for (let i = 0; i < edges.length; i += 2) {
    const a = edges[i]!;
    const b = edges[i + 1]!;
    if (a === b) continue;
    adjacent[a]!.add(b);
    adjacent[b]!.add(a);
  }
  return adjacent;
}

/** Next round: independent nodes of degree <= 2, or of the least degree when there are none so low. */
function nextRound(candidates: readonly number[], adjacent: readonly Set<number>[]): number[] {
  let least = Infinity;
  for (const node of candidates) least = Math.min(least, adjacent[node]!.size);
  const limit = Math.max(2, least);
  const barred = new Set<number>();
  const chosen: number[] = [];
  for (let degree = 0; degree <= limit; degree += 1) {
    for (const node of candidates) {
      if (adjacent[node]!.size !== degree || barred.has(node)) continue;
      chosen.push(node);
      for (const other of adjacent[node]!) barred.add(other);
    }
  }
  return chosen;
}

/** Takes a node out: its neighbours become pairwise adjacent. */
function eliminate(node: number, adjacent: readonly Set<number>[]): number[] {
  const around = [...adjacent[node]!];
  for (const a of around) {
    adjacent[a]!.delete(node);
    for (const b of around) if (a !== b) adjacent[a]!.add(b);
  }
  return around;
}

interface Sequence {
  readonly order: number[];
  readonly around: number[][];
  readonly firstPort: number;
}

/** A node of more neighbours than this may join more of them than it takes away: a hub. */
const PLAIN_DEGREE = 3;
/** Times that a circuit's ports are factored for one operating point, and columns solved for each time; usual values. */
const TIMES = 3;
const COLUMNS = 4;

/** Steps taken so far, and what is left of the network. */
class Reduction {
  readonly order: number[];
  readonly around: number[][];
  private readonly adjacent: Set<number>[];

  constructor(adjacent: Set<number>[], from?: Reduction) {
    this.adjacent = adjacent;
    this.order = from === undefined ? [] : from.order.slice();
    this.around = from === undefined ? [] : from.around.slice();
  }

  copy(): Reduction {
    return new Reduction(
      this.adjacent.map((others) => new Set(others)),
      this,
    );
  }

  isHub(node: number): boolean {
    return this.adjacent[node]!.size > PLAIN_DEGREE;
  }

  /** Takes out one round of these nodes; returns the others. */
  round(from: readonly number[]): number[] {
    const round = nextRound(from, this.adjacent);
    const gone = new Set(round);
    for (const node of round) {
      this.order.push(node);
      this.around.push(eliminate(node, this.adjacent));
    }
    return from.filter((node) => !gone.has(node));
  }

  all(nodes: readonly number[]): void {
    for (let left = nodes; left.length > 0;) left = this.round(left);
  }

  /** Products of factoring and solving, where the steps from `firstPort` on are done again and again. */
  cost(firstPort: number): number {
    let sum = 0;
    this.around.forEach(({ length: degree }, k) => {
      const once = (degree * (degree - 1)) / 2;
      sum += k < firstPort ? once + degree : TIMES * (once + 2 * COLUMNS * degree);
    });
    return sum;
  }
}

/**
 * Nodes that no device touches first, then the ports. Few hubs may stay with the ports: taken out first they join every
 * port to every other, which costs more than a few more steps in all but small networks.
 */
function sequence(reference: number, adjacent: Set<number>[], isPort: Uint8Array): Sequence {
  let plain: number[] = [];
  const ports: number[] = [];
  for (let node = 0; node < adjacent.length; node += 1) {
    if (node === reference) continue;
    if (isPort[node] === 1) ports.push(node);
    else plain.push(node);
  }
  const start = new Reduction(adjacent);
  while (plain.length > 0 && (plain.length > ports.length || !plain.every((node) => start.isHub(node)))) {
    plain = start.round(plain);
  }
  let best = start;
  let firstPort = start.order.length;
  if (plain.length > 0) {
    const first = start.copy();
    first.all(plain);
    const after = first.order.length;
    first.all(ports);
    start.all([...ports, ...plain]);
    if (first.cost(after) <= start.cost(firstPort)) {
      best = first;
      firstPort = after;
    }
  } else start.all(ports);
  return { order: [...best.order, reference], around: [...best.around, []], firstPort };
}

function runsOf(
  start: Int32Array,
  nodeCount: number,
  firstPort: number,
): { runs: Int32Array; portRun: number } {
  const runs: number[] = [];
  let portRun = 0;
  let target = 0;
  for (let k = 0; k < nodeCount; k += 1) {
    const degree = start[k + 1]! - start[k]!;
    const last = runs.length - 4;
    if (k === firstPort) portRun = runs.length / 4;
    if (last >= 0 && runs[last] === degree && k !== firstPort) runs[last + 2] = k + 1;
    else runs.push(degree, k, k + 1, target);
    target += (degree * (degree - 1)) / 2;
  }
  return { runs: Int32Array.from(runs), portRun };
}

/**
 * Works out the elimination of a network.
 *
 * @param edges node pairs, two entries each; parallel edges share a slot
 * @param isPort 1 for each node that a device touches
 */
export function planElimination(
  nodeCount: number,
  reference: number,
  edges: Int32Array,
  isPort: Uint8Array,
): Elimination {
  const { order, around, firstPort } = sequence(reference, neighbours(nodeCount, edges), isPort);
  const positionOf = new Int32Array(nodeCount);
  order.forEach((node, position) => {
    positionOf[node] = position;
  });
  const start = new Int32Array(nodeCount + 1);
  const column: number[] = [];
  const slotAt = new Map<number, number>();
  around.forEach((nodes, position) => {
    const later = nodes.map((node) => positionOf[node]!).toSorted((a, b) => a - b);
    for (const other of later) {
      slotAt.set(position * nodeCount + other, column.length);
      column.push(other);
    }
    start[position + 1] = column.length;
  });
  const slotBetween = (a: number, b: number): number =>
    slotAt.get(Math.min(a, b) * nodeCount + Math.max(a, b)) ?? -1;
  const target: number[] = [];
  for (let k = 0; k < nodeCount; k += 1) {
    for (let e = start[k]!; e < start[k + 1]!; e += 1) {
      for (let h = e + 1; h < start[k + 1]!; h += 1) {
        const slot = slotBetween(column[e]!, column[h]!);
        // The loops of the module do not look whether a place is one.
        if (slot < 0) throw new Error(`no slot between the neighbours of step ${k}`);
        target.push(slot);
      }
    }
  }
  const slotOfEdge = new Int32Array(edges.length / 2);
  for (let i = 0; i < slotOfEdge.length; i += 1) {
    const a = positionOf[edges[2 * i]!]!;
    const b = positionOf[edges[2 * i + 1]!]!;
    slotOfEdge[i] = a === b ? -1 : slotBetween(a, b);
  }
  return {
    nodeCount,
    firstPort,
    nodeAt: Int32Array.from(order),
    positionOf,
    start,
    column: Int32Array.from(column),
    slotCount: column.length,
    target: Int32Array.from(target),
    ...runsOf(start, nodeCount, firstPort),
    slotOfEdge,
  };
}
