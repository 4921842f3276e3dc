/** Heat in the wires of a build: the copper's temperature in a condition, and what each wire may carry for good. */
import type { Ampacity, Id, LaidWire, Practice } from '../contracts/index.ts';
import { MODEL_LOAD_LIMIT, steadyCelsius } from '../devices/heat.ts';
import type { Values } from '../devices/values.ts';
import {
  ampacityAt,
  ampacityOf,
  bundles,
  firstFigure,
  greatestInOrder,
  type CountsInOrder,
} from '../wiring/index.ts';

export interface Heating {
  /** °C of each wire at its amperes, in this air; both in the order of the wires. */
  temperatures(amps: Float64Array, air: Float64Array): Float64Array;
  /** Ampacity at the hottest, with the greatest bundle count over the judged currents; one per table. */
  ampacity(wire: Id, judged: () => readonly Float64Array[]): readonly Ampacity[];
}

export function makeHeating(wires: ReadonlyMap<Id, LaidWire>, practice: Practice, values: Values): Heating {
  const together = bundles(wires, practice);
  const order = [...wires.values()];
  const limits = order.map(() => new Limits());
  const index = new Map(order.map((w, i) => [w.id, i]));
  let greatest: CountsInOrder | null = null;
  const answers = new Map<Id, readonly Ampacity[]>();

  const carries = (i: number, wire: LaidWire, air: number, counts: readonly number[]): number => {
    const known = limits[i]?.find(air, counts);
    if (known !== undefined) return known;
    const amps = firstFigure(ampacityAt(wire, air, counts, practice, values))?.amps ?? Number.NaN;
    limits[i]?.keep(air, counts, amps);
    return amps;
  };

  const hot = (
    i: number,
    wire: LaidWire,
    amps: number,
    air: number,
    counts: readonly (readonly number[])[],
  ): number => {
    if (amps === 0) return air;
    const limit = carries(i, wire, air, counts[i] ?? ALONE);
    if (!(limit > 0)) return air;
    // Beyond the model's range the prediction stops rising: such a wire is a danger by its own check.
    return steadyCelsius(air, wire.rating, Math.min(amps, MODEL_LOAD_LIMIT * limit), limit);
  };

  return {
    temperatures: (amps, air) => {
      const counts = together.countAll(amps);
      const celsius = new Float64Array(order.length);
      for (let i = 0; i < order.length; i++) {
        const wire = order[i];
        if (wire !== undefined) celsius[i] = hot(i, wire, amps[i] ?? 0, air[i] ?? 20, counts);
      }
      return celsius;
    },
    ampacity: (id, judged) => {
      const known = answers.get(id);
      if (known !== undefined) return known;
      greatest ??= judged().reduce<CountsInOrder>(
        (most, amps) => greatestInOrder(most, together.countAll(amps)),
        order.map((wire) => wire.segments.map(() => 1)),
      );
      const wire = wires.get(id);
      const counts = greatest[index.get(id) ?? -1] ?? ALONE;
      const made = wire === undefined ? [] : ampacityOf(wire, counts, practice, values);
      answers.set(id, made);
      return made;
    },
  };
}

const ALONE: readonly number[] = [1];

/** What one wire may carry, by its air and its bundle counts; NaN: no figure. A wire sees few of either. */
class Limits {
  readonly #known = new Map<number, Map<number | string, number>>();

  find(air: number, counts: readonly number[]): number | undefined {
    return this.#known.get(air)?.get(codeOf(counts));
  }

  keep(air: number, counts: readonly number[], amps: number): void {
    const inAir = this.#known.get(air) ?? new Map<number | string, number>();
    this.#known.set(air, inAir.set(codeOf(counts), amps));
  }
}

/** Counts as one number where they are few and small, else as text. */
function codeOf(counts: readonly number[]): number | string {
  if (counts.length > 5) return counts.join();
  let code = 0;
  for (const n of counts) {
    if (n > 999) return counts.join();
    code = code * 1000 + n;
  }
  return code;
}
