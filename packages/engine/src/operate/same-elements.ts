/** Equal elements made the same, and points by what they are made of: what is equal is solved once. */
import type { ElementOf } from '../contracts/index.ts';
import type { Point } from '../network/index.ts';

type Elements = readonly ElementOf<number>[];

/** Gives the first of equal lists for each of them. */
export function once(): (elements: Elements) => Elements {
  const known = new Map<string, Elements>();
  return (elements) => {
    const key = elements.map(keyOf).join(';');
    const first = known.get(key);
    if (first !== undefined) return first;
    known.set(key, elements);
    return elements;
  };
}

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
  readonly #temperatures: Float64Array[] = [];

  point(key: string, solve: () => Point): Point {
    let point = this.#points.get(key);
    if (point === undefined) {
      point = solve();
      this.#points.set(key, point);
    }
    return point;
  }

  /** The array of the same temperatures that was used here before, or this one. */
  same(temperatures: Float64Array): Float64Array {
    for (const known of this.#temperatures) if (equal(known, temperatures)) return known;
    this.#temperatures.push(temperatures);
    return temperatures;
  }
}

function equal(a: Float64Array, b: Float64Array): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** A machine that is asked without end forgets everything after so many lists and arrays. */
const MOST_NUMBERS = 20_000;

/** All points of a machine. */
export class KnownPoints {
  readonly #alike = new Map<number, { readonly numbers: readonly number[]; readonly alike: Alike }[]>();
  readonly #numbers = new Map<object, number>();
  #next = 0;

  /** Scenes whose parts answer with the lists of these numbers. */
  of(numbers: readonly number[]): Alike {
    let hash = 0;
    for (const n of numbers) hash = (Math.imul(hash, 31) + n) | 0;
    const known = this.#alike.get(hash) ?? [];
    const found = known.find((k) => k.numbers.every((n, i) => n === numbers[i]));
    if (found !== undefined) return found.alike;
    const alike = new Alike();
    known.push({ numbers: numbers.slice(), alike });
    this.#alike.set(hash, known);
    return alike;
  }

  /** A number for a list or an array of temperatures. */
  number(thing: object): number {
    let number = this.#numbers.get(thing);
    if (number === undefined) {
      if (this.#numbers.size >= MOST_NUMBERS) this.#forget();
      number = this.#next++;
      this.#numbers.set(thing, number);
    }
    return number;
  }

  /** Numbers are never given twice, so that what frames still hold stays apart. */
  #forget(): void {
    this.#numbers.clear();
    this.#alike.clear();
  }
}
