/** Volts between pairs of nodes in all outcomes: looked up once and found once for each pair. */
import type { MostVolts, VoltsOver } from '../contracts/index.ts';
import type { Point, Segment } from '../network/index.ts';
import type { SolvedRun } from './solved.ts';

/** Volts of one node in the points of all outcomes, with its island there. */
interface Row {
  readonly volts: Float64Array;
  readonly islands: Int32Array;
}

/** As `voltsBetween` at one point; NaN: they share no path. */
const difference = (from: Row, to: Row, at: number): number =>
  from.islands[at] === to.islands[at] ? (from.volts[at] ?? 0) - (to.volts[at] ?? 0) : Number.NaN;

export class VoltsTable {
  readonly #all: readonly SolvedRun[];
  /** The points of all outcomes, one after the other. */
  readonly #points: readonly Point[];
  /** Where the points of each outcome begin; last where they end. */
  readonly #begin: Int32Array;
  /** How long each point lasts, ms. */
  readonly #lasts: readonly number[];
  /** Outcomes in which something changes. */
  readonly #changing: readonly number[];
  readonly #rows = new Map<number, Row>();
  readonly #pairs = new Map<string, VoltsOver>();

  constructor(all: readonly SolvedRun[]) {
    this.#all = all;
    this.#begin = new Int32Array(all.length + 1);
    const segments: Segment<Point>[] = [];
    all.forEach(({ run }, i) => {
      segments.push(...run.outcome.segments);
      this.#begin[i + 1] = segments.length;
    });
    this.#points = segments.map((s) => s.point);
    this.#lasts = segments.map((s) => s.durationMs);
    this.#changing = all.flatMap((_solved, i) => (this.#isOne(i) ? [] : [i]));
  }

  #isOne(outcome: number): boolean {
    return (this.#begin[outcome + 1] ?? 0) - (this.#begin[outcome] ?? 0) === 1;
  }

  between(a: number, b: number): VoltsOver {
    const key = `${a} ${b}`;
    let volts = this.#pairs.get(key);
    if (volts === undefined) {
      volts = this.#read(a, b);
      this.#pairs.set(key, volts);
    }
    return volts;
  }

  #read(a: number, b: number): VoltsOver {
    const mean = new Float64Array(this.#all.length);
    if (a < 0 || b < 0) {
      mean.fill(Number.NaN);
      return { mean, least: mean, greatest: mean };
    }
    const [from, to] = [this.#row(a), this.#row(b)];
    const [high, low, here, there] = [from.volts, to.volts, from.islands, to.islands];
    const begin = this.#begin;
    for (let i = 0; i < mean.length; i += 1) {
      const k = begin[i]!;
      mean[i] = here[k] === there[k] ? high[k]! - low[k]! : Number.NaN;
    }
    if (this.#changing.length === 0) return { mean, least: mean, greatest: mean };
    const volts = { mean, least: mean.slice(), greatest: mean.slice() };
    for (const i of this.#changing) this.#over(i, from, to, volts);
    return volts;
  }

  /** As `Solved.volts` and `Solved.voltsRange`, of an outcome in which something changes. */
  #over(outcome: number, from: Row, to: Row, into: VoltsOver): void {
    const [first, end] = [this.#begin[outcome] ?? 0, this.#begin[outcome + 1] ?? 0];
    let [time, sum, last] = [0, 0, 0];
    let [least, greatest] = [Infinity, -Infinity];
    let always = true;
    for (let k = first; k < end; k += 1) {
      last = difference(from, to, k);
      if (Number.isNaN(last)) always = false;
      const lasts = this.#lasts[k] ?? 0;
      time += lasts;
      sum += lasts * last;
      if (last < least) least = last;
      if (last > greatest) greatest = last;
    }
    const shared = greatest >= least;
    into.least[outcome] = shared ? least : Number.NaN;
    into.greatest[outcome] = shared ? greatest : Number.NaN;
    into.mean[outcome] = !always ? Number.NaN : time > 0 ? sum / time : last;
  }

  /** The greatest magnitude, and the first outcome that has it. */
  most(a: number, b: number): MostVolts {
    const most = { volts: 0, place: -1 };
    if (a < 0 || b < 0 || a === b) return most;
    const [from, to] = [this.#row(a), this.#row(b)];
    const [high, low, here, there] = [from.volts, to.volts, from.islands, to.islands];
    let at = -1;
    for (let k = 0; k < high.length; k += 1) {
      if (here[k] !== there[k]) continue;
      const volts = Math.abs(high[k]! - low[k]!);
      if (volts > most.volts) {
        most.volts = volts;
        at = k;
      }
    }
    if (at >= 0) most.place = this.#outcomeOf(at);
    return most;
  }

  /** The outcome that a point belongs to: the last that begins no later. */
  #outcomeOf(point: number): number {
    let [low, high] = [0, this.#all.length];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (this.#begin[middle]! <= point) low = middle;
      else high = middle;
    }
    return low;
  }

  #row(node: number): Row {
    const known = this.#rows.get(node);
    if (known !== undefined) return known;
    const points = this.#points;
    const row = { volts: new Float64Array(points.length), islands: new Int32Array(points.length) };
    for (let k = 0; k < points.length; k += 1) {
      row.volts[k] = points[k]?.voltsAt(node) ?? 0;
      row.islands[k] = points[k]?.island[node] ?? 0;
    }
    this.#rows.set(node, row);
    return row;
  }
}
