/**
 * Where a fault carries nothing, whatever the resistances: every loop that it would close runs through parts that drive no
 * current. Told by which elements hang together, without solving anything.
 */
import type { ElementOf } from '../contracts/index.ts';
import { carriesNothing, type Plan } from '../network/index.ts';
import { linesOf, placeOn } from './straight-lines.ts';

/** No current passes. */
const OPEN = 0;
/** Volts and amperes have the same sign, and without volts there is no current. */
const TAKES = 1;
const DRIVES = 2;
/** A converter that gives ties two pairs of nodes: where one is, nothing is told. */
const TIES = 3;

/** How many sorts there are. */
export const SORTS = 4;

/** What an element can be to a current. */
export type Sort = typeof OPEN | typeof TAKES | typeof DRIVES | typeof TIES;

export function sortOf(e: ElementOf<number>): Sort {
  switch (e.type) {
    case 'resistor':
      return e.ohms === Infinity ? OPEN : TAKES;
    case 'power':
      return e.watts === 0 ? OPEN : e.watts > 0 ? TAKES : DRIVES;
    case 'hold':
      return e.least === 0 && e.greatest === 0 ? OPEN : DRIVES;
    case 'converter':
      return e.on ? TIES : TAKES;
    default:
      return carriesNothing(e) ? OPEN : restsAtNothing(e) ? TAKES : DRIVES;
  }
}

function restsAtNothing({ points, below, above }: ElementOf<number> & { type: 'pieces' }): boolean {
  const lines = linesOf(points, below, above);
  return lines[placeOn(lines, 0)]?.amps === 0;
}

/** Dead ends of one circuit, everything closed, by what is open in it. */
export type Opened = Map<string, DeadEnds | null>;

/** Those of circuits of one shape, by the sorts of their elements. */
const known = new WeakMap<Plan, Map<string, Opened>>();
/** So many are remembered for a shape; then all anew. */
const MOST_KNOWN = 16;

/** What is known of the dead ends of a circuit of this plan, everything closed; for all operations that have the same of it. */
export function deadEndsFor(plan: Plan, sorts: Uint8Array): Opened {
  let ofPlan = known.get(plan);
  if (ofPlan === undefined || ofPlan.size >= MOST_KNOWN) {
    ofPlan = new Map();
    known.set(plan, ofPlan);
  }
  const key = sorts.join('');
  let opened = ofPlan.get(key);
  if (opened === undefined) {
    opened = new Map();
    ofPlan.set(key, opened);
  }
  return opened;
}

/** null: they cannot be told. */
export const deadEndsOf = (
  nodeCount: number,
  shape: readonly ElementOf<number>[],
  sorts: Uint8Array,
): DeadEnds | null => (sorts.includes(TIES) ? null : new DeadEnds(nodeCount, shape, sorts));

/** An element's two nodes; of a converter that is off its input's. */
const endsOf = (e: ElementOf<number>): readonly [number, number] =>
  e.type === 'converter' ? [e.inA, e.inB] : [e.a, e.b];

/** A node on the way, the element that led to it and its place among those passed, and which of its own comes next. */
interface Step {
  readonly node: number;
  readonly by: number;
  readonly begin: number;
  next: number;
}

/** Elements that pass current, by node. */
function aroundOf(
  nodeCount: number,
  ends: readonly (readonly [number, number])[],
  sorts: Uint8Array,
): readonly (readonly number[])[] {
  const around: number[][] = Array.from({ length: nodeCount }, () => []);
  ends.forEach(([a, b], e) => {
    if (sorts[e] === OPEN || a === b) return;
    around[a]?.push(e);
    around[b]?.push(e);
  });
  return around;
}

/**
 * A circuit taken apart into its blocks: two elements are of one block where a loop runs through both. The currents of a block are
 * closed in themselves (Kirchhoff), and where nothing in it drives, no power is given, so nothing flows (Tellegen).
 */
export class DeadEnds {
  /** By node: the first node of all that hang together. */
  readonly #joined: Int32Array;
  /** By node: the next one on the way to that of all that hang together by blocks that drive nothing. */
  readonly #idle: Int32Array;
  /** 1 for each element whose block drives. */
  readonly #driven: Uint8Array;

  constructor(nodeCount: number, shape: readonly ElementOf<number>[], sorts: Uint8Array) {
    this.#joined = new Int32Array(nodeCount).fill(-1);
    this.#idle = Int32Array.from({ length: nodeCount }, (_, node) => node);
    this.#driven = new Uint8Array(sorts.length);
    this.#takeApart(nodeCount, shape, sorts);
  }

  /** True where this element carries nothing without a fault. */
  isIdle(element: number): boolean {
    return this.#driven[element] === 0;
  }

  /** True where a fault between these nodes carries nothing, and this element carries nothing then. */
  isDead(a: number, b: number, element: number): boolean {
    if (this.#driven[element] === 1) return false;
    return this.#joined[a] !== this.#joined[b] || rootOf(this.#idle, a) === rootOf(this.#idle, b);
  }

  /** Depth first from each node (Hopcroft and Tarjan); a block ends where nothing behind it leads back past its first node. */
  #takeApart(nodeCount: number, shape: readonly ElementOf<number>[], sorts: Uint8Array): void {
    const ends = shape.map(endsOf);
    const around = aroundOf(nodeCount, ends, sorts);
    const reached = new Int32Array(nodeCount);
    const back = new Int32Array(nodeCount);
    let count = 0;
    const passed: number[] = [];
    // A list of its own in place of calls in calls: a circuit may be a chain of any length.
    const walk: Step[] = [];
    const enter = (node: number, first: number, by: number): void => {
      this.#joined[node] = first;
      count += 1;
      reached[node] = count;
      back[node] = count;
      walk.push({ node, by, begin: passed.length - 1, next: 0 });
    };
    const leave = ({ node, begin }: Step): void => {
      const before = walk.at(-1)?.node;
      if (before === undefined) return;
      if ((back[node] ?? 0) >= (reached[before] ?? 0)) this.#block(passed.splice(begin), ends, sorts);
      else back[before] = Math.min(back[before] ?? 0, back[node] ?? 0);
    };
    for (let first = 0; first < nodeCount; first += 1) {
      if (reached[first] !== 0) continue;
      enter(first, first, -1);
      for (let at = walk.at(-1); at !== undefined; at = walk.at(-1)) {
        const { node, by } = at;
        const e = around[node]?.[at.next];
        at.next += 1;
        if (e === undefined) {
          walk.pop();
          leave(at);
          continue;
        }
        const [a, b] = ends[e] ?? [0, 0];
        const other = a === node ? b : a;
        const seen = reached[other] ?? 0;
        if (e === by || seen > (reached[node] ?? 0)) continue;
        passed.push(e);
        if (seen === 0) enter(other, first, e);
        else if (seen < (back[node] ?? 0)) back[node] = seen;
      }
    }
  }

  #block(elements: readonly number[], ends: readonly (readonly [number, number])[], sorts: Uint8Array): void {
    const drives = elements.some((e) => sorts[e] === DRIVES);
    for (const e of elements) {
      const [a, b] = ends[e] ?? [0, 0];
      if (drives) this.#driven[e] = 1;
      else this.#idle[rootOf(this.#idle, a)] = rootOf(this.#idle, b);
    }
  }
}

function rootOf(next: Int32Array, node: number): number {
  let at = node;
  for (let up = next[at] ?? at; up !== at; up = next[at] ?? at) {
    next[at] = next[up] ?? up;
    at = next[at] ?? up;
  }
  return at;
}
