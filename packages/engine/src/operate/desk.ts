/** Where the elements of a circuit are put together: one array for all frames of a machine, and what it holds now. */
import type { ElementOf } from '../contracts/index.ts';
import { Tail } from '../network/index.ts';
import { LEAST_OHMS, UNKNOWN_WIRE_OHMS, type Circuit } from './circuit.ts';
import type { Frame } from './frame.ts';
import type { Entry, Varying } from './memo.ts';

/** What the resistance of each wire is made of: copper at 20 °C, joints, the factor of a measured path. */
interface Wires {
  readonly copper: Float64Array;
  readonly joints: Float64Array;
  readonly scale: Float64Array;
}

export class Desk {
  /** The elements of the parts that lie on it; those of the wires have no numbers. */
  readonly work: ElementOf<number>[];
  /** The answers that they are from, by part. */
  readonly laid: (Entry<readonly ElementOf<number>[]> | undefined)[] = [];
  frame: Frame | null = null;
  /** Volts at which banks are held in it. */
  held: Varying['bankHeldAt'] = null;
  readonly #circuit: Circuit;
  readonly #ohms: Float64Array;
  #wires: Wires | null = null;
  /** Of the temperatures asked about last, and of those that come again. */
  #latest: { readonly temperatures: Float64Array; readonly tail: Tail } | null = null;
  readonly #kept = new Map<Float64Array, Tail>();

  constructor(circuit: Circuit) {
    this.work = [...circuit.shape];
    this.#circuit = circuit;
    this.#ohms = new Float64Array(circuit.wires.length);
  }

  /** The wires with their joints at these copper temperatures. `again`: the same array will be asked about again. */
  tail(temperatures: Float64Array, again: boolean): Tail {
    if (this.#latest?.temperatures === temperatures) return this.#latest.tail;
    const tail = this.#kept.get(temperatures) ?? this.#tail(temperatures);
    this.#latest = { temperatures, tail };
    if (again) this.#kept.set(temperatures, tail);
    return tail;
  }

  #tail(temperatures: Float64Array): Tail {
    this.#wires ??= wiresOf(this.#circuit);
    const { copper, joints, scale } = this.#wires;
    const all = this.#ohms;
    for (let i = 0; i < all.length; i++) {
      const at20 = copper[i]!;
      const warm = at20 < 0 ? UNKNOWN_WIRE_OHMS : at20 * (1 + 0.00393 * (temperatures[i]! - 20));
      // Compared, not handed to `Math.max`, which is a call where this does not run compiled yet.
      let ohms = warm + joints[i]!;
      if (ohms < LEAST_OHMS) ohms = LEAST_OHMS;
      ohms *= scale[i]!;
      all[i] = ohms < LEAST_OHMS ? LEAST_OHMS : ohms;
    }
    return new Tail(this.#circuit.wireOffset, all);
  }
}

function wiresOf(circuit: Circuit): Wires {
  const { wires, wireOffset, scale } = circuit;
  return {
    // A wire of unknown size has no copper of its own.
    copper: Float64Array.from(wires, (w) => w.ohms20?.sourced.value ?? -1),
    joints: Float64Array.from(wires, (w) => w.joints[0].sourced.value + w.joints[1].sourced.value),
    scale: Float64Array.from(wires, (_, i) => scale[wireOffset + i] ?? 1),
  };
}
