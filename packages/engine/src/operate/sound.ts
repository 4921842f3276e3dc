/** The circuit of a short circuit before the fault is laid on it: everything closed, or some devices open and batteries away. */
import type { ElementOf, Id, LaidWire } from '../contracts/index.ts';
import type { Point } from '../network/index.ts';
import { LEAST_OHMS, SceneSeen, wireElement, wireOhms, type Scene } from './circuit.ts';
import { deadEndsFor, deadEndsOf, SORTS, sortOf, type DeadEnds, type Opened } from './dead-ends.ts';
import { FaultFlows, straightNetOf } from './fault-flow.ts';
import { Frame, scaled } from './frame.ts';
import type { Machine } from './run.ts';

type Elements = readonly ElementOf<number>[];

/** All that is closed at one level of fault current; the circuits of that level are made from it. */
export class Closed {
  readonly machine: Machine;
  readonly scene: Scene;
  readonly #copper: (wire: LaidWire) => number;
  #elements: Elements | null = null;
  #sorts: Uint8Array | null = null;
  #dead: Opened | null = null;

  /** `copper`: the temperature of a wire, °C. */
  constructor(machine: Machine, scene: Scene, copper: (wire: LaidWire) => number) {
    this.machine = machine;
    this.scene = scene;
    this.#copper = copper;
  }

  get elements(): Elements {
    if (this.#elements === null) {
      const { devices, wires } = this.machine.circuit;
      this.#elements = new Frame(this.machine, this.scene).elements(
        devices.map(() => 0),
        Float64Array.from(wires, this.#copper),
      );
    }
    return this.#elements;
  }

  /** As `sortOf`, of each element. */
  get sorts(): Uint8Array {
    this.#sorts ??= Uint8Array.from(this.elements, sortOf);
    return this.#sorts;
  }

  /** Dead ends by what is open. */
  get dead(): Opened {
    this.#dead ??= deadEndsFor(this.machine.plan, this.sorts);
    return this.#dead;
  }

  /** The n-th wire, Ω. */
  ohmsOf(wire: LaidWire, n: number): number {
    const element = wireElement(this.machine.circuit, n, wireOhms(wire, this.#copper(wire)));
    return element.type === 'resistor' ? element.ohms : 0;
  }
}

/** Sets of open devices whose dead ends are remembered for a circuit. */
const MOST_OPENED = 1000;

/** What is worked out of one of them is worked out when it is asked for, once: of most nothing but their dead ends is. */
export class Sound {
  /** Elements with room for a fault after them, for whoever lays one. */
  work: ElementOf<number>[] | null = null;
  readonly #closed: Closed;
  readonly #open: readonly Id[];
  readonly #bridged: { readonly id: Id; readonly plain: Sound } | null;
  #otherwise: ReadonlyMap<number, ElementOf<number>> | null = null;
  #elements: Elements | null = null;
  #point: Point | null = null;
  #bent: readonly number[] | null = null;
  #dead: DeadEnds | null | undefined;
  #flows: FaultFlows | null | undefined;

  /**
   * `open`: devices that are open and batteries that are away; `bridged`: a closed device in place of its resistance, nothing,
   * and the circuit without that.
   */
  constructor(
    closed: Closed,
    open: readonly Id[],
    bridged: { readonly id: Id; readonly plain: Sound } | null,
  ) {
    this.#closed = closed;
    this.#open = open;
    this.#bridged = bridged;
  }

  /** The elements of what is open or bridged, by their places: that is another part, of all others nothing changes. */
  get #opened(): ReadonlyMap<number, ElementOf<number>> {
    this.#otherwise ??= this.#openAll();
    return this.#otherwise;
  }

  #openAll(): ReadonlyMap<number, ElementOf<number>> {
    const { machine, scene, elements } = this.#closed;
    const opened = new Map<number, ElementOf<number>>();
    const seen = new SceneSeen(machine.ctx, { ...scene, open: new Set(this.#open) });
    for (const id of this.#open) {
      const part = machine.circuit.byId.get(id);
      if (part === undefined) continue;
      part.elements(seen.by(part.placed, 0, null)).made.forEach((e, i) => {
        opened.set(part.offset + i, scaled(machine, part.offset + i, e));
      });
    }
    const bridged = machine.circuit.byId.get(this.#bridged?.id ?? '');
    for (let i = 0; i < (bridged?.count ?? 0); i += 1) {
      const at = (bridged?.offset ?? 0) + i;
      const e = opened.get(at) ?? elements[at];
      if (e?.type === 'resistor' && Number.isFinite(e.ohms)) opened.set(at, { ...e, ohms: LEAST_OHMS });
    }
    return opened;
  }

  get elements(): Elements {
    if (this.#elements === null) {
      const elements = [...this.#closed.elements];
      for (const [at, e] of this.#opened) elements[at] = e;
      this.#elements = elements;
    }
    return this.#elements;
  }

  /** Places of the elements that are no resistors. */
  get bent(): readonly number[] {
    this.#bent ??= this.elements.flatMap((e, i) => (e.type === 'resistor' ? [] : [i]));
    return this.#bent;
  }

  get point(): Point {
    const { machine } = this.#closed;
    this.#point ??= machine.plan.solve(this.elements, { steps: machine.steps });
    return this.#point;
  }

  /** null: they cannot be told. */
  get dead(): DeadEnds | null {
    if (this.#dead === undefined) {
      const { dead } = this.#closed;
      // By places, as builds of one shape may name their parts otherwise.
      const key = [...this.#opened].map(([at, e]) => at * SORTS + sortOf(e)).join();
      let made = dead.get(key);
      if (made === undefined) {
        made = this.#deadEnds();
        if (dead.size >= MOST_OPENED) dead.clear();
        dead.set(key, made);
      }
      this.#dead = made;
    }
    return this.#dead;
  }

  #deadEnds(): DeadEnds | null {
    const { plan, circuit } = this.#closed.machine;
    const sorts = this.#closed.sorts.slice();
    for (const [at, e] of this.#opened) sorts[at] = sortOf(e);
    return deadEndsOf(plan.nodeCount, circuit.shape, sorts);
  }

  /** Its lines; null: an element follows a curve. */
  get flows(): FaultFlows | null {
    if (this.#flows === undefined) {
      const { plan, circuit } = this.#closed.machine;
      const plain = this.#bridged?.plain;
      // A device's few milliohms move nothing to another line before a fault is laid: where all stands with them is where to begin.
      this.#flows =
        plain === undefined
          ? FaultFlows.of(straightNetOf(plan, circuit.shape), this.elements, this.point)
          : (plain.flows?.resisting(this.elements) ?? null);
    }
    return this.#flows;
  }
}
