/** One compiled circuit: assembly, port solution, all node voltages, and one correcting pass. */
import type { ElementOf, ResistorElement } from '../contracts/element.ts';
import { ConverterDevice } from './converter-port.ts';
import type { PortDevice } from './device.ts';
import { HoldDevice } from './hold.ts';
import { PiecesDevice } from './pieces.ts';
import { PowerDevice } from './power.ts';
import { enumerate } from './enumerate.ts';
import { Islands } from './islands.ts';
import { backward, forward } from './kernel.ts';
import { planElimination, type Elimination } from './order.ts';
import type { Steps, Tail } from './plan.ts';
import { SolvedPoint, type CircuitFacts, type Point } from './point.ts';
import { PortNet } from './ports.ts';
import { ampsOf, CURRENT, CURVED, LINE, siemensOf, voltsOf } from './straight.ts';
import { lineariseAll, NEAR_END, ramp, settle, STEP_END, type Settling } from './settle.ts';

/** A sum of currents (amperes) left at the last node of an island that is more than rounding. */
const STRAY_AMPS = 1e-9;

function nodePairs(element: ElementOf<number>): readonly number[] {
  if (element.type === 'converter') return [element.inA, element.inB, element.outA, element.outB];
  return [element.a, element.b];
}

/** Node pairs between which an element can conduct; the reference twice in place of a pair that it never joins. */
function joined(element: ElementOf<number>, role: number, reference: number): readonly number[] {
  const pairs = nodePairs(element);
  if (role === CURRENT) return pairs.map(() => reference);
  return role === LINE ? pairs.map((node, i) => (i < 2 ? node : reference)) : pairs;
}

function nodesOf(element: ElementOf<number>): readonly number[] {
  const pairs = nodePairs(element);
  if (element.type === 'hold' || element.type === 'converter')
    return [...pairs, element.senseA, element.senseB];
  return pairs;
}

/** Greatest step (volts) of the correcting pass: the error left is its square over the voltage, under rounding. */
const LAST_STEP = 1e-7;
/** Step (volts) of the correcting pass beyond which nothing counts as settled. */
const SURE_STEP = 1e-6;
/** Points whose numbers share one allocation. */
const POINTS_PER_POOL = 16;

/** Greatest number of unknown device currents: two for a converter, one for a regulator or a power. */
function mostColumns(elements: readonly ElementOf<number>[]): number {
  let most = 0;
  for (const element of elements) {
    if (element.type === 'converter') most += 2;
    else if (element.type === 'hold' || element.type === 'power') most += 1;
  }
  return most;
}

export class Circuit {
  private readonly elimination: Elimination;
  private readonly net: PortNet;
  private readonly islands: Islands;
  /** What each element is, by the codes of `roleOf`. */
  readonly roles: Uint8Array;
  // linear elements: element number, slot, positions, conductance at present
  private readonly resistors: Int32Array;
  private readonly resistorSlot: Int32Array;
  private readonly linear: Int32Array;
  private readonly linearA: Int32Array;
  private readonly linearB: Int32Array;
  private readonly siemens: Float64Array;
  /** Elements that are no resistors. */
  private readonly curved: Int32Array;
  private readonly facts: CircuitFacts;
  private readonly sources: Int32Array;
  private readonly sourceSlot: Int32Array;
  /** Of each source: volts and amperes where its line begins. */
  private readonly sourceVolts: Float64Array;
  private readonly sourceAmps: Float64Array;
  /** The elements that the numbers above were read from: an element that is still the same is not read again. */
  private readonly seen: (ElementOf<number> | null)[];
  private readonly deviceOf: Int32Array;
  private readonly devices: PortDevice<never>[] = [];
  private readonly deviceElement: number[] = [];
  private readonly deviceEnds: number[] = [];
  private readonly residual: Float64Array;
  private readonly delta: Float64Array;
  private readonly amps: Float64Array;
  private pool = new Float64Array(0);
  private poolUsed = 0;
  /** What the last point said, for the next ones that say the same. */
  private curves: readonly ElementOf<number>[] = [];
  private regimes: readonly string[] = [];

  constructor(
    nodeCount: number,
    reference: number,
    elements: readonly ElementOf<number>[],
    roles: Uint8Array,
  ) {
    this.roles = roles;
    const curved = elements.flatMap((element, e) => (element.type === 'resistor' ? [] : [e]));
    this.curved = Int32Array.from(curved);
    const edges: number[] = [];
    const isPort = new Uint8Array(nodeCount);
    const firstEdge: number[] = [];
    elements.forEach((element, e) => {
      for (const node of nodesOf(element)) {
        if (!(node >= 0 && node < nodeCount)) throw new RangeError(`element ${e}: ${node} is not a node`);
        if (roles[e] === CURVED) isPort[node] = 1;
      }
      firstEdge.push(edges.length / 2);
      edges.push(...joined(element, roles[e]!, reference));
    });
    this.elimination = planElimination(nodeCount, reference, Int32Array.from(edges), isPort);
    this.net = new PortNet(this.elimination, mostColumns(elements));
    this.islands = new Islands(this.elimination);
    const { positionOf, slotOfEdge } = this.elimination;
    const resistors: number[] = [];
    const sources: number[] = [];
    this.deviceOf = new Int32Array(elements.length).fill(-1);
    elements.forEach((element, e) => {
      if (element.type === 'resistor') resistors.push(e);
      else if (roles[e] !== CURVED) sources.push(e);
      else this.addDevice(element, e, slotOfEdge, firstEdge[e]!);
    });
    const linear = [...resistors, ...sources];
    this.resistors = Int32Array.from(resistors);
    this.sources = Int32Array.from(sources);
    this.resistorSlot = this.resistors.map((e) => slotOfEdge[firstEdge[e]!]!);
    this.sourceSlot = this.sources.map((e) => slotOfEdge[firstEdge[e]!]!);
    this.linear = Int32Array.from(linear);
    this.linearA = this.linear.map((e) => positionOf[nodePairs(elements[e]!)[0]!]!);
    this.linearB = this.linear.map((e) => positionOf[nodePairs(elements[e]!)[1]!]!);
    this.siemens = new Float64Array(linear.length);
    this.sourceVolts = new Float64Array(sources.length);
    this.sourceAmps = new Float64Array(sources.length);
    this.seen = linear.map(() => null);
    this.residual = new Float64Array(nodeCount);
    this.delta = new Float64Array(nodeCount);
    this.amps = new Float64Array(2 * this.devices.length);
    const curvedAt = new Int32Array(elements.length).fill(-1);
    curved.forEach((e, i) => {
      curvedAt[e] = i;
    });
    this.facts = {
      shape: elements,
      nodeCount,
      deviceOf: this.deviceOf,
      devices: this.devices.length,
      curvedAt,
    };
  }

  private addDevice(element: ElementOf<number>, e: number, slots: Int32Array, edge: number): void {
    const at = this.elimination.positionOf;
    this.deviceOf[e] = this.devices.length;
    this.deviceElement.push(e);
    const ends = nodePairs(element).map((node) => at[node]!);
    while (ends.length < 4) ends.push(at.length - 1);
    this.deviceEnds.push(...ends);
    this.devices.push(this.makeDevice(element, ends, slots, edge));
  }

  private makeDevice(
    element: ElementOf<number>,
    ends: readonly number[],
    slots: Int32Array,
    edge: number,
  ): PortDevice<never> {
    const at = this.elimination.positionOf;
    const [a = 0, b = 0, outA = 0, outB = 0] = ends;
    const slot = slots[edge]!;
    switch (element.type) {
      case 'hold':
        return new HoldDevice(a, b, at[element.senseA]!, at[element.senseB]!, slot);
      case 'power':
        return new PowerDevice(a, b, slot);
      case 'converter':
        return new ConverterDevice({
          inA: a,
          inB: b,
          outA,
          outB,
          senseA: at[element.senseA]!,
          senseB: at[element.senseB]!,
          inSlot: slot,
          outSlot: slots[edge + 1]!,
        });
      default:
        return new PiecesDevice(a, b, slot);
    }
  }

  /**
   * The operating point of these elements; `tail` has the resistances of the last ones. `open`: 1 for each open contact.
   */
  solve(
    elements: readonly ElementOf<number>[],
    tail: Tail | undefined,
    open: Uint8Array,
    steps?: Steps,
  ): Point {
    const { net, devices } = this;
    this.assemble(elements, tail);
    net.reduce();
    this.read(elements);
    let settling = settle(net, devices, NEAR_END);
    this.correct();
    if (!settling.settled || this.lastStep() > LAST_STEP) {
      settling = this.again(elements, settling);
      this.correct();
    }
    if (steps !== undefined) {
      const ports = net.plan.nodeCount - net.plan.firstPort;
      steps.nodes += net.plan.nodeCount + ports * settling.iterations;
      steps.solves += 1;
    }
    const settled = settling.settled && this.closed() && this.lastStep() <= SURE_STEP;
    return this.pointOf(elements, open, settled, settling.iterations);
  }

  /** The same from no load with a stricter end, then by a ramp, then by trying all pieces. */
  private again(elements: readonly ElementOf<number>[], first: Settling): Settling {
    const { net, devices } = this;
    let settling = first;
    if (first.settled) {
      this.read(elements);
      settling = settle(net, devices, STEP_END);
    }
    if (!settling.settled) {
      this.read(elements);
      settling = ramp(net, devices, settling.iterations);
    }
    if (!settling.settled) {
      this.read(elements);
      settling = enumerate(net, devices, settling.iterations);
    }
    return settling;
  }

  /** Largest change of a port's voltage in the correcting pass. */
  private lastStep(): number {
    let largest = 0;
    for (let k = this.net.plan.firstPort; k < this.delta.length; k += 1) {
      const size = Math.abs(this.delta[k]!);
      if (!(size <= largest)) largest = size;
    }
    return largest;
  }

  /** Gives the devices their numbers and takes them back to no load. */
  private read(elements: readonly ElementOf<number>[]): void {
    const { devices, deviceElement } = this;
    let fed = false;
    for (const e of deviceElement) {
      const element = elements[e]!;
      if (element.type === 'hold' && element.greatest > 0) fed = true;
    }
    for (let d = 0; d < devices.length; d += 1) devices[d]!.read(elements[deviceElement[d]!] as never, fed);
  }

  /** Conductances and source currents of the linear elements. */
  private assemble(elements: readonly ElementOf<number>[], tail: Tail | undefined): void {
    const { net, resistors, resistorSlot, sources, sourceSlot, siemens, linearA, linearB } = this;
    const { sourceVolts, sourceAmps } = this;
    const { S, J } = net;
    S.fill(0);
    J.fill(0);
    const count = resistors.length;
    this.readResistors(elements, tail);
    this.readSources(elements);
    for (let r = 0; r < count; r += 1) {
      const slot = resistorSlot[r]!;
      if (slot >= 0) S[slot]! += siemens[r]!;
    }
    for (let k = 0; k < sources.length; k += 1) {
      const g = siemens[count + k]!;
      const slot = sourceSlot[k]!;
      if (slot >= 0) S[slot]! += g;
      const known = sourceAmps[k]! - g * sourceVolts[k]!;
      J[linearA[count + k]!]! -= known;
      J[linearB[count + k]!]! += known;
    }
  }

  private readResistors(elements: readonly ElementOf<number>[], tail: Tail | undefined): void {
    const { resistors, siemens, seen } = this;
    const count = resistors.length;
    const from = tail === undefined ? elements.length : tail.from;
    let i = 0;
    for (; i < count; i += 1) {
      const e = resistors[i]!;
      if (e >= from) break;
      const element = elements[e] as ResistorElement<number>;
      if (seen[i] === element) continue;
      siemens[i] = conductance(element.ohms, e);
      seen[i] = element;
    }
    if (tail === undefined) return;
    const { ohms } = tail;
    for (; i < count; i += 1) {
      const e = resistors[i]!;
      siemens[i] = conductance(ohms[e - from]!, e);
      seen[i] = null;
    }
  }

  private readSources(elements: readonly ElementOf<number>[]): void {
    const { resistors, sources, siemens, seen, sourceVolts, sourceAmps } = this;
    const count = resistors.length;
    for (let k = 0; k < sources.length; k += 1) {
      const element = elements[sources[k]!]!;
      if (seen[count + k] === element) continue;
      siemens[count + k] = siemensOf(element);
      sourceVolts[k] = voltsOf(element);
      sourceAmps[k] = ampsOf(element);
      seen[count + k] = element;
    }
  }

  /** What each node lacks at the present voltages, branch by branch, into `residual`. */
  private lack(): void {
    const { net, siemens, linearA, linearB, residual, resistors, sources, sourceVolts, sourceAmps } = this;
    const v = net.v;
    residual.fill(0);
    const count = resistors.length;
    for (let i = 0; i < count; i += 1) {
      const a = linearA[i]!;
      const b = linearB[i]!;
      const amps = siemens[i]! * (v[a]! - v[b]!);
      residual[a]! -= amps;
      residual[b]! += amps;
    }
    for (let k = 0; k < sources.length; k += 1) {
      const a = linearA[count + k]!;
      const b = linearB[count + k]!;
      const amps = siemens[count + k]! * (v[a]! - v[b]! - sourceVolts[k]!) + sourceAmps[k]!;
      residual[a]! -= amps;
      residual[b]! += amps;
    }
  }

  /**
   * All node voltages, then one correction by what the branches lack there. The correction is kept beside the voltages
   * (not only added to them), which gives currents and small drops to full precision where differences of two
   * voltages would not. The devices' currents go to `amps`: through, then out.
   */
  private correct(): void {
    const { net, devices, deviceEnds, residual, delta, amps } = this;
    const { plan, L, inverse, J, v } = net;
    const first = plan.firstPort;
    const last = plan.nodeCount - 1;
    const count = devices.length;
    backward(plan, L, inverse, J, v, 0, first);
    this.lack();
    for (let d = 0; d < count; d += 1) {
      const through = devices[d]!.amps(net, false);
      residual[deviceEnds[4 * d]!]! -= through;
      residual[deviceEnds[4 * d + 1]!]! += through;
      amps[d] = through;
      if (deviceEnds[4 * d + 2] === last && deviceEnds[4 * d + 3] === last) continue;
      const out = devices[d]!.amps(net, true);
      residual[deviceEnds[4 * d + 2]!]! -= out;
      residual[deviceEnds[4 * d + 3]!]! += out;
      amps[count + d] = out;
    }
    forward(plan, L, residual, 0, last);
    lineariseAll(net, devices);
    net.openFrom(residual);
    net.flat = false;
    net.beginRows(true);
    for (const device of devices) device.rows(net);
    net.system.solve();
    const change = net.system.unknown;
    net.combine(delta);
    for (let d = 0; d < count; d += 1) {
      amps[d]! += devices[d]!.ampsChange(net, delta, change, false);
      if (deviceEnds[4 * d + 2] === last && deviceEnds[4 * d + 3] === last) continue;
      amps[count + d]! += devices[d]!.ampsChange(net, delta, change, true);
    }
    backward(plan, L, inverse, residual, delta, 0, first);
  }

  /** True when no island was left with a current that has no way out. */
  private closed(): boolean {
    const { net, residual } = this;
    for (let k = 0; k < net.plan.nodeCount - 1; k += 1) {
      if (net.inverse[k] === 0 && Math.abs(residual[k]!) > STRAY_AMPS) return false;
    }
    return true;
  }

  /** Takes room for one point's numbers from the pool; returns where it begins. */
  private room(size: number): number {
    if (this.pool.length < this.poolUsed + size) {
      this.pool = new Float64Array(size * POINTS_PER_POOL);
      this.poolUsed = 0;
    }
    const begin = this.poolUsed;
    this.poolUsed += size;
    return begin;
  }

  /** Currents of the linear elements, exact even where the difference of two voltages is small. */
  private currents(block: Float64Array, begin: number, into: number): void {
    const { net, linear, linearA, linearB, siemens, resistors, sourceVolts, sourceAmps } = this;
    const { nodeAt, nodeCount } = net.plan;
    const low = begin + nodeCount;
    const count = resistors.length;
    for (let i = 0; i < count; i += 1) {
      const a = nodeAt[linearA[i]!]!;
      const b = nodeAt[linearB[i]!]!;
      const g = siemens[i]!;
      const less = block[low + a]! - block[low + b]!;
      block[into + linear[i]!] = g === 0 ? 0 : g * (block[begin + a]! - block[begin + b]! + less);
    }
    for (let i = count; i < linear.length; i += 1) {
      const a = nodeAt[linearA[i]!]!;
      const b = nodeAt[linearB[i]!]!;
      const less = block[low + a]! - block[low + b]!;
      const volts = block[begin + a]! - block[begin + b]! - sourceVolts[i - count]! + less;
      block[into + linear[i]!] = siemens[i]! * volts + sourceAmps[i - count]!;
    }
  }

  private pointOf(
    elements: readonly ElementOf<number>[],
    open: Uint8Array,
    settled: boolean,
    iterations: number,
  ): Point {
    const { net, delta, devices, deviceElement, amps } = this;
    const { nodeAt, nodeCount } = net.plan;
    const count = devices.length;
    const begin = this.room(2 * nodeCount + count + elements.length);
    const block = this.pool;
    let floating = false;
    for (let k = 0; k < nodeCount; k += 1) {
      const at = begin + nodeAt[k]!;
      const v = net.v[k]!;
      const d = delta[k]!;
      const sum = v + d;
      block[at] = sum;
      block[nodeCount + at] = d - (sum - v);
      if (net.inverse[k] === 0 && k < nodeCount - 1) floating = true;
    }
    const island = floating ? this.islands.of(net.L, block, begin) : null;
    const sent = begin + 2 * nodeCount;
    this.currents(block, begin, sent + count);
    for (let d = 0; d < count; d += 1) {
      block[sent + count + deviceElement[d]!] = amps[d]!;
      block[sent + d] = amps[count + d]!;
    }
    return new SolvedPoint(this.facts, {
      block,
      begin,
      island,
      open,
      curves: this.curvesOf(elements),
      regimes: this.regimesNow(),
      settled,
      iterations,
    });
  }

  /** The elements that are no resistors; the array of the point before where they are the same. */
  private curvesOf(elements: readonly ElementOf<number>[]): readonly ElementOf<number>[] {
    const { curved, curves } = this;
    let same = curves.length === curved.length;
    for (let i = 0; same && i < curved.length; i += 1) same = curves[i] === elements[curved[i]!];
    if (!same) this.curves = Array.from(curved, (e) => elements[e]!);
    return this.curves;
  }

  /** What the devices do; the array of the point before where they do the same. */
  private regimesNow(): readonly string[] {
    const { devices, regimes } = this;
    let same = regimes.length === devices.length;
    for (let d = 0; same && d < devices.length; d += 1) same = regimes[d] === devices[d]!.regime();
    if (!same) this.regimes = devices.map((device) => device.regime());
    return this.regimes;
  }
}

function conductance(ohms: number, e: number): number {
  if (!(ohms > 0)) throw new RangeError(`element ${e}: ${ohms} ohm is not a resistance`);
  return 1 / ohms;
}
