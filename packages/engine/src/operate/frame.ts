/**
 * A scene ready to be solved for any memory: each part's elements are asked for once per memory value, the wires' once per
 * set of temperatures, points are kept while the temperatures stay. A frame made *like* another one takes over every answer
 * that cannot differ: those whose making looked at nothing that changed.
 */
import type { ElementOf } from '../contracts/index.ts';
import type { EventRule, Point } from '../network/index.ts';
import { varying, wireElement, wireOhms, type CircuitPart, type Scene } from './circuit.ts';
import type { Entry, Varying } from './memo.ts';
import { rulesOf } from './rules.ts';
import type { Machine } from './run.ts';

type Made = Entry<readonly ElementOf<number>[]>;

/** One part in a scene: its answers by memory value and by the volts that the bank is held at. */
interface Slot {
  readonly at: { -readonly [K in keyof Varying]: Varying[K] };
  readonly made: Map<number, { readonly held: number | null; readonly entry: Made }>;
}

/** What a window sweep changes from one scene to the next. */
const SWEPT: readonly (keyof Varying)[] = ['setPoint', 'leastSetPoint', 'vehicleRest'];

export class Frame {
  readonly scene: Scene;
  readonly #m: Machine;
  readonly #slots: readonly Slot[];
  readonly #like: Frame | null;
  #rules: readonly EventRule<Point>[] | null = null;
  #points = new Map<string, Point>();
  #temperatures: Float64Array | null = null;

  /** `like`: a frame whose scene differs in nothing but the set point and the vehicle battery's rest voltage. */
  constructor(m: Machine, scene: Scene, like: Frame | null = null) {
    this.#m = m;
    this.scene = scene;
    this.#like = like;
    this.#slots = m.circuit.parts.map((p) => ({
      at: varying(m.ctx, scene, p.placed, 0, null),
      made: new Map(),
    }));
  }

  /** The event rules of all devices with memory. */
  get rules(): readonly EventRule<Point>[] {
    this.#rules ??= this.#like === null ? rulesOf(this.#m, this.scene) : this.#like.rules;
    return this.#rules;
  }

  point(memory: readonly number[], temperatures: Float64Array): Point {
    if (this.#temperatures !== temperatures) {
      this.#temperatures = temperatures;
      this.#points = new Map();
    }
    const key = memory.join();
    const known = this.#points.get(key);
    if (known !== undefined) return known;
    const point = this.#m.plan.solve(this.elements(memory, temperatures), { steps: this.#m.steps });
    this.#points.set(key, point);
    return point;
  }

  /** All elements of the circuit, with the devices' memory and the copper at its temperatures. */
  elements(memory: readonly number[], temperatures: Float64Array): readonly ElementOf<number>[] {
    const { circuit } = this.#m;
    const list: ElementOf<number>[] = [];
    const held = bankHeldAt(this.#m, this.scene, memory);
    circuit.parts.forEach((part, i) => {
      const value = part.device >= 0 ? (memory[part.device] ?? 0) : 0;
      for (const e of this.#ask(part, i, value, held).made) list.push(scaled(this.#m, list.length, e));
    });
    for (const e of wireElements(this.#m, temperatures)) list.push(e);
    return list;
  }

  #ask(part: CircuitPart, index: number, memory: number, held: number | null): Made {
    const slot = this.#slots[index];
    if (slot === undefined) throw new Error('a part without a slot');
    const known = slot.made.get(memory);
    if (known !== undefined && (known.held === held || !known.entry.looked.has('bankHeldAt')))
      return known.entry;
    const taken = this.#take(index, memory, held);
    slot.at.memory = memory;
    slot.at.bankHeldAt = held;
    const entry = taken ?? part.elements(slot.at);
    slot.made.set(memory, { held, entry });
    return entry;
  }

  /** The other frame's answer, when nothing that it looked at differs here. */
  #take(index: number, memory: number, held: number | null): Made | null {
    const like = this.#like;
    const other = like === null ? undefined : like.#slots[index]?.made.get(memory);
    if (other === undefined || (other.held !== held && other.entry.looked.has('bankHeldAt'))) return null;
    return SWEPT.some((field) => other.entry.looked.has(field)) ? null : other.entry;
  }
}

/** Resistances along a measured path are brought to what was measured. */
function scaled(m: Machine, index: number, e: ElementOf<number>): ElementOf<number> {
  const factor = m.circuit.scale[index];
  return factor === undefined || factor === 1 || e.type !== 'resistor'
    ? e
    : { ...e, ohms: Math.max(e.ohms * factor, 1e-5) };
}

/** Where converters are judged by their greatest power: the volts at which the charging ones hold the bank. */
function bankHeldAt(m: Machine, scene: Scene, memory: readonly number[]): number | null {
  if (!scene.corner.ratedOutput) return null;
  let volts: number | null = null;
  for (const d of m.circuit.devices) {
    const converts = d.placed.ability.converts;
    if (converts === undefined || !converts.charging.includes(memory[d.device] ?? 0)) continue;
    volts = Math.max(volts ?? 0, converts.setVolts.sourced.value);
  }
  return volts;
}

const wiresAt = new WeakMap<Float64Array, readonly ElementOf<number>[]>();

/** The wires' elements at these temperatures; made once per array. */
function wireElements(m: Machine, temperatures: Float64Array): readonly ElementOf<number>[] {
  const known = wiresAt.get(temperatures);
  if (known !== undefined) return known;
  const made = m.circuit.wires.map((wire, i) =>
    wireElement(m.circuit, i, wireOhms(wire, temperatures[i] ?? 20)),
  );
  wiresAt.set(temperatures, made);
  return made;
}
