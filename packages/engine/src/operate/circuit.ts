/** The circuit of a build: nodes, elements of every part and wire in a fixed order; only numbers change with conditions. */
import type {
  CornerFacts,
  ElementOf,
  Id,
  LaidWire,
  Memory,
  Mode,
  Placed,
  StateFacts,
  Surroundings,
} from '../contracts/index.ts';
import type { Basis } from '../contracts/index.ts';
import { elementNodes, renamed } from './element-nodes.ts';
import { remembering, type Entry, type Fixed, type PartElements, type Varying } from './memo.ts';
import { numberNodes, type Nodes } from './nodes.ts';
import type { PlacedParts } from './placed.ts';

/** What is the same for all parts in a scene (a state under a corner with hands). */
export interface Scene {
  readonly mode: Mode;
  readonly state: StateFacts;
  readonly corner: CornerFacts;
  readonly shore: boolean;
  readonly sun: boolean;
  readonly hands: Readonly<Record<Id, boolean>>;
  readonly open: ReadonlySet<Id>;
  readonly unknownLive: boolean;
  readonly setPoint: Basis | null;
  readonly leastSetPoint: number | null;
  readonly vehicleRest: number | null;
}

export interface CircuitPart {
  readonly placed: Placed;
  /** Place among the parts. */
  readonly index: number;
  /** Index of its first element. */
  readonly offset: number;
  readonly count: number;
  readonly elements: PartElements;
  readonly memory: (at: Varying) => Entry<Memory | null>;
  /** Index among the devices with memory, or -1. */
  readonly device: number;
  /** Index of its converter among all elements, or -1. */
  readonly converter: number;
}

export interface Circuit {
  readonly nodes: Nodes;
  readonly parts: readonly CircuitPart[];
  readonly byId: ReadonlyMap<Id, CircuitPart>;
  readonly wires: readonly LaidWire[];
  /** Index of the first wire's element; wire i is element `wireOffset + i`. */
  readonly wireOffset: number;
  readonly wireIndex: ReadonlyMap<Id, number>;
  readonly wireNodes: readonly (readonly [number, number])[];
  /** Types and nodes of all elements (the numbers are those of the sample scene). */
  readonly shape: readonly ElementOf<number>[];
  /** Devices with memory, in the order of parts. */
  readonly devices: readonly CircuitPart[];
  /** Factor on the resistance of elements along measured paths; 1 elsewhere. */
  readonly scale: Float64Array;
}

export interface CircuitContext {
  readonly placed: PlacedParts;
  readonly laid: ReadonlyMap<Id, LaidWire>;
  readonly nominal: { readonly vehicle: number; readonly house: number };
  /** A scene for the first asking, from which the shape of the circuit is taken. */
  readonly sample: Scene;
  air(place: Id | null, corner: CornerFacts): number;
}

/** Resistance of a wire whose size or length nobody gave: a short heavy cable, so that nothing is found by accident. */
export const UNKNOWN_WIRE_OHMS = 0.001;

/** Least resistance of anything, Ω. */
export const LEAST_OHMS = 1e-5;

export function makeCircuit(ctx: CircuitContext): Circuit {
  const { placed, laid } = ctx;
  const fixed = new Map<Id, Fixed>();
  const samples = new Map<Id, readonly ElementOf<string>[]>();
  const surroundings = new Map<Id, Surroundings>();
  const used = new Set<string>();
  const terminals = wiredTerminals(placed);
  const seen = new SceneSeen(ctx, ctx.sample);
  for (const part of placed.parts.values()) {
    const f = fixedFor(part, ctx, terminals.get(part.id) ?? []);
    const at = surroundingsOf(f, seen.by(part, 0, null));
    const sample = part.kind.elements(at);
    surroundings.set(part.id, at);
    fixed.set(part.id, f);
    samples.set(part.id, sample);
    for (const name of elementNodes(part.id, sample)) used.add(name);
  }
  const nodes = numberNodes(placed, used);
  const parts: CircuitPart[] = [];
  let offset = 0;
  let device = 0;
  for (const part of placed.parts.values()) {
    const f = fixed.get(part.id);
    const count = samples.get(part.id)?.length ?? 0;
    const at = surroundings.get(part.id);
    if (f === undefined || at === undefined) continue;
    const remembers = part.kind.memory !== undefined && part.kind.memory(at) !== null;
    parts.push({
      placed: part,
      index: parts.length,
      offset,
      count,
      elements: remembering(f, (at) => renamed(part.id, part.kind.elements(at), nodes)),
      memory: remembering(f, (at) => part.kind.memory?.(at) ?? null),
      device: remembers ? device++ : -1,
      converter: converterAt(offset, samples.get(part.id) ?? []),
    });
    offset += count;
  }
  const wires = [...laid.values()];
  const total = offset + wires.length;
  const wireNodes = wires.map((w): readonly [number, number] => [nodes.find(w.from), nodes.find(w.to)]);
  const shape = [
    ...parts.flatMap((p) => renamed(p.placed.id, samples.get(p.placed.id) ?? [], nodes)),
    ...wireNodes.map(([a, b]): ElementOf<number> => ({ type: 'resistor', a, b, ohms: LEAST_OHMS })),
  ];
  return {
    shape,
    nodes,
    parts,
    byId: new Map(parts.map((p) => [p.placed.id, p])),
    wires,
    wireOffset: offset,
    wireIndex: new Map(wires.map((w, i) => [w.id, i])),
    wireNodes,
    devices: parts.filter((p) => p.device >= 0),
    scale: new Float64Array(total).fill(1),
  };
}

/** Place of the converter among a part's elements, counted from its first one's; -1: none. */
function converterAt(offset: number, elements: readonly ElementOf<string>[]): number {
  const i = elements.findIndex((e) => e.type === 'converter');
  return i < 0 ? -1 : offset + i;
}

const terminalsOf = new WeakMap<PlacedParts['wired'], ReadonlyMap<Id, readonly string[]>>();

/** Terminals with wires by part, sorted; the same under every assumption. */
function wiredTerminals({ wired }: PlacedParts): ReadonlyMap<Id, readonly string[]> {
  const known = terminalsOf.get(wired);
  if (known !== undefined) return known;
  const terminals = new Map<Id, string[]>();
  for (const name of [...wired.keys()].toSorted()) {
    const dot = name.indexOf('.');
    if (dot < 0) continue;
    const part = name.slice(0, dot);
    const terminal = name.slice(dot + 1);
    const list = terminals.get(part);
    if (list === undefined) terminals.set(part, [terminal]);
    else list.push(terminal);
  }
  terminalsOf.set(wired, terminals);
  return terminals;
}

function fixedFor(part: Placed, ctx: CircuitContext, wiredTerminals: readonly string[]): Fixed {
  const wired = new Set(wiredTerminals);
  return {
    read: part.read,
    part: part.id,
    nominal: ctx.nominal,
    vehicle: ctx.placed.vehicle,
    sectionMedium: (id) => ctx.placed.parts.get(id)?.ability.section?.medium ?? null,
    wiredTerminals,
    wired: (terminal) => wired.has(terminal),
    other: (id) => ctx.placed.parts.get(id)?.read ?? null,
  };
}

/** Written out: copying two objects with all their fields takes many times as long. */
const surroundingsOf = (fixed: Fixed, at: Varying): Surroundings => ({
  read: fixed.read,
  part: fixed.part,
  nominal: fixed.nominal,
  vehicle: fixed.vehicle,
  sectionMedium: fixed.sectionMedium,
  wiredTerminals: fixed.wiredTerminals,
  wired: fixed.wired,
  other: fixed.other,
  mode: at.mode,
  state: at.state,
  corner: at.corner,
  shore: at.shore,
  sun: at.sun,
  closed: at.closed,
  opened: at.opened,
  memory: at.memory,
  air: at.air,
  setPoint: at.setPoint,
  leastSetPoint: at.leastSetPoint,
  vehicleRest: at.vehicleRest,
  bankHeldAt: at.bankHeldAt,
  unknownLive: at.unknownLive,
});

/** What parts may know of a scene; one at a time. */
export class SceneSeen implements Varying {
  readonly mode: Varying['mode'];
  readonly state: Varying['state'];
  readonly corner: Varying['corner'];
  readonly shore: boolean;
  readonly sun: boolean;
  readonly setPoint: Varying['setPoint'];
  readonly leastSetPoint: number | null;
  readonly vehicleRest: number | null;
  readonly unknownLive: boolean;
  memory = 0;
  bankHeldAt: Varying['bankHeldAt'] = null;
  #part: Placed | null = null;
  readonly #ctx: CircuitContext;
  readonly #scene: Scene;

  constructor(ctx: CircuitContext, scene: Scene) {
    this.#ctx = ctx;
    this.#scene = scene;
    this.mode = scene.mode;
    this.state = scene.state;
    this.corner = scene.corner;
    this.shore = scene.shore;
    this.sun = scene.sun;
    this.setPoint = scene.setPoint;
    this.leastSetPoint = scene.leastSetPoint;
    this.vehicleRest = scene.vehicleRest;
    this.unknownLive = scene.unknownLive;
  }

  /** As this part sees it, with its own memory, while banks are held at these volts; until the next one looks. */
  by(part: Placed, memory: number, bankHeldAt: Varying['bankHeldAt']): Varying {
    this.#part = part;
    this.memory = memory;
    this.bankHeldAt = bankHeldAt;
    return this;
  }

  // What each part knows by itself; few look.
  get opened(): boolean {
    const part = this.#part;
    if (part === null) return false;
    const { open, state } = this.#scene;
    return open.has(part.id) || (state.stored && part.read.choice('stored') === 'open');
  }

  get closed(): boolean {
    const part = this.#part;
    if (part === null || this.opened) return false;
    return this.#scene.hands[part.id] ?? part.ability.switches?.normal !== 'open';
  }

  get air(): number {
    return this.#part === null ? 20 : this.#ctx.air(this.#part.at, this.#scene.corner);
  }
}

/** Ohms of a wire with its joints at a copper temperature. */
export function wireOhms(wire: LaidWire, celsius: number): number {
  const joints = wire.joints[0].sourced.value + wire.joints[1].sourced.value;
  const copper =
    wire.ohms20 === null ? UNKNOWN_WIRE_OHMS : wire.ohms20.sourced.value * (1 + 0.00393 * (celsius - 20));
  return Math.max(copper + joints, LEAST_OHMS);
}

/** The element of a wire. */
export function wireElement(circuit: Circuit, index: number, ohms: number): ElementOf<number> {
  const ends = circuit.wireNodes[index];
  const scale = circuit.scale[circuit.wireOffset + index] ?? 1;
  return { type: 'resistor', a: ends?.[0] ?? 0, b: ends?.[1] ?? 0, ohms: Math.max(ohms * scale, LEAST_OHMS) };
}
