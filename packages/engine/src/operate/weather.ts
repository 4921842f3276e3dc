/** Air around parts and wires in each weather, found when first asked. */
import type { Build, CornerFacts, Id, LaidWire } from '../contracts/index.ts';
import type { Values } from '../devices/values.ts';
import { airAt } from '../wiring/index.ts';

type Air = CornerFacts['air'];

export class Weather {
  readonly #build: Build;
  readonly #values: Values;
  readonly #wires: ReadonlyMap<Id, LaidWire>;
  readonly #places = new Map<Air, Map<Id | null, number>>();
  readonly #along = new Map<Air, Float64Array>();
  readonly #cool = new Map<Air, Float64Array>();

  constructor(build: Build, values: Values, wires: ReadonlyMap<Id, LaidWire>) {
    this.#build = build;
    this.#values = values;
    this.#wires = wires;
  }

  /** Air at a place, °C. */
  at(place: Id | null, air: Air): number {
    let known = this.#places.get(air);
    if (known === undefined) {
      known = new Map<Id | null, number>();
      this.#places.set(air, known);
    }
    let celsius = known.get(place);
    if (celsius === undefined) {
      celsius = airAt(this.#build, this.#values, place, air).sourced.value;
      known.set(place, celsius);
    }
    return celsius;
  }

  /** Air along each wire, °C: the hottest or coldest of its way. */
  along(air: Air): Float64Array {
    let celsius = this.#along.get(air);
    if (celsius === undefined) {
      celsius = Float64Array.from(this.#wires.values(), (wire) =>
        air === 'typical' ? 20 : air === 'hottest' ? wire.hottest.sourced.value : wire.coldest.sourced.value,
      );
      this.#along.set(air, celsius);
    }
    return celsius;
  }

  /** Copper without current, °C: as the air along it, or as the build says. One array for each weather. */
  cool(air: Air): Float64Array {
    let celsius = this.#cool.get(air);
    if (celsius === undefined) {
      const at = this.#build.settings.resistanceAt;
      celsius = typeof at === 'number' ? new Float64Array(this.#wires.size).fill(at) : this.along(air);
      this.#cool.set(air, celsius);
    }
    return celsius;
  }
}
