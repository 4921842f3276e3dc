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

/** Less than this is rounding. */
const NOTHING = 1e-9;

/** The greatest flow from `source` to `sink`; both may be absent from the links (flow 0). Capacities are at least 0. */
export const maxFlow = (links: readonly FlowLink[], source: string, sink: string): Flow =>
  new FlowNet(links).flow(source, sink);

/** Stands for the arc by which the source was reached. */
const START = 0x7fffffff;

const NONE: ReadonlySet<number> = new Set();

/** Links prepared for many questions. Link i is the arcs 2i, as it is written, and 2i + 1, back. */
export class FlowNet {
  readonly #links: readonly FlowLink[];
  readonly #index = new Map<string, number>();
  /** Arcs that leave each node, in the order of the links. */
  readonly #leaving: number[][] = [];
  readonly #to: Int32Array;
  readonly #room: Float64Array;
  /** The arc by which each node was reached last; -1: not reached. */
  #came = new Int32Array(0);
  /** Nodes in the order in which they are reached. */
  #queue = new Int32Array(0);

  constructor(links: readonly FlowLink[]) {
    this.#links = links;
    this.#to = new Int32Array(2 * links.length);
    this.#room = new Float64Array(2 * links.length);
    links.forEach((link, i) => {
      const a = this.#node(link.a);
      const b = this.#node(link.b);
      this.#to[2 * i] = b;
      this.#to[2 * i + 1] = a;
      if (a === b) return;
      this.#leaving[a]?.push(2 * i);
      this.#leaving[b]?.push(2 * i + 1);
    });
  }

  #node(name: string): number {
    const known = this.#index.get(name);
    if (known !== undefined) return known;
    this.#index.set(name, this.#leaving.length);
    this.#leaving.push([]);
    return this.#leaving.length - 1;
  }

  /** The greatest flow from `source` to `sink` without the links of these indexes. */
  flow(source: string, sink: string, without: ReadonlySet<number> = NONE): Flow {
    const from = this.#node(source);
    const to = this.#node(sink);
    if (source === sink) return { total: Infinity, limiting: [] };
    this.#open(without);
    let total = 0;
    while (this.#reach(from, to)) {
      const step = this.#push(from, to);
      if (step === Infinity) return { total: Infinity, limiting: [] };
      total += step;
    }
    return { total, limiting: this.#cut(without) };
  }

  #open(without: ReadonlySet<number>): void {
    const room = this.#room;
    for (let i = 0; i < this.#links.length; i += 1) {
      const link = this.#links[i];
      const there = link === undefined || without.has(i) ? 0 : link.capacity;
      room[2 * i] = there;
      room[2 * i + 1] = link?.oneWay === true ? 0 : there;
    }
  }

  /** Breadth first, to the goal or to all that can still be reached; true when that holds the goal. */
  #reach(from: number, to: number): boolean {
    if (this.#came.length !== this.#leaving.length) {
      this.#came = new Int32Array(this.#leaving.length);
      this.#queue = new Int32Array(this.#leaving.length);
    }
    const came = this.#came.fill(-1);
    const queue = this.#queue;
    came[from] = START;
    queue[0] = from;
    let reached = 1;
    for (let i = 0; i < reached; i += 1) {
      const at = queue[i] ?? from;
      for (const arc of this.#leaving[at] ?? []) {
        const next = this.#to[arc] ?? from;
        if ((this.#room[arc] ?? 0) <= NOTHING || came[next] !== -1) continue;
        came[next] = arc;
        if (next === to) return true;
        queue[reached] = next;
        reached += 1;
      }
    }
    return false;
  }

  /** Sends along the way found what its narrowest arc takes; Infinity: nothing limits it. */
  #push(from: number, to: number): number {
    const way: number[] = [];
    for (let at = to; at !== from;) {
      const arc = this.#came[at] ?? 0;
      way.push(arc);
      at = this.#to[arc ^ 1] ?? from;
    }
    const step = way.reduce((least, arc) => Math.min(least, this.#room[arc] ?? 0), Infinity);
    if (step === Infinity) return step;
    for (const arc of way) {
      this.#room[arc] = (this.#room[arc] ?? 0) - step;
      this.#room[arc ^ 1] = (this.#room[arc ^ 1] ?? 0) + step;
    }
    return step;
  }

  /** Links that lead out of what is still reached. */
  #cut(without: ReadonlySet<number>): readonly number[] {
    const inside = (arc: number): boolean => this.#came[this.#to[arc] ?? 0] !== -1;
    const found: number[] = [];
    this.#links.forEach(({ oneWay }, i) => {
      if (without.has(i)) return;
      // The arc back leads to the link's beginning.
      const [from, to] = [inside(2 * i + 1), inside(2 * i)];
      if (oneWay === true ? from && !to : from !== to) found.push(i);
    });
    return found;
  }
}
