/**
 * Lays wires between parts that stand where they must: shortest way on a lattice, level and upright, round parts and labels, not
 * along other wires, with bends and crossings paid for.
 */
import type { Box } from '../sheet/picture.ts';
import type { Point } from '../sheet/elk.ts';

/** What a bend and a crossing may cost in length, mm. */
const BEND = 8;
const CROSSING = 40;
/** Distance kept from parts, from labels, from wires that run the same way, mm. */
const FROM_PART = 1.4;
const FROM_LABEL = 0.5;
const FROM_WIRE = 1.9;
const STEP = 2.5;

export interface Field {
  readonly bounds: Box;
  readonly parts: readonly Box[];
  readonly labels: readonly Box[];
  /** Wires that lie already. */
  readonly wires: readonly (readonly Point[])[];
}

export interface RouteEnd extends Point {
  /** It leaves its part this way. */
  readonly way: -1 | 1;
}

/** Corners from one end to the other; null when there is no way. */
export function route(field: Field, from: RouteEnd, to: RouteEnd): readonly Point[] | null {
  const grid = new Grid(field, [from, to]);
  const start = grid.stub(from);
  const goal = grid.stub(to);
  if (start === null || goal === null) return null;
  const inner = grid.search(start, goal);
  return inner === null ? null : [from, ...inner, to];
}

const sorted = (values: Iterable<number>): readonly number[] =>
  [...new Set(values)].toSorted((a, b) => a - b);

function lattice(from: number, to: number, extra: readonly number[]): readonly number[] {
  const lines: number[] = [];
  for (let at = Math.ceil(from / STEP) * STEP; at <= to; at += STEP) {
    // A line of the lattice that would run a hair beside one that is needed gives way.
    if (extra.every((each) => Math.abs(each - at) > 0.6 || each === at)) lines.push(at);
  }
  return sorted([...lines, ...extra]);
}

class Grid {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly #field: Field;
  /** Level step from column i to i + 1, upright step from row j to j + 1: not allowed, or crossings on it. */
  readonly #shutLevel: Uint8Array;
  readonly #shutUpright: Uint8Array;
  readonly #crossLevel: Uint8Array;
  readonly #crossUpright: Uint8Array;

  constructor(field: Field, ends: readonly RouteEnd[]) {
    const { bounds } = field;
    this.#field = field;
    this.xs = lattice(bounds.left, bounds.right, []);
    this.ys = lattice(bounds.top, bounds.bottom, sorted(ends.map((end) => end.y)));
    const size = this.xs.length * this.ys.length;
    this.#shutLevel = new Uint8Array(size);
    this.#shutUpright = new Uint8Array(size);
    this.#crossLevel = new Uint8Array(size);
    this.#crossUpright = new Uint8Array(size);
    for (const box of field.parts) this.#shut(grown(box, FROM_PART));
    for (const box of field.labels) this.#shut(grown(box, FROM_LABEL));
    for (const points of field.wires) this.#lay(points);
  }

  #at(i: number, j: number): number {
    return j * this.xs.length + i;
  }

  #shut(box: Box): void {
    this.#each(box, (i, j, levelIn, uprightIn) => {
      if (levelIn) this.#shutLevel[this.#at(i, j)] = 1;
      if (uprightIn) this.#shutUpright[this.#at(i, j)] = 1;
    });
  }

  /** Steps that touch a box. */
  #each(box: Box, mark: (i: number, j: number, levelIn: boolean, uprightIn: boolean) => void): void {
    const { xs, ys } = this;
    for (let j = 0; j < ys.length; j += 1) {
      const [y, below] = [ys[j] ?? 0, ys[j + 1] ?? Infinity];
      if (y > box.bottom || below < box.top) continue;
      for (let i = 0; i < xs.length; i += 1) {
        const [x, next] = [xs[i] ?? 0, xs[i + 1] ?? Infinity];
        if (x > box.right || next < box.left) continue;
        mark(i, j, y > box.top && y < box.bottom, x > box.left && x < box.right);
      }
    }
  }

  /** Along a wire nothing may run; across it costs. */
  #lay(points: readonly Point[]): void {
    points.slice(1).forEach((b, k) => {
      const a = points[k] ?? b;
      const level = Math.abs(a.y - b.y) < 1e-6;
      const span = {
        left: Math.min(a.x, b.x),
        right: Math.max(a.x, b.x),
        top: Math.min(a.y, b.y),
        bottom: Math.max(a.y, b.y),
      };
      this.#each(grown(span, FROM_WIRE), (i, j, levelIn, uprightIn) => {
        const at = this.#at(i, j);
        if (level ? levelIn : false) this.#shutLevel[at] = 1;
        if (level ? false : uprightIn) this.#shutUpright[at] = 1;
      });
      this.#each(span, (i, j) => {
        const at = this.#at(i, j);
        if (level && inside(this.xs[i] ?? 0, span.left, span.right))
          this.#crossUpright[at] = (this.#crossUpright[at] ?? 0) + 1;
        if (!level && inside(this.ys[j] ?? 0, span.top, span.bottom))
          this.#crossLevel[at] = (this.#crossLevel[at] ?? 0) + 1;
      });
    });
  }

  /** The first point of the lattice straight out of a part; null when something stands in the way. */
  stub(end: RouteEnd): number | null {
    const j = this.ys.indexOf(end.y);
    const clear = end.x + end.way * (FROM_PART + 0.01);
    const i = end.way > 0 ? this.xs.findIndex((x) => x >= clear) : this.xs.findLastIndex((x) => x <= clear);
    if (i < 0 || j < 0) return null;
    const box = {
      left: Math.min(end.x, this.xs[i] ?? 0),
      right: Math.max(end.x, this.xs[i] ?? 0),
      top: end.y,
      bottom: end.y,
    };
    const own = (part: Box): boolean =>
      Math.abs((end.way > 0 ? part.right : part.left) - end.x) < 0.01 &&
      part.top <= end.y &&
      part.bottom >= end.y;
    const free = [...this.#field.parts.filter((part) => !own(part)), ...this.#field.labels].every(
      (each) => !touches(box, grown(each, 0.3)),
    );
    return free ? this.#at(i, j) : null;
  }

  /** Dijkstra over points and the way they were come to. */
  search(start: number, goal: number): readonly Point[] | null {
    const width = this.xs.length;
    const best = new Float64Array(2 * width * this.ys.length).fill(Infinity);
    const from = new Int32Array(best.length).fill(-1);
    const heap = new Heap();
    const first = 2 * start;
    best[first] = 0;
    heap.push(0, first);
    for (let here = heap.pop(); here !== null; here = heap.pop()) {
      const at = here.key >> 1;
      const came = here.key & 1;
      if (here.cost > (best[here.key] ?? 0)) continue;
      // Both ends are entered and left level.
      if (at === goal && came === 0) return this.#way(from, here.key);
      for (const step of this.#steps(at)) {
        const key = 2 * step.to + step.upright;
        const cost = here.cost + step.cost + (step.upright === came ? 0 : BEND);
        if (cost >= (best[key] ?? 0)) continue;
        best[key] = cost;
        from[key] = here.key;
        heap.push(cost, key);
      }
    }
    return null;
  }

  #steps(at: number): readonly { readonly to: number; readonly upright: 0 | 1; readonly cost: number }[] {
    const width = this.xs.length;
    const [i, j] = [at % width, Math.floor(at / width)];
    const steps: { to: number; upright: 0 | 1; cost: number }[] = [];
    const level = (edge: number, to: number, length: number): void => {
      if (this.#shutLevel[edge] === 0)
        steps.push({ to, upright: 0, cost: length + CROSSING * (this.#crossLevel[edge] ?? 0) });
    };
    const upright = (edge: number, to: number, length: number): void => {
      if (this.#shutUpright[edge] === 0)
        steps.push({ to, upright: 1, cost: length + CROSSING * (this.#crossUpright[edge] ?? 0) });
    };
    const [x, y] = [this.xs[i] ?? 0, this.ys[j] ?? 0];
    if (i + 1 < width) level(at, at + 1, (this.xs[i + 1] ?? 0) - x);
    if (i > 0) level(at - 1, at - 1, x - (this.xs[i - 1] ?? 0));
    if (j + 1 < this.ys.length) upright(at, at + width, (this.ys[j + 1] ?? 0) - y);
    if (j > 0) upright(at - width, at - width, y - (this.ys[j - 1] ?? 0));
    return steps;
  }

  #way(from: Int32Array, end: number): readonly Point[] {
    const points: Point[] = [];
    for (let key = end; key >= 0; key = from[key] ?? -1) {
      const at = key >> 1;
      points.unshift({
        x: this.xs[at % this.xs.length] ?? 0,
        y: this.ys[Math.floor(at / this.xs.length)] ?? 0,
      });
    }
    return points;
  }
}

const grown = (box: Box, by: number): Box => ({
  left: box.left - by,
  right: box.right + by,
  top: box.top - by,
  bottom: box.bottom + by,
});
const touches = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
const inside = (x: number, from: number, to: number): boolean => x > from + 0.01 && x < to - 0.01;

/** Least cost first; equal costs by key, so that the same field always gives the same way. */
class Heap {
  readonly #list: { readonly cost: number; readonly key: number }[] = [];

  push(cost: number, key: number): void {
    const list = this.#list;
    list.push({ cost, key });
    for (let i = list.length - 1; i > 0;) {
      const parent = (i - 1) >> 1;
      if (!this.#less(i, parent)) break;
      this.#swap(i, parent);
      i = parent;
    }
  }

  pop(): { readonly cost: number; readonly key: number } | null {
    const list = this.#list;
    const top = list[0];
    const last = list.pop();
    if (top === undefined || last === undefined) return null;
    if (list.length > 0) {
      list[0] = last;
      this.#sink();
    }
    return top;
  }

  #sink(): void {
    const { length } = this.#list;
    for (let i = 0; ;) {
      let least = i;
      for (const child of [2 * i + 1, 2 * i + 2])
        if (child < length && this.#less(child, least)) least = child;
      if (least === i) return;
      this.#swap(i, least);
      i = least;
    }
  }

  #less(i: number, j: number): boolean {
    const [a, b] = [this.#list[i], this.#list[j]];
    if (a === undefined || b === undefined) return false;
    return a.cost < b.cost || (a.cost === b.cost && a.key < b.key);
  }

  #swap(i: number, j: number): void {
    const [a, b] = [this.#list[i], this.#list[j]];
    if (a === undefined || b === undefined) return;
    this.#list[i] = b;
    this.#list[j] = a;
  }
}
