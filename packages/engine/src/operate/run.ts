/** One scene from one memory: the event loop around operating points, with the copper's temperature settled. */
import type { ElementOf, Id, LaidWire, MemoryRule, Placed } from '../contracts/index.ts';
import { runEvents, type Outcome, type Plan, type Point } from '../network/index.ts';
import { varying, wireElement, wireOhms, type Circuit, type CircuitContext, type CircuitPart, type Scene } from './circuit.ts';

/** Counts of work, for tests that bound it. */
export interface Steps {
  nodes: number;
  solves: number;
}

export interface Machine {
  readonly ctx: CircuitContext;
  readonly circuit: Circuit;
  readonly plan: Plan;
  readonly steps: Steps;
  /** 'predicted': settled in each run; 'ambient'; or °C. */
  readonly resistanceAt: 'predicted' | 'ambient' | number;
  /** Air along a wire in a corner's weather, °C. */
  wireAir(wire: LaidWire, air: Scene['corner']['air']): number;
  /** Temperature of each wire's copper from its amperes (root mean square), at the given airs. */
  heated(amps: Float64Array, scene: Scene): Float64Array;
}

export interface Run {
  readonly scene: Scene;
  readonly outcome: Outcome<Point>;
  readonly temperatures: Float64Array;
}

const ROUNDS = 20;
const SETTLED_K = 0.1;
/** A state shorter than this does not heat copper noticeably. */
const SHORT_STATE_S = 60;

/** All outcomes of a scene entered with `initial` memory (one value per device with memory). */
export function runScene(m: Machine, scene: Scene, initial: readonly number[], temperatures?: Float64Array): readonly Run[] {
  let temps = temperatures ?? coolCopper(m, scene);
  const settles = temperatures === undefined && m.resistanceAt === 'predicted' && scene.state.lasts.sourced.value >= SHORT_STATE_S;
  let outcomes = eventsAt(m, scene, initial, temps);
  for (let round = 0; settles && round < ROUNDS; round++) {
    const next = m.heated(greatestRms(m, outcomes), scene);
    const change = greatestChange(temps, next);
    if (change <= SETTLED_K) break;
    temps = next;
    outcomes = eventsAt(m, scene, initial, temps);
  }
  return outcomes.map((outcome) => ({ scene, outcome, temperatures: temps }));
}

export function coolCopper(m: Machine, scene: Scene): Float64Array {
  const at = m.resistanceAt;
  return Float64Array.from(m.circuit.wires, (w) => (typeof at === 'number' ? at : m.wireAir(w, scene.corner.air)));
}

function greatestRms(m: Machine, outcomes: readonly Outcome<Point>[]): Float64Array {
  const { wireOffset, wires } = m.circuit;
  return Float64Array.from(wires, (_w, i) =>
    outcomes.reduce((most, o) => Math.max(most, o.rms((p) => p.current(wireOffset + i))), 0),
  );
}

function greatestChange(a: Float64Array, b: Float64Array): number {
  let most = 0;
  for (let i = 0; i < a.length; i++) most = Math.max(most, Math.abs((a[i] ?? 0) - (b[i] ?? 0)));
  return most;
}

function eventsAt(m: Machine, scene: Scene, initial: readonly number[], temps: Float64Array): readonly Outcome<Point>[] {
  return runEvents<Point>({
    initial,
    rules: rulesOf(m, scene, initial),
    solve: (memory) => m.plan.solve(sceneElements(m, scene, memory, temps), { steps: m.steps }),
    lastsMs: Math.round(scene.state.lasts.sourced.value * 1000),
  });
}

/** All elements of the circuit in a scene, with the devices' memory and the copper at its temperatures. */
export function sceneElements(m: Machine, scene: Scene, memory: readonly number[], temps: Float64Array): readonly ElementOf<number>[] {
  const { circuit, ctx } = m;
  const list: ElementOf<number>[] = [];
  const held = bankHeldAt(circuit, scene, memory);
  for (const part of circuit.parts) {
    const remembered = part.device >= 0 ? (memory[part.device] ?? 0) : 0;
    for (const e of part.elements(varying(ctx, scene, part.placed, remembered, held))) list.push(scaled(circuit, list.length, e));
  }
  circuit.wires.forEach((wire, i) => list.push(wireElement(circuit, i, wireOhms(wire, temps[i] ?? 20))));
  return list;
}

/** Resistances along a measured path are brought to what was measured. */
function scaled(circuit: Circuit, index: number, e: ElementOf<number>): ElementOf<number> {
  const factor = circuit.scale[index] ?? 1;
  return factor === 1 || e.type !== 'resistor' ? e : { ...e, ohms: Math.max(e.ohms * factor, 1e-5) };
}

/** Where converters are judged by their greatest power: the volts at which the charging ones hold the bank. */
function bankHeldAt(circuit: Circuit, scene: Scene, memory: readonly number[]): number | null {
  if (!scene.corner.ratedOutput) return null;
  let volts: number | null = null;
  for (const d of circuit.devices) {
    const converts = d.placed.ability.converts;
    if (converts === undefined || !converts.charging.includes(memory[d.device] ?? 0)) continue;
    volts = Math.max(volts ?? 0, converts.setVolts.sourced.value);
  }
  return volts;
}

interface Rule {
  readonly device: number;
  readonly from: number;
  readonly to: number;
  readonly delayMs: number;
  readonly holds: (p: Point) => boolean;
}

function rulesOf(m: Machine, scene: Scene, initial: readonly number[]): readonly Rule[] {
  return m.circuit.devices.flatMap((d) => {
    const memory = d.memory(varying(m.ctx, scene, d.placed, initial[d.device] ?? 0, null));
    return (memory?.rules ?? []).map((r) => ({
      device: d.device,
      from: r.from,
      to: r.to,
      delayMs: r.delayMs,
      holds: (p: Point) => holds(m.circuit, d, r, p),
    }));
  });
}

function holds(circuit: Circuit, part: CircuitPart, rule: MemoryRule, point: Point): boolean {
  return rule.when({
    volts: (a, b) => voltsBetween(point, circuit.nodes.own(part.placed.id, a), circuit.nodes.own(part.placed.id, b)) ?? 0,
    amps: (i) => point.current(part.offset + i),
  });
}

/** Volts from one node to another; null when they share no path. */
export function voltsBetween(point: Point, a: number, b: number): number | null {
  if (a < 0 || b < 0) return null;
  if (a === b) return 0;
  if (point.island[a] !== point.island[b]) return null;
  return (point.volts[a] ?? 0) - (point.volts[b] ?? 0);
}

/** The rule that moved a device, for the order of events. */
export function ruleSays(m: Machine, scene: Scene, part: CircuitPart, from: number, to: number): string {
  const memory = part.memory(varying(m.ctx, scene, part.placed, from, null));
  return memory?.rules.find((r) => r.from === from && r.to === to)?.says ?? '';
}

/** Everything off: each device at its start. */
export function startMemory(m: Machine, scene: Scene): readonly number[] {
  return m.circuit.devices.map((d) => d.memory(varying(m.ctx, scene, d.placed, 0, null))?.start ?? 0);
}

export function memoryOf(m: Machine, scene: Scene, part: CircuitPart): { readonly values: readonly string[]; readonly on: readonly number[] } | null {
  return part.memory(varying(m.ctx, scene, part.placed, 0, null));
}

export type { Id, Placed };
