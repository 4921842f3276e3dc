/** Heat in the wires of a build: the copper's temperature in a condition, and what each wire may carry for good. */
import type { Ampacity, Id, LaidWire, Practice } from '../contracts/index.ts';
import { MODEL_LOAD_LIMIT, steadyCelsius } from '../devices/heat.ts';
import type { Values } from '../devices/values.ts';
import { ampacityOf, ampsAt, bundles, type CountsInOrder, type SegmentAmps } from '../wiring/index.ts';

export interface Heating {
  /** °C of each wire at its amperes, in this air; all in the order of the wires, written over by the next asking. */
  temperatures(amps: Float64Array, air: Float64Array): Float64Array;
  /** Ampacity at the hottest, with the greatest bundle count over the judged currents; one per table. */
  ampacity(wire: Id, judged: () => readonly Float64Array[]): readonly Ampacity[];
}

export function makeHeating(wires: ReadonlyMap<Id, LaidWire>, practice: Practice, values: Values): Heating {
  return new WireHeating(wires, practice, values);
}

/** What wires may carry in one air, found when first asked; NaN: not asked yet, 0: no figure. */
interface Limits {
  /** Of each wire when it lies alone. */
  readonly alone: Float64Array;
  /** Of each bundled wire, by the code of its counts. */
  readonly together: readonly Map<number, number>[];
  /** Of each bundled wire: the code asked for last, and what it may carry then. */
  readonly lastCode: Float64Array;
  readonly lastLimit: Float64Array;
  /** What each wire's segments may carry. */
  readonly segments: readonly SegmentAmps[];
}

class WireHeating implements Heating {
  readonly #wires: readonly LaidWire[];
  readonly #index: ReadonlyMap<Id, number>;
  readonly #practice: Practice;
  readonly #values: Values;
  readonly #bundles: ReturnType<typeof bundles>;
  readonly #codes: Float64Array;
  /** Place of each wire among the bundled ones, -1 where it lies alone. */
  readonly #bundledAt: Int32Array;
  readonly #ratings: Float64Array;
  readonly #celsius: Float64Array;
  readonly #limits = new Map<Float64Array, Limits>();
  readonly #answers = new Map<Id, readonly Ampacity[]>();
  #greatest: CountsInOrder | null = null;

  constructor(wires: ReadonlyMap<Id, LaidWire>, practice: Practice, values: Values) {
    this.#wires = [...wires.values()];
    this.#index = new Map(this.#wires.map((w, i) => [w.id, i]));
    this.#practice = practice;
    this.#values = values;
    this.#bundles = bundles(wires, practice);
    const { bundled } = this.#bundles;
    this.#codes = new Float64Array(bundled.length);
    this.#bundledAt = new Int32Array(this.#wires.length).fill(-1);
    bundled.forEach((wire, k) => {
      this.#bundledAt[wire] = k;
    });
    this.#celsius = new Float64Array(this.#wires.length);
    this.#ratings = Float64Array.from(this.#wires, (w) => w.rating);
  }

  temperatures(amps: Float64Array, air: Float64Array): Float64Array {
    this.#bundles.codes(amps, this.#codes);
    const limits = this.#limitsIn(air);
    const { alone } = limits;
    const celsius = this.#celsius;
    for (let i = 0; i < celsius.length; i++) {
      const around = air[i]!;
      const carried = amps[i]!;
      if (carried === 0) {
        celsius[i] = around;
        continue;
      }
      const known = alone[i]!;
      const limit = known >= 0 ? known : this.#limit(i, around, limits);
      // Beyond the model's range the prediction stops rising: such a wire is a danger by its own check.
      celsius[i] =
        limit > 0
          ? steadyCelsius(around, this.#ratings[i]!, Math.min(carried, MODEL_LOAD_LIMIT * limit), limit)
          : around;
    }
    return celsius;
  }

  #limitsIn(air: Float64Array): Limits {
    let limits = this.#limits.get(air);
    if (limits === undefined) {
      const { bundled } = this.#bundles;
      limits = {
        alone: new Float64Array(this.#wires.length).fill(Number.NaN),
        together: bundled.map(() => new Map<number, number>()),
        lastCode: new Float64Array(bundled.length).fill(-1),
        lastLimit: new Float64Array(bundled.length),
        segments: this.#wires.map((): SegmentAmps => []),
      };
      this.#limits.set(air, limits);
    }
    return limits;
  }

  /** What wire i may carry with what lies beside it now, A; 0: no figure. */
  #limit(i: number, air: number, limits: Limits): number {
    const k = this.#bundledAt[i] ?? -1;
    if (k < 0) {
      const found = this.#carries(i, air, ALONE, limits);
      limits.alone[i] = found;
      return found;
    }
    const code = this.#codes[k] ?? -1;
    if (code >= 0 && limits.lastCode[k] === code) return limits.lastLimit[k] ?? 0;
    const found = this.#amongOthers(i, k, air, limits);
    limits.lastCode[k] = code;
    limits.lastLimit[k] = found;
    return found;
  }

  #amongOthers(i: number, k: number, air: number, limits: Limits): number {
    const code = this.#codes[k] ?? -1;
    const known = limits.together[k]?.get(code);
    if (known !== undefined && code >= 0) return known;
    const found = this.#carries(i, air, this.#bundles.countsOf(i), limits);
    limits.together[k]?.set(code, found);
    return found;
  }

  #carries(i: number, air: number, counts: readonly number[], limits: Limits): number {
    const wire = this.#wires[i];
    if (wire === undefined) return 0;
    return ampsAt(wire, air, counts, this.#practice, this.#values, limits.segments[i]) ?? 0;
  }

  ampacity(id: Id, judged: () => readonly Float64Array[]): readonly Ampacity[] {
    const known = this.#answers.get(id);
    if (known !== undefined) return known;
    this.#greatest ??= this.#bundles.greatest(judged());
    const at = this.#index.get(id) ?? -1;
    const wire = this.#wires[at];
    const counts = this.#greatest[at] ?? ALONE;
    const made = wire === undefined ? [] : ampacityOf(wire, counts, this.#practice, this.#values);
    this.#answers.set(id, made);
    return made;
  }
}

/** A wire by itself on each of its segments: a count that is missing is 1. */
const ALONE: readonly number[] = [];
