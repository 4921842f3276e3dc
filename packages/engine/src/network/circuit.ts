/** One compiled circuit: assembly, port solution, all node voltages, and one correcting pass. */
import type { ElementOf } from '../contracts/element.ts';
import { ConverterDevice } from './converter-port.ts';
import type { PortDevice } from './device.ts';
import { HoldDevice } from './hold.ts';
import { PiecesDevice } from './pieces.ts';
import { deviceSet, type DeviceSet } from './device-set.ts';
import { PowerDevice } from './power.ts';
import { enumerate } from './enumerate.ts';
import { Islands } from './islands.ts';
import { backward, forward } from './kernel.ts';
import { LinearElements, nodePairs } from './linear.ts';
import { planElimination, type Elimination } from './order.ts';
import type { Numbers } from './numbers.ts';
import type { Steps } from './plan.ts';
import { SolvedPoint, type CircuitFacts, type Point } from './point.ts';
import { PortNet } from './ports.ts';
import { CURRENT, CURVED, LINE } from './straight.ts';
import { lineariseAll, NEAR_END, ramp, settle, STEP_END, type Settling } from './settle.ts';

/** A sum of currents (amperes) left at the last node of an island that is more than rounding. */
const STRAY_AMPS = 1e-9;

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
  private readonly linear: LinearElements;
  /** Elements that are no resistors. */
  private readonly curved: Int32Array;
  private readonly facts: CircuitFacts;
  private readonly deviceOf: Int32Array;
  private readonly devices: DeviceSet;
  private readonly deviceElement: number[] = [];
  private readonly deviceEnds: number[] = [];
  private readonly residual: Float64Array;
  private readonly delta: Float64Array;
  private readonly amps: Float64Array;
  /** True while the network holds what the last reading gave, reduced to the ports. */
  private reduced = false;
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
    const devices: PortDevice<never>[] = [];
    elements.forEach((element, e) => {
      if (element.type === 'resistor') resistors.push(e);
      else if (roles[e] !== CURVED) sources.push(e);
      else devices.push(this.addDevice(element, e, slotOfEdge, firstEdge[e]!));
    });
    this.devices = deviceSet(devices);
    this.linear = new LinearElements(
      elements,
      { resistors, sources },
      positionOf,
      (e) => slotOfEdge[firstEdge[e]!]!,
    );
    this.residual = new Float64Array(nodeCount);
    this.delta = new Float64Array(nodeCount);
    this.amps = new Float64Array(2 * devices.length);
    const curvedAt = new Int32Array(elements.length).fill(-1);
    curved.forEach((e, i) => {
      curvedAt[e] = i;
    });
    this.facts = {
      shape: elements,
      nodeCount,
      deviceOf: this.deviceOf,
      deviceElement: Int32Array.from(this.deviceElement),
      positionOf,
      curvedAt,
      linear: this.linear,
    };
  }

  private addDevice(
    element: ElementOf<number>,
    e: number,
    slots: Int32Array,
    edge: number,
  ): PortDevice<never> {
    const at = this.elimination.positionOf;
    this.deviceOf[e] = this.deviceElement.length;
    this.deviceElement.push(e);
    const ends = nodePairs(element).map((node) => at[node]!);
    while (ends.length < 4) ends.push(at.length - 1);
    this.deviceEnds.push(...ends);
    return this.makeDevice(element, ends, slots, edge);
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

  /** The operating point of these elements, whose numbers these are. `open`: 1 for each open contact. */
  solve(elements: readonly ElementOf<number>[], numbers: Numbers, open: Uint8Array, steps?: Steps): Point {
    const { net, devices } = this;
    this.reduce(numbers);
    this.readDevices(elements);
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

  /** Takes the numbers of resistors and straight lines, and reduces the network to the ports. */
  private reduce(numbers: Numbers): void {
    const { net, linear } = this;
    linear.read(numbers);
    if (!this.reduced || linear.conductancesChanged) {
      linear.stamp(net.S);
      linear.inject(net.J);
      net.reduce();
    } else if (linear.sourcesChanged) {
      linear.inject(net.J);
      net.carry();
    }
    this.reduced = true;
  }

  /** The same from no load with a stricter end, then by a ramp, then by trying all pieces. */
  private again(elements: readonly ElementOf<number>[], first: Settling): Settling {
    const { net, devices } = this;
    let settling = first;
    if (first.settled) {
      this.readDevices(elements);
      settling = settle(net, devices, STEP_END);
    }
    if (!settling.settled) {
      this.readDevices(elements);
      settling = ramp(net, devices, settling.iterations);
    }
    if (!settling.settled) {
      this.readDevices(elements);
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
  private readDevices(elements: readonly ElementOf<number>[]): void {
    const { deviceElement } = this;
    const devices = this.devices.all;
    let fed = false;
    for (const e of deviceElement) {
      const element = elements[e]!;
      if (element.type === 'hold' && element.greatest > 0) fed = true;
    }
    for (let d = 0; d < devices.length; d += 1) devices[d]!.read(elements[deviceElement[d]!] as never, fed);
  }

  /**
   * All node voltages, then one correction by what the branches lack there. The correction is kept beside the voltages
   * (not only added to them), which gives currents and small drops to full precision where differences of two
   * voltages would not. The devices' currents go to `amps`: through, then out.
   */
  private correct(): void {
    const { net, deviceEnds, residual, delta, amps } = this;
    const { plan, L, inverse, J, v } = net;
    const devices = this.devices.all;
    const last = plan.nodeCount - 1;
    const count = devices.length;
    backward(plan, L, inverse, J, v, 0, plan.portRun);
    this.linear.lack(net.v, residual);
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
    forward(plan, L, residual, 0, plan.runs.length / 4);
    lineariseAll(net, this.devices);
    net.openFrom(residual);
    net.flat = false;
    net.beginRows(true);
    for (const device of this.devices.rowed) device.rows(net);
    net.system.solve();
    const change = net.system.unknown;
    net.combine(delta);
    for (let d = 0; d < count; d += 1) {
      amps[d]! += devices[d]!.ampsChange(net, delta, change, false);
      if (deviceEnds[4 * d + 2] === last && deviceEnds[4 * d + 3] === last) continue;
      amps[count + d]! += devices[d]!.ampsChange(net, delta, change, true);
    }
    backward(plan, L, inverse, residual, delta, 0, plan.portRun);
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

  private pointOf(
    elements: readonly ElementOf<number>[],
    open: Uint8Array,
    settled: boolean,
    iterations: number,
  ): Point {
    const { net, delta, deviceElement, amps, linear } = this;
    const { v, inverse } = net;
    const { nodeCount } = net.plan;
    const count = deviceElement.length;
    const begin = this.room(2 * nodeCount + 2 * count + linear.size);
    const block = this.pool;
    const low = begin + nodeCount;
    let floating = false;
    for (let k = 0; k < nodeCount; k += 1) {
      const d = delta[k]!;
      const sum = v[k]! + d;
      block[begin + k] = sum;
      block[low + k] = d - (sum - v[k]!);
      if (inverse[k] === 0 && k < nodeCount - 1) floating = true;
    }
    const island = floating ? this.islands.of(net.L, block, begin) : null;
    const sent = low + nodeCount;
    for (let d = 0; d < count; d += 1) {
      block[sent + d] = amps[count + d]!;
      block[sent + count + d] = amps[d]!;
    }
    linear.keep(block, sent + 2 * count);
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
    const { regimes } = this;
    const devices = this.devices.all;
    let same = regimes.length === devices.length;
    for (let d = 0; same && d < devices.length; d += 1) same = regimes[d] === devices[d]!.regime();
    if (!same) this.regimes = devices.map((device) => device.regime());
    return this.regimes;
  }
}
