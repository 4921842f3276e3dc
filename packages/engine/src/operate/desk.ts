/** Where the elements of a circuit are put together: one array for all frames of a machine, and what it holds now. */
import type { ElementOf } from '../contracts/index.ts';
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
  #temperatures: Float64Array | null = null;
  #wires: Wires | null = null;

  constructor(circuit: Circuit) {
    this.work = [...circuit.shape];
    this.#circuit = circuit;
    this.#ohms = new Float64Array(circuit.wires.length);
  }

  /** Ohms of each wire with its joints at these copper temperatures; written over by the next asking. */
  ohms(temperatures: Float64Array): Float64Array {
    if (this.#temperatures === temperatures) return this.#ohms;
    this.#wires ??= wiresOf(this.#circuit);
    const { copper, joints, scale } = this.#wires;
    for (let i = 0; i < copper.length; i++) {
      const at20 = copper[i]!;
      const celsius = temperatures[i]!;
      const warm = at20 < 0 ? UNKNOWN_WIRE_OHMS : at20 * (1 + 0.00393 * (celsius - 20));
      const ohms = Math.max(warm + joints[i]!, LEAST_OHMS);
      this.#ohms[i] = Math.max(ohms * scale[i]!, LEAST_OHMS);
    }
    this.#temperatures = temperatures;
    return this.#ohms;
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
