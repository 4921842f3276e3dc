/** Short circuits: a fault laid on a wire, to the body or to its own return. */
import type { ElementOf, Id, LaidWire, ShortCase, ShortPoint } from '../contracts/index.ts';
import { carriesNothing, planCircuit, type Plan, type Point } from '../network/index.ts';
import type { Circuit, Scene } from './circuit.ts';
import type { Flow } from './fault-flow.ts';
import { voltsBetween } from './rules.ts';
import type { Machine } from './run.ts';
import { Closed, Sound } from './sound.ts';

export interface ShortContext {
  readonly machine: Machine;
  /** The scene of the greatest fault current (all sources on, coldest, full) and of the least (batteries alone). */
  readonly scenes: { readonly greatest: Scene; readonly least: Scene };
  /** The circuits of the two scenes with these batteries away and devices open, no fault laid on them yet. */
  readonly sound: Map<string, Sound>;
  readonly closed: Map<ShortCase['level'], Closed>;
  /** All batteries of the build. */
  readonly batteries: readonly string[];
  /** The star node and spread of the section nearest to a wire; null: no body that conducts. */
  nearestSection(wire: LaidWire): Section | null;
  /** The section of each wire, once found. */
  readonly sections: Map<LaidWire, Section | null>;
  /** Plans of faulted circuits, by the nodes that the fault joins. */
  readonly plans: Map<string, Plan>;
}

interface Section {
  readonly node: number;
  readonly spread: number;
}

const LEAST_OHMS = 1e-5;
const MOST_PLANS = 4000;
/** Between two nodes that stand no farther apart without a fault, a fault carries nothing, V: with 1e-5 Ω below 1e-7 A. */
const DEAD_VOLTS = 1e-12;

/** A short circuit as text; names hold no bar. */
export const shortKey = ({
  wire,
  along,
  into,
  level,
  contact,
  batteries,
  open,
  bridged,
}: ShortCase): string =>
  `${wire}|${along}|${into.type === 'chassis' ? '' : into.terminal}|${level}|${contact}|${batteries === 'all' ? '*' : batteries.join()}|${open.join()}|${bridged ?? ''}`;

export function solveShort(ctx: ShortContext, c: ShortCase): ShortPoint {
  const { circuit, steps } = ctx.machine;
  const place = placeOf(ctx, c);
  if (place === null) return NOTHING;
  const sound = soundFor(ctx, c);
  if (c.open.length > 0) {
    if (isDeadEnd(ctx, sound, place)) return deadEnd(ctx, sound, ohmsOf(c, place));
    if (isDead(sound, place)) return unfaulted(ctx, c, sound, place);
  }
  const ohms = ohmsOf(c, place);
  const flow = place.split ? null : (sound.flows?.flow(place.a, place.b, ohms) ?? null);
  if (flow !== null) {
    const laid = { wire: place.index, fault: -1, second: -1, ohms };
    return faultPoint(circuit, flow, laid, Math.abs(flow.fault));
  }
  const elements = laidOn(ctx, c, sound, place);
  const key = `${place.split ? place.index : -1}|${place.a}|${place.b}`;
  const plan =
    ctx.plans.get(key) ?? remember(ctx, key, planCircuit(place.nodes, circuit.nodes.reference, elements));
  const fault = elements.length - 1;
  const second = place.split ? fault - 1 : -1;
  const laid = { wire: place.index, fault, second, ohms };
  const point = plan.solve(elements, { steps });
  return faultPoint(circuit, new PointFlow(point, sound), laid, Math.abs(point.current(fault)));
}

/** Places among the elements: the faulted wire (counted from the first one), the fault and the wire's second half; -1: none. */
interface Laid {
  readonly wire: number;
  readonly fault: number;
  readonly second: number;
  readonly ohms: number;
}

function remember(ctx: ShortContext, key: string, plan: Plan): Plan {
  if (ctx.plans.size < MOST_PLANS) ctx.plans.set(key, plan);
  return plan;
}

function soundFor(ctx: ShortContext, c: ShortCase, id: Id | null = c.bridged ?? null): Sound {
  const open = openIn(ctx, c);
  const key = `${c.level}|${open.length > 1 ? open.join() : (open[0] ?? '')}|${id ?? ''}`;
  const known = ctx.sound.get(key);
  if (known !== undefined) return known;
  const bridged = id === null ? null : { id, plain: soundFor(ctx, c, null) };
  const made = new Sound(closedAt(ctx, c.level), open, bridged);
  ctx.sound.set(key, made);
  return made;
}

/** Devices that are open and batteries that are away, in the order of their ids. */
function openIn(ctx: ShortContext, { batteries, open }: ShortCase): readonly Id[] {
  if (batteries === 'all' && open.length < 2) return open;
  const away = batteries === 'all' ? [] : ctx.batteries.filter((b) => !batteries.includes(b));
  return [...new Set([...open, ...away])].toSorted();
}

function closedAt(ctx: ShortContext, level: ShortCase['level']): Closed {
  let closed = ctx.closed.get(level);
  if (closed === undefined) {
    const { machine, scenes } = ctx;
    closed = new Closed(machine, scenes[level], (wire) => copperAt(machine, wire, level));
    ctx.closed.set(level, closed);
  }
  return closed;
}

/** A fixed setting rules; else coldest copper for the greatest current, the insulation's rating for the least. */
function copperAt(m: Machine, wire: LaidWire, level: ShortCase['level']): number {
  if (typeof m.resistanceAt === 'number') return m.resistanceAt;
  return level === 'greatest' ? wire.coldest.sourced.value : wire.rating;
}

interface Place {
  readonly wire: LaidWire;
  readonly index: number;
  /** The nodes that the fault joins. */
  readonly a: number;
  readonly b: number;
  /** The ends of the wire. */
  readonly ends: readonly [number, number];
  /** The fault has a node of its own in the middle of the wire. */
  readonly split: boolean;
  readonly nodes: number;
  /** Ω between the contact and the node that it leads to. */
  readonly spread: number;
}

function placeOf(ctx: ShortContext, c: ShortCase): Place | null {
  const { nodes, wireIndex, wires, wireNodes } = ctx.machine.circuit;
  const index = wireIndex.get(c.wire) ?? -1;
  const wire = wires[index];
  if (wire === undefined) throw new Error(`no wire ${c.wire}`);
  const ends = wireNodes[index] ?? [-1, -1];
  const split = c.along === 0.5;
  const a = c.along === 0 ? ends[0] : c.along === 1 ? ends[1] : nodes.count;
  const section = c.into.type === 'chassis' ? sectionOf(ctx, wire) : null;
  const b = c.into.type === 'chassis' ? (section?.node ?? -1) : nodes.find(c.into.terminal);
  if (a < 0 || b < 0 || a === b) return null;
  const spread = section?.spread ?? 0;
  return { wire, index, a, b, ends, split, nodes: nodes.count + (split ? 1 : 0), spread };
}

function sectionOf(ctx: ShortContext, wire: LaidWire): Section | null {
  let section = ctx.sections.get(wire);
  if (section === undefined) {
    section = ctx.nearestSection(wire);
    ctx.sections.set(wire, section);
  }
  return section;
}

const ohmsOf = (c: ShortCase, place: Place): number => Math.max(c.contact + place.spread, LEAST_OHMS);

/** The elements with the fault as the last one; the array is written over by the next asking. */
function laidOn(ctx: ShortContext, c: ShortCase, sound: Sound, place: Place): readonly ElementOf<number>[] {
  const { a, b, ends, index } = place;
  const fault: ElementOf<number> = { type: 'resistor', a, b, ohms: ohmsOf(c, place) };
  if (!place.split) {
    sound.work ??= [...sound.elements];
    sound.work[sound.elements.length] = fault;
    return sound.work;
  }
  const { circuit } = ctx.machine;
  const ohms = Math.max(closedAt(ctx, c.level).ohmsOf(place.wire, index) / 2, LEAST_OHMS);
  const elements = [...sound.elements, { type: 'resistor', a, b: ends[1], ohms } as const, fault];
  elements[circuit.wireOffset + index] = { type: 'resistor', a: ends[0], b: a, ohms };
  return elements;
}

/** True where the fault closes no loop through anything that drives, and nor does its wire. */
function isDeadEnd({ machine }: ShortContext, sound: Sound, { a, b, ends, split, index }: Place): boolean {
  // A wire that carries nothing has the same volts in its middle as at its ends.
  return sound.dead?.isDead(split ? ends[0] : a, b, machine.circuit.wireOffset + index) ?? false;
}

/** True when nothing drives a current between the nodes of the fault. */
function isDead({ point }: Sound, { a, b, ends, split }: Place): boolean {
  if (!point.settled) return false;
  const dead = (node: number): boolean => Math.abs(voltsBetween(point, node, b) ?? 0) <= DEAD_VOLTS;
  return split ? ends.every(dead) : dead(a);
}

/** What flows where the fault carries nothing. */
function unfaulted(ctx: ShortContext, c: ShortCase, sound: Sound, place: Place): ShortPoint {
  const laid = { wire: place.index, fault: -1, second: -1, ohms: ohmsOf(c, place) };
  return faultPoint(ctx.machine.circuit, new SoundFlow(sound), laid, 0);
}

const NOTHING: ShortPoint = {
  amps: 0,
  halves: [0, 0],
  ohms: 0,
  pieces: null,
  wireAmps: () => 0,
  partAmps: () => 0,
};

/** As `unfaulted`, in a dead end: the sound circuit is solved only if somebody asks what flows elsewhere. */
function deadEnd(ctx: ShortContext, sound: Sound, ohms: number): ShortPoint {
  return new FaultPoint(ctx.machine.circuit, new SoundFlow(sound), { amps: 0, halves: [0, 0], ohms });
}

function faultPoint(circuit: Circuit, flow: Flow, laid: Laid, amps: number): ShortPoint {
  const from = Math.abs(flow.current(circuit.wireOffset + laid.wire));
  const to = laid.second < 0 ? from : Math.abs(flow.current(laid.second));
  return new FaultPoint(circuit, flow, { amps, halves: [from, to], ohms: laid.ohms });
}

class FaultPoint implements ShortPoint {
  readonly amps: number;
  readonly halves: readonly [number, number];
  readonly ohms: number;
  readonly #circuit: Circuit;
  readonly #flow: Flow;

  constructor(
    circuit: Circuit,
    flow: Flow,
    { amps, halves, ohms }: Pick<ShortPoint, 'amps' | 'halves' | 'ohms'>,
  ) {
    this.#circuit = circuit;
    this.#flow = flow;
    this.amps = amps;
    this.halves = halves;
    this.ohms = ohms;
  }

  get pieces(): string | null {
    return this.#flow.pieces;
  }

  wireAmps(wire: Id): number {
    const i = this.#circuit.wireIndex.get(wire);
    return i === undefined ? 0 : this.#flow.current(this.#circuit.wireOffset + i);
  }

  partAmps(part: Id, element: number): number {
    const slot = this.#circuit.byId.get(part);
    return slot === undefined || element >= slot.count ? 0 : this.#flow.current(slot.offset + element);
  }
}

/** What flows at a solved point. */
class PointFlow implements Flow {
  readonly #point: Point;
  readonly #sound: Sound;

  constructor(point: Point, sound: Sound) {
    this.#point = point;
    this.#sound = sound;
  }

  current(element: number): number {
    return this.#point.current(element);
  }

  get pieces(): string | null {
    return piecesOf(this.#point, this.#sound);
  }
}

/** What flows without a fault. */
class SoundFlow implements Flow {
  readonly #sound: Sound;

  constructor(sound: Sound) {
    this.#sound = sound;
  }

  current(element: number): number {
    return this.#sound.dead?.isIdle(element) === true ? 0 : this.#sound.point.current(element);
  }

  get pieces(): string | null {
    return piecesOf(this.#sound.point, this.#sound);
  }
}

/** Which straight line each element stands on; null: one follows a curve there. */
function piecesOf(point: Point, sound: Sound): string | null {
  let all = '';
  for (const i of sound.bent) {
    const piece = pieceOf(point, sound.elements[i], i);
    if (piece === null) return null;
    all += `${piece},`;
  }
  return all;
}

function pieceOf(point: Point, element: ElementOf<number> | undefined, index: number): string | null {
  switch (element?.type) {
    case 'hold':
      return point.regime(index);
    case 'pieces':
      return carriesNothing(element) ? '' : point.regime(index);
    case 'power':
      return element.watts === 0 ? '' : null;
    case 'converter':
      return element.on ? null : standbyPiece(point.drop(index), element.standbyAmps);
    default:
      return '';
  }
}

/** A converter that is off draws its standby current from 1 V on, a part of it below. */
function standbyPiece(volts: number, amps: number): string {
  if (amps === 0 || volts >= 1) return '';
  return volts < 0 ? 'below' : 'part';
}
