/** What can be asked of a run: volts, amperes, what is on, what happened. */
import type {
  AmpsOver,
  Condition,
  Cycle,
  ElementOf,
  Id,
  Solved,
  StateId,
  TerminalRef,
} from '../contracts/index.ts';
import { planCircuit, type Outcome, type Point } from '../network/index.ts';
import type { Circuit, CircuitPart } from './circuit.ts';
import { wireOhms } from './circuit.ts';
import { Frame } from './frame.ts';
import { ruleSays, voltsBetween } from './rules.ts';
import type { Machine, Run } from './run.ts';

/** Output at which a charger counts as charging, A. */
const CHARGING_A = 0.5;

export class SolvedRun implements Solved {
  readonly condition: Condition;
  readonly id: string;
  readonly cameFrom: readonly StateId[];
  readonly outcome: Solved['outcome'];
  readonly #m: Machine;
  readonly #run: Run;
  /** The point where nothing changes; null over a cycle or a run. */
  readonly #only: Point | null;
  #memory: ReadonlyMap<Id, number> | null = null;
  #amps: Float64Array | null = null;
  #rms: Float64Array | null = null;

  constructor(m: Machine, run: Run, condition: Condition, id: string, cameFrom: readonly StateId[]) {
    this.#m = m;
    this.#run = run;
    this.condition = condition;
    this.id = id;
    this.cameFrom = cameFrom;
    const { segments } = run.outcome;
    this.#only = segments.length === 1 ? (segments[0]?.point ?? null) : null;
    this.outcome = segments.some((s) => !s.point.settled) ? 'none' : run.outcome.type;
  }

  get run(): Run {
    return this.#run;
  }

  get #outcome(): Outcome<Point> {
    return this.#run.outcome;
  }

  #points(): readonly Point[] {
    return this.#run.outcome.segments.map((s) => s.point);
  }

  get memory(): ReadonlyMap<Id, number> {
    if (this.#memory === null) {
      const last = this.#last;
      this.#memory = new Map(this.#m.circuit.devices.map((d) => [d.placed.id, last[d.device] ?? 0]));
    }
    return this.#memory;
  }

  /** Memory at the end, or at the beginning of the cycle. */
  get #last(): readonly number[] {
    return this.#outcome.memories[0] ?? [];
  }

  get unsettled(): readonly string[] {
    const off = new Set(this.#points().flatMap((p) => (p.settled ? [] : [...p.unsettled])));
    return off.size === 0 ? [] : namesOf(this.#m.circuit, off);
  }

  get cycle(): Cycle | null {
    const o = this.#outcome;
    if (o.type !== 'cycle' && o.type !== 'irregular') return null;
    const duty = new Map<Id, number>();
    for (const d of this.#m.circuit.devices) {
      const on = this.#onValues(d);
      duty.set(
        d.placed.id,
        share(o, (memory) => on.includes(memory[d.device] ?? 0)),
      );
    }
    return {
      periodMs: o.periodMs,
      duty,
      order: this.#named(o.cycleEvents).map(({ from: _from, ...event }) => event),
    };
  }

  get events(): Solved['events'] {
    return this.#named(this.#outcome.events);
  }

  #named(events: Outcome<Point>['events']): Solved['events'] {
    return events.map((e) => {
      const memory = this.#run.memories[e.device] ?? null;
      return {
        atMs: e.atMs,
        part: this.#m.circuit.devices[e.device]?.placed.id ?? '',
        from: memory?.values[e.from] ?? String(e.from),
        to: memory?.values[e.to] ?? String(e.to),
        says: ruleSays(memory, e.from, e.to),
      };
    });
  }

  volts(a: TerminalRef, b: TerminalRef): number | null {
    const { nodes } = this.#m.circuit;
    const [i, j] = [nodes.find(a), nodes.find(b)];
    if (this.#only !== null) return voltsBetween(this.#only, i, j);
    return this.#meanVolts(i, j);
  }

  reading(a: TerminalRef, b: TerminalRef, meterOhms: number): number | null {
    const { nodes } = this.#m.circuit;
    const [i, j] = [nodes.find(a), nodes.find(b)];
    if (this.#only === null || i < 0 || j < 0 || i === j) return this.volts(a, b);
    const frame = new Frame(this.#m, this.#run.scene);
    const meter: ElementOf<number> = { type: 'resistor', a: i, b: j, ohms: meterOhms };
    const elements = [...frame.elements(this.#last, this.#run.temperatures), meter];
    const point = planCircuit(nodes.count, nodes.reference, elements).solve(elements, {
      steps: this.#m.steps,
    });
    return voltsBetween(point, i, j);
  }

  voltsRange(a: TerminalRef, b: TerminalRef): readonly [number, number] | null {
    const { nodes } = this.#m.circuit;
    const [i, j] = [nodes.find(a), nodes.find(b)];
    if (this.#only !== null) {
      const volts = voltsBetween(this.#only, i, j);
      return volts === null ? null : [volts, volts];
    }
    return this.#voltsOver(i, j);
  }

  /** null: somewhere they share no path. */
  #meanVolts(a: number, b: number): number | null {
    for (const s of this.#outcome.segments) if (voltsBetween(s.point, a, b) === null) return null;
    return this.#outcome.mean((p) => voltsBetween(p, a, b) ?? 0);
  }

  /** Least and greatest over what changes. */
  #voltsOver(a: number, b: number): readonly [number, number] | null {
    let [least, greatest] = [Infinity, -Infinity];
    for (const s of this.#outcome.segments) {
      const volts = voltsBetween(s.point, a, b);
      if (volts === null) continue;
      if (volts < least) least = volts;
      if (volts > greatest) greatest = volts;
    }
    return greatest < least ? null : [least, greatest];
  }

  wireAmps(wire: Id): number {
    return this.#mean(this.#wire(wire));
  }

  wireRms(wire: Id): number {
    const e = this.#wire(wire);
    if (e < 0) return 0;
    return this.#only === null ? this.#outcome.rms((p) => p.current(e)) : Math.abs(this.#only.current(e));
  }

  wireMost(wire: Id): number {
    const index = this.#m.circuit.wireIndex.get(wire);
    return index === undefined ? 0 : (this.mostAmps[index] ?? 0);
  }

  /** Greatest magnitude of the current in each wire, in their order, A. */
  get mostAmps(): Float64Array {
    if (this.#amps === null) {
      const { wires, wireOffset } = this.#m.circuit;
      this.#amps = new Float64Array(wires.length);
      if (this.#only === null) this.#amps = this.#amps.map((_, i) => this.#most(wireOffset + i));
      else this.#only.magnitudes(wireOffset, this.#amps);
    }
    return this.#amps;
  }

  get rmsAmps(): Float64Array {
    // Where nothing changes they are the greatest as well.
    if (this.#only !== null) return this.mostAmps;
    if (this.#rms === null) {
      const { wires, wireOffset } = this.#m.circuit;
      this.#rms = Float64Array.from(wires, (_wire, i) => this.#outcome.rms((p) => p.current(wireOffset + i)));
    }
    return this.#rms;
  }

  partAmps(part: Id, element: number): number {
    return this.#mean(this.#element(part, element));
  }

  partMost(part: Id, element: number): number {
    const e = this.#element(part, element);
    return e < 0 ? 0 : this.#most(e);
  }

  /** Writes the current of an element into the place of this outcome. */
  ampsInto(element: number, into: AmpsOver, at: number): void {
    into.mean[at] = this.#mean(element);
    into.most[at] = this.#only === null ? this.#most(element) : Math.abs(into.mean[at] ?? 0);
  }

  outAmps(part: Id): number {
    const e = this.#converter(part);
    if (e < 0) return 0;
    return this.#only === null ? this.#outcome.mean((p) => p.outCurrent(e)) : this.#only.outCurrent(e);
  }

  #mean(e: number): number {
    if (e < 0) return 0;
    return this.#only === null ? this.#outcome.mean((p) => p.current(e)) : this.#only.current(e);
  }

  #most(e: number): number {
    if (this.#only !== null) return Math.abs(this.#only.current(e));
    return this.#outcome.segments.reduce((most, s) => Math.max(most, Math.abs(s.point.current(e))), 0);
  }

  terminalAmps(part: Id, terminal: string): number {
    const { byId, nodes, shape } = this.#m.circuit;
    const slot = byId.get(part);
    if (slot === undefined) return 0;
    const node = nodes.own(part, terminal);
    if (this.#only !== null) return intoPart(this.#only, slot, shape, node);
    return this.#outcome.mean((p) => intoPart(p, slot, shape, node));
  }

  regime(part: Id, element: number): string {
    const e = this.#element(part, element);
    return e < 0 ? '' : (this.#points().at(-1)?.regime(e) ?? '');
  }

  wireTemperature(wire: Id): number {
    return this.#run.temperatures[this.#m.circuit.wireIndex.get(wire) ?? -1] ?? 20;
  }

  wireOhms(wire: Id): number {
    const index = this.#m.circuit.wireIndex.get(wire) ?? -1;
    const laid = this.#m.circuit.wires[index];
    if (laid === undefined) return 0;
    return (
      wireOhms(laid, this.#run.temperatures[index] ?? 20) *
      (this.#m.circuit.scale[this.#m.circuit.wireOffset + index] ?? 1)
    );
  }

  isOn(part: Id): boolean {
    const slot = this.#m.circuit.byId.get(part);
    if (slot === undefined || slot.device < 0) return false;
    return this.#onValues(slot).includes(this.#last[slot.device] ?? 0);
  }

  everOn(part: Id): boolean {
    const slot = this.#m.circuit.byId.get(part);
    if (slot === undefined || slot.device < 0) return false;
    const on = this.#onValues(slot);
    return this.#outcome.segments.some((s) => on.includes(s.memory[slot.device] ?? 0));
  }

  charging(part: Id): boolean {
    const e = this.#converter(part);
    const slot = this.#m.circuit.byId.get(part);
    const converts = slot?.placed.ability.converts;
    if (e < 0 || slot === undefined || converts === undefined) return false;
    return this.#outcome.segments.some(
      (s) => converts.charging.includes(s.memory[slot.device] ?? 0) && canCharge(s.point, e),
    );
  }

  get worstResidual(): number {
    return this.#points().reduce((worst, p) => Math.max(worst, shareOf(p)), 0);
  }

  #wire(wire: Id): number {
    const index = this.#m.circuit.wireIndex.get(wire);
    return index === undefined ? -1 : this.#m.circuit.wireOffset + index;
  }

  #element(part: Id, element: number): number {
    const slot = this.#m.circuit.byId.get(part);
    return slot === undefined || element >= slot.count ? -1 : slot.offset + element;
  }

  /** Index of the converter among all elements, -1 when the part has none. */
  #converter(part: Id): number {
    return this.#m.circuit.byId.get(part)?.converter ?? -1;
  }

  #onValues(part: CircuitPart): readonly number[] {
    return this.#run.memories[part.device]?.on ?? [];
  }
}

/** The output gives more than 0.5 A, or is held back only by the bank. */
function canCharge(point: Point, element: number): boolean {
  const regime = point.regime(element);
  return point.outCurrent(element) > CHARGING_A || regime === 'voltage' || regime === 'blocked';
}

/** Names of nodes: the terminals of wires there; of an inner node the parts that have it. */
function namesOf(circuit: Circuit, nodes: ReadonlySet<number>): readonly string[] {
  const names = new Set<string>();
  const wired = new Set<number>();
  circuit.wires.forEach((wire, i) => {
    for (const [terminal, node] of [
      [wire.from, circuit.wireNodes[i]?.[0] ?? -1],
      [wire.to, circuit.wireNodes[i]?.[1] ?? -1],
    ] as const) {
      if (!nodes.has(node)) continue;
      wired.add(node);
      names.add(terminal);
    }
  });
  for (const part of circuit.parts) {
    const inner = circuit.shape
      .slice(part.offset, part.offset + part.count)
      .flatMap((e) => (e.type === 'converter' ? [e.inA, e.inB, e.outA, e.outB] : [e.a, e.b]));
    if (inner.some((n) => nodes.has(n) && !wired.has(n))) names.add(part.placed.id);
  }
  return [...names];
}

/** Current into a part at a node, A. */
function intoPart(
  point: Point,
  { offset, count }: CircuitPart,
  shape: readonly ElementOf<number>[],
  node: number,
): number {
  let amps = 0;
  for (let i = offset; i < offset + count; i++) amps += into(point, i, shape[i], node);
  return amps;
}

/** Current into an element at a node, A. */
function into(point: Point, index: number, shape: ElementOf<number> | undefined, node: number): number {
  if (shape === undefined) return 0;
  const amps = point.current(index);
  if (shape.type !== 'converter') return (shape.a === node ? amps : 0) - (shape.b === node ? amps : 0);
  const out = point.outCurrent(index);
  const input = (shape.inA === node ? amps : 0) - (shape.inB === node ? amps : 0);
  return input - (shape.outA === node ? out : 0) + (shape.outB === node ? out : 0);
}

/** Largest sum of currents at a node, as a share of its island's largest current. */
function shareOf(point: Point): number {
  const { worstResidual, largestCurrent } = point.proof;
  return largestCurrent === 0 ? 0 : worstResidual / largestCurrent;
}

function share(o: Outcome<Point>, is: (memory: readonly number[]) => boolean): number {
  let on = 0;
  let all = 0;
  for (const s of o.segments) {
    all += s.durationMs;
    if (is(s.memory)) on += s.durationMs;
  }
  return all === 0 ? 0 : on / all;
}
