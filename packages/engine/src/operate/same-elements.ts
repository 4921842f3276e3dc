/** Points by what they are made of: what is equal is solved once. */
import type { ElementOf } from '../contracts/index.ts';
import type { Point } from '../network/index.ts';
import type { Settled } from './run.ts';

/** All numbers of a part's elements; their types and nodes do not vary. */
export const numbersOf = (elements: readonly ElementOf<number>[]): string => elements.map(keyOf).join(';');

/** The numbers of an element; its type and nodes do not vary. */
function keyOf(e: ElementOf<number>): string {
  switch (e.type) {
    case 'resistor':
      return String(e.ohms);
    case 'pieces':
      return `${e.points.join()},${e.below},${e.above}`;
    case 'hold':
      return `${e.volts},${e.least},${e.greatest}`;
    case 'power':
      return `${e.watts},${e.knee},${e.limit}`;
    case 'converter':
      return [
        e.on,
        e.idleOhms,
        e.standbyAmps,
        e.volts,
        e.current,
        e.efficiency.join(),
        e.ratedCurrent,
        e.inputLimit,
        e.lowest,
        JSON.stringify(e.lowInput),
        e.demand,
      ].join();
    default:
      return '';
  }
}

/** Points of scenes in which all parts without memory answer alike. */
export class Alike {
  readonly #points = new Map<string, Point>();
  readonly #runs = new Map<string, Settled>();
  readonly #temperatures: Float64Array[] = [];

  point(key: string, solve: () => Point): Point {
    let point = this.#points.get(key);
    if (point === undefined) {
      point = solve();
      this.#points.set(key, point);
    }
    return point;
  }

  run(key: string, work: () => Settled): Settled {
    let run = this.#runs.get(key);
    if (run === undefined) {
      run = work();
      this.#runs.set(key, run);
    }
    return run;
  }

  /** The array of the same temperatures that was used here before, or a copy of this one. */
  same(temperatures: Float64Array): Float64Array {
    const known = this.#temperatures.find((t) => equal(t, temperatures));
    if (known !== undefined) return known;
    const own = temperatures.slice();
    this.#temperatures.push(own);
    return own;
  }

  /** Number of an array of temperatures among those used here. */
  number(temperatures: Float64Array): number {
    let i = this.#temperatures.indexOf(temperatures);
    if (i < 0) i = this.#temperatures.push(temperatures) - 1;
    return i;
  }
}

function equal(a: Float64Array, b: Float64Array): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** A machine that is asked without end forgets everything after so many different scenes. */
const MOST_SCENES = 20_000;

/** All points of a machine. */
export class KnownPoints {
  readonly #alike = new Map<number, { readonly numbers: readonly number[]; readonly alike: Alike }[]>();
  #scenes = 0;

  /** Scenes whose parts answer with these numbers. */
  of(numbers: readonly number[]): Alike {
    let hash = 0;
    for (const n of numbers) hash = (Math.imul(hash, 31) + n) | 0;
    const known = this.#alike.get(hash) ?? [];
    for (const k of known) if (sameNumbers(k.numbers, numbers)) return k.alike;
    this.#scenes += 1;
    if (this.#scenes > MOST_SCENES) {
      this.#alike.clear();
      this.#scenes = 1;
    }
    const alike = new Alike();
    known.push({ numbers: numbers.slice(), alike });
    this.#alike.set(hash, known);
    return alike;
  }
}

function sameNumbers(a: readonly number[], b: readonly number[]): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return a.length === b.length;
}
