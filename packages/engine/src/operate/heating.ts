/** Heat in the wires of a build: the copper's temperature in a condition, and what each wire may carry for good. */
import type { Ampacity, Id, LaidWire, Practice } from '../contracts/index.ts';
import { MODEL_LOAD_LIMIT, steadyTemperature } from '../devices/heat.ts';
import type { Values } from '../devices/values.ts';
import {
  aloneCounts,
  ampacityAt,
  ampacityOf,
  bundles,
  firstFigure,
  greatestCounts,
  type BundleCounts,
} from '../wiring/index.ts';

export interface Heating {
  /** °C of each wire at its amperes (in the order of the wires), in the air that `air` gives. */
  temperatures(amps: Float64Array, air: (wire: LaidWire) => number): Float64Array;
  /** Ampacity at the hottest, with the greatest bundle count over the judged currents; one per table. */
  ampacity(wire: Id, judged: () => readonly ((wire: Id) => number)[]): readonly Ampacity[];
}

export function makeHeating(wires: ReadonlyMap<Id, LaidWire>, practice: Practice, values: Values): Heating {
  const together = bundles(wires, practice);
  const order = [...wires.values()];
  const index = new Map(order.map((w, i) => [w.id, i]));
  const figures = new Map<string, number | null>();
  let greatest: BundleCounts | null = null;
  const answers = new Map<Id, readonly Ampacity[]>();

  const carries = (wire: LaidWire, air: number, counts: readonly number[]): number | null => {
    const key = `${wire.id}|${air}|${counts.join(',')}`;
    const known = figures.get(key);
    if (known !== undefined) return known;
    const amps = firstFigure(ampacityAt(wire, air, counts, practice, values))?.amps ?? null;
    figures.set(key, amps);
    return amps;
  };

  const hot = (wire: LaidWire, amps: number, air: number, counts: readonly number[]): number => {
    if (amps === 0) return air;
    const limit = carries(wire, air, counts);
    // Beyond the model's range the prediction stops rising: such a wire is a danger by its own check.
    const bounded = limit === null ? amps : Math.min(amps, MODEL_LOAD_LIMIT * limit);
    return steadyTemperature(air, wire.rating, bounded, limit)?.celsius ?? air;
  };

  return {
    temperatures: (amps, air) => {
      const counts = together.count((id) => amps[index.get(id) ?? -1] ?? 0);
      return Float64Array.from(order, (w, i) => hot(w, amps[i] ?? 0, air(w), counts.get(w.id) ?? [1]));
    },
    ampacity: (id, judged) => {
      const known = answers.get(id);
      if (known !== undefined) return known;
      greatest ??= judged().reduce<BundleCounts>(
        (most, amps) => greatestCounts(most, together.count(amps)),
        aloneCounts(wires),
      );
      const wire = wires.get(id);
      const made = wire === undefined ? [] : ampacityOf(wire, greatest.get(id) ?? [1], practice, values);
      answers.set(id, made);
      return made;
    },
  };
}
