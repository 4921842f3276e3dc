/** Volts between pairs of nodes in all outcomes: looked up once and found once for each pair. */
import type { VoltsOver } from '../contracts/index.ts';
import type { SolvedRun } from './solved.ts';

export class VoltsTable {
  readonly #all: readonly SolvedRun[];
  readonly #pairs = new Map<string, VoltsOver>();

  constructor(all: readonly SolvedRun[]) {
    this.#all = all;
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
    const count = this.#all.length;
    const volts = {
      mean: new Float64Array(count),
      least: new Float64Array(count),
      greatest: new Float64Array(count),
    };
    this.#all.forEach((solved, i) => solved.voltsInto(a, b, volts, i));
    return volts;
  }
}
