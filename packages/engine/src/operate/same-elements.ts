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

/** Things by a list of numbers. */
class ByNumbers<T> {
  readonly #known = new Map<number, { readonly numbers: readonly number[]; readonly thing: T }[]>();
  size = 0;

  find(numbers: readonly number[]): T | undefined {
    const alike = this.#known.get(hashOf(numbers));
    if (alike !== undefined) for (const one of alike) if (sameNumbers(one.numbers, numbers)) return one.thing;
    return undefined;
  }

  /** `numbers` are not among those known. */
  add(numbers: readonly number[], thing: T): void {
    const hash = hashOf(numbers);
    const one = { numbers: numbers.slice(), thing };
    const alike = this.#known.get(hash);
    if (alike === undefined) this.#known.set(hash, [one]);
    else alike.push(one);
    this.size += 1;
  }

  clear(): void {
    this.#known.clear();
    this.size = 0;
  }
}

function hashOf(numbers: readonly number[]): number {
  let hash = 0;
  for (let i = 0; i < numbers.length; i++) hash = (Math.imul(hash, 31) + (numbers[i] ?? 0)) | 0;
  return hash;
}

function sameNumbers(a: readonly number[], b: readonly number[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** What was found for scenes in which all parts without memory answer alike. */
export class Alike {
  readonly points = new ByNumbers<Point>();
  readonly runs = new ByNumbers<Settled>();
  readonly #temperatures: Float64Array[] = [];

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
  readonly #alike = new ByNumbers<Alike>();

  /** Scenes whose parts answer with these numbers. */
  of(numbers: readonly number[]): Alike {
    const known = this.#alike.find(numbers);
    if (known !== undefined) return known;
    if (this.#alike.size >= MOST_SCENES) this.#alike.clear();
    const alike = new Alike();
    this.#alike.add(numbers, alike);
    return alike;
  }
}
