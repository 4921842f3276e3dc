/**
 * A scene ready to be solved for any memory of its devices. A frame made *like* another one takes over every answer of a
 * part that cannot differ: those whose making looked at nothing that changed between the two scenes.
 */
import type { ElementOf, Id, Memory } from '../contracts/index.ts';
import type { EventRule, Point } from '../network/index.ts';
import { SceneSeen, wireElement, wireOhms, type CircuitPart, type Scene } from './circuit.ts';
import { BIT, differing, type Entry, type Varying } from './memo.ts';
import { partRules } from './rules.ts';
import type { Machine } from './run.ts';

type Made = Entry<readonly ElementOf<number>[]>;

/** Fields of surroundings that are the same for all parts of a scene. */
const SHARED = [
  'mode',
  'shore',
  'sun',
  'unknownLive',
  'setPoint',
  'leastSetPoint',
  'vehicleRest',
] as const satisfies readonly (keyof Varying & keyof Scene)[];

/** Bits of what parts may see otherwise in one scene than in another. */
function differences(a: Scene, b: Scene): number {
  let bits = differing(a, b);
  for (const field of SHARED) if (a[field] !== b[field]) bits |= BIT[field];
  if (a.hands !== b.hands) bits |= BIT.closed;
  if (a.open !== b.open || a.state.stored !== b.state.stored) bits |= BIT.closed | BIT.opened;
  if (a.corner.air !== b.corner.air) bits |= BIT.air;
  return bits;
}

const SWITCHING = BIT.closed | BIT.opened;

/** Parts that stand otherwise in one scene than in the other; null: any may. */
function switchedBetween(a: Scene, b: Scene): ReadonlySet<Id> | null {
  if (a.state.stored !== b.state.stored) return null;
  const switched = new Set<Id>();
  if (a.hands !== b.hands) {
    for (const id of Object.keys(a.hands)) if (a.hands[id] !== b.hands[id]) switched.add(id);
    for (const id of Object.keys(b.hands)) if (a.hands[id] !== b.hands[id]) switched.add(id);
  }
  for (const id of a.open) if (!b.open.has(id)) switched.add(id);
  for (const id of b.open) if (!a.open.has(id)) switched.add(id);
  return switched;
}

export class Frame {
  readonly scene: Scene;
  readonly #m: Machine;
  readonly #like: Frame | null;
  readonly #differs: number;
  /** Parts that are switched otherwise; null: any may be. */
  readonly #switched: ReadonlySet<Id> | null;
  /** Answers of the parts, empty until `#fill`. */
  #base: Made[] = [];
  /** Of a scene of a sweep: the parts that answer otherwise. */
  #patch: readonly (readonly [CircuitPart, Made])[] | null = null;
  #memories: readonly Entry<Memory | null>[] | null = null;
  #rules: readonly EventRule<Point>[] | null = null;
  /** Parts that see the volts at which a bank is held. */
  #held: readonly number[] = [];
  /** Parts that depend on what differs, by the bits of that. */
  #dependents: Map<number, readonly CircuitPart[]> | null = null;
  /** Answers of the devices by memory value; most frames ask for few. */
  readonly #devices: (Made | undefined)[][] = [];
  readonly #points: {
    readonly temperatures: Float64Array;
    readonly code: number | string;
    readonly point: Point;
  }[] = [];
  #seen: SceneSeen | null = null;
  /** Bits of what the devices looked at. */
  #looked = 0;

  /** `like`: any frame of the same machine. */
  constructor(m: Machine, scene: Scene, like: Frame | null = null) {
    this.#m = m;
    this.scene = scene;
    this.#like = like;
    this.#differs = like === null ? 0 : differences(scene, like.scene);
    this.#switched =
      like === null || (this.#differs & SWITCHING) === 0 ? NOBODY : switchedBetween(scene, like.scene);
  }

  /** Whether a part that looked at these things may answer otherwise here than in the frame that this one is like. */
  #mayDiffer(part: CircuitPart, looked: number): boolean {
    const bits = looked & this.#differs;
    if (bits === 0) return false;
    return (bits & ~SWITCHING) !== 0 || this.#switched === null || this.#switched.has(part.placed.id);
  }

  /** What each device with memory remembers here, and by which rules. */
  get memories(): readonly Entry<Memory | null>[] {
    if (this.#memories !== null) return this.#memories;
    const like = this.#like;
    const known = like === null ? null : like.#memories;
    this.#memories = this.#m.circuit.devices.map((part, d) => {
      const entry = known?.[d];
      return entry !== undefined && !this.#mayDiffer(part, entry.looked)
        ? entry
        : part.memory(this.#at(part, 0, null));
    });
    return this.#memories;
  }

  /** Bits of everything that parts have looked at here so far. */
  get looked(): number {
    let bits = this.#looked;
    for (const entry of this.#base) bits |= entry.looked;
    for (const entry of this.memories) bits |= entry.looked;
    return bits;
  }

  /** The event rules of all devices with memory. */
  get rules(): readonly EventRule<Point>[] {
    if (this.#rules !== null) return this.#rules;
    const { memories } = this;
    const like = this.#like;
    const known = like === null ? null : like.#memories;
    const rules = like === null ? null : like.#rules;
    this.#rules =
      rules !== null && memories.every((m, d) => m === known?.[d])
        ? rules
        : this.#m.circuit.devices.flatMap((part, d) =>
            partRules(this.#m.circuit, part, memories[d]?.made ?? null),
          );
    return this.#rules;
  }

  /** The operating point for these memories; solved once for each array of temperatures. */
  point(memory: readonly number[], temperatures: Float64Array): Point {
    const code = codeOf(memory);
    for (const known of this.#points)
      if (known.code === code && known.temperatures === temperatures) return known.point;
    const point = this.#solve(memory, temperatures);
    this.#points.push({ temperatures, code, point });
    return point;
  }

  #solve(memory: readonly number[], temperatures: Float64Array): Point {
    const { plan, desk, steps } = this.#m;
    const tail = desk.tail(temperatures, temperatures === this.#m.cool(this.scene));
    return plan.solve(this.#parts(memory), { steps, tail });
  }

  /** A scene of a sweep. */
  get #swept(): boolean {
    return this.scene.vehicleRest !== null;
  }

  /** All elements of the circuit, with the devices' memory and the copper at its temperatures. */
  elements(memory: readonly number[], temperatures: Float64Array): readonly ElementOf<number>[] {
    const { circuit } = this.#m;
    const wires = circuit.wires.map((wire, i) =>
      wireElement(circuit, i, wireOhms(wire, temperatures[i] ?? 20)),
    );
    return [...this.#parts(memory).slice(0, circuit.wireOffset), ...wires];
  }

  /**
   * The elements with the devices' memory; those of the wires have no numbers. The array is written over by the next asking
   * of any frame of the machine.
   */
  #parts(memory: readonly number[]): readonly ElementOf<number>[] {
    const { circuit, desk } = this.#m;
    const { work } = desk;
    if (desk.frame !== this) {
      this.#lay();
      desk.frame = this;
      desk.held = null;
    }
    const held = bankHeldAt(this.#m, this.scene, memory);
    if (desk.held !== held) {
      for (const index of this.#held) {
        const part = circuit.parts[index];
        if (part !== undefined) this.#write(part, part.elements(this.#at(part, 0, held)));
      }
      desk.held = held;
    }
    for (const part of circuit.devices) this.#write(part, this.#device(part, memory[part.device] ?? 0, held));
    return work;
  }

  #write(part: CircuitPart, entry: Made): void {
    const { work, laid } = this.#m.desk;
    if (laid[part.index] === entry) return;
    laid[part.index] = entry;
    let at = part.offset;
    for (const e of entry.made) {
      work[at] = scaled(this.#m, at, e);
      at += 1;
    }
  }

  #device(part: CircuitPart, value: number, held: Varying['bankHeldAt']): Made {
    const known = this.#devices[part.device]?.[value];
    if (known !== undefined) return known;
    const like = this.#like;
    const other = like === null ? undefined : like.#devices[part.device]?.[value];
    const entry =
      other !== undefined && !this.#mayDiffer(part, other.looked)
        ? other
        : part.elements(this.#at(part, value, held));
    this.#looked |= entry.looked;
    if ((entry.looked & BIT.bankHeldAt) === 0) (this.#devices[part.device] ??= [])[value] = entry;
    return entry;
  }

  /** Puts the elements of all parts on the desk. */
  #lay(): void {
    const { desk, circuit } = this.#m;
    const { frame } = desk;
    const like = this.#like;
    if (!this.#swept || like === null) {
      const base = this.#fill();
      for (const part of circuit.parts) {
        const entry = base[part.index];
        if (entry !== undefined) this.#write(part, entry);
      }
      return;
    }
    // The scenes of a sweep differ in few parts from their first one.
    if (frame === null || (frame !== like && (frame.#like !== like || frame.#differs !== this.#differs)))
      like.#lay();
    else if (desk.held !== null) like.#layHeld();
    this.#patch ??= this.#otherwise()
      .filter((part) => this.#mayDiffer(part, like.#base[part.index]?.looked ?? 0))
      .map((part) => [part, part.elements(this.#at(part, 0, null))]);
    for (const [part, entry] of this.#patch) this.#write(part, entry);
    const more = this.#patch.filter(
      ([part, entry]) => (entry.looked & BIT.bankHeldAt) !== 0 && !like.#held.includes(part.index),
    );
    this.#held = more.length === 0 ? like.#held : [...like.#held, ...more.map(([part]) => part.index)];
  }

  /** Puts back the parts that saw a bank held. */
  #layHeld(): void {
    for (const i of this.#held) {
      const part = this.#m.circuit.parts[i];
      const entry = this.#base[i];
      if (part !== undefined && entry !== undefined) this.#write(part, entry);
    }
  }

  /** Parts that may answer otherwise here than in the frame that this one is like. */
  #otherwise(): readonly CircuitPart[] {
    const like = this.#like;
    if (like === null) return this.#m.circuit.parts;
    like.#fill();
    const dependents = (like.#dependents ??= new Map());
    let list = dependents.get(this.#differs);
    if (list === undefined) {
      list = this.#m.circuit.parts.filter((_, i) => ((like.#base[i]?.looked ?? 0) & this.#differs) !== 0);
      dependents.set(this.#differs, list);
    }
    return list;
  }

  /** Answers of all parts with every memory at its first value and no bank held. */
  #fill(): readonly Made[] {
    if (this.#base.length > 0) return this.#base;
    const like = this.#like;
    let held = like === null;
    if (like !== null) {
      this.#base = like.#fill().slice();
      this.#held = like.#held;
    }
    for (const part of this.#m.circuit.parts) {
      const before = this.#base[part.index]?.looked ?? 0;
      if (like !== null && !this.#mayDiffer(part, before)) continue;
      const entry = part.elements(this.#at(part, 0, null));
      held ||= ((entry.looked ^ before) & BIT.bankHeldAt) !== 0;
      this.#base[part.index] = entry;
    }
    if (held) this.#held = indexesOf(this.#base, (e) => (e.looked & BIT.bankHeldAt) !== 0);
    return this.#base;
  }

  #at(part: CircuitPart, memory: number, held: Varying['bankHeldAt']): Varying {
    this.#seen ??= new SceneSeen(this.#m.ctx, this.scene);
    return this.#seen.by(part.placed, memory, held);
  }
}

const NOBODY: ReadonlySet<Id> = new Set();

function indexesOf<T>(list: readonly T[], is: (item: T) => boolean): readonly number[] {
  return list.flatMap((item, i) => (is(item) ? [i] : []));
}

/** A key for a memory: a number where the memory is short and its values small, else text. */
function codeOf(memory: readonly number[]): number | string {
  if (memory.length > 16) return memory.join();
  let code = 0;
  for (const value of memory) {
    if (value > 7) return memory.join();
    code = code * 8 + value;
  }
  return code;
}

/** Resistances along a measured path are brought to what was measured. */
export function scaled(m: Machine, index: number, e: ElementOf<number>): ElementOf<number> {
  const factor = m.circuit.scale[index];
  return factor === undefined || factor === 1 || e.type !== 'resistor'
    ? e
    : { ...e, ohms: Math.max(e.ohms * factor, 1e-5) };
}

/** The banks held, by which of its converters charge. One object for each, as it is compared point by point. */
const heldBy = new WeakMap<Machine, Map<string, ReadonlyMap<string, number>>>();

/**
 * Where converters are judged by their greatest power: the volts at which the charging ones hold the banks of the system that
 * they charge. A bank of another system stands as it is.
 */
function bankHeldAt(m: Machine, scene: Scene, memory: readonly number[]): Varying['bankHeldAt'] {
  if (!scene.corner.ratedOutput) return null;
  const charging = m.circuit.devices.flatMap((d) => {
    const { converts } = d.placed.ability;
    return converts?.charging.includes(memory[d.device] ?? 0) === true ? [d] : [];
  });
  if (charging.length === 0) return null;
  const key = charging.map((d) => d.device).join();
  const known = heldBy.get(m) ?? new Map<string, ReadonlyMap<string, number>>();
  heldBy.set(m, known);
  let held = known.get(key);
  if (held === undefined) {
    held = heldAt(charging);
    known.set(key, held);
  }
  return held;
}

function heldAt(charging: readonly CircuitPart[]): ReadonlyMap<string, number> {
  const held = new Map<string, number>();
  for (const { placed } of charging) {
    const { converts } = placed.ability;
    if (converts === undefined) continue;
    const system = converts.outputSystem ?? 'house';
    held.set(system, Math.max(held.get(system) ?? 0, converts.setVolts.sourced.value));
  }
  return held;
}
