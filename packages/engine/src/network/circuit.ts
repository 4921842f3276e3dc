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
import { machineFor, type Machine } from './machine.ts';
import { LinearElements, nodePairs } from './linear.ts';
import { FLOATING, LEFT_OVER } from './loops.ts';
import { planElimination, type Elimination } from './order.ts';
import type { Numbers } from './numbers.ts';
import type { Steps } from './plan.ts';
import { SolvedPoint, type CircuitFacts, type Point } from './point.ts';
import { PortNet } from './ports.ts';
import { Layout, type Store } from './store.ts';
import { CURRENT, CURVED, LINE } from './straight.ts';
import { lineariseAll, NEAR_END, ramp, settle, STEP_END, type Settling } from './settle.ts';

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
  private net: PortNet;
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
  private readonly machine: Machine;
  private readonly layout: Layout;
  private store: Store;
  /** What the last correcting pass said. */
  private flags = 0;
  /** True while the network holds what the last reading gave, reduced to the ports. */
  private reduced = false;
  private pool = new Float64Array(0);
  private poolUsed = 0;
  /** What the last point said, for the next ones that say the same, and at which changes of the numbers. */
  private curves: readonly ElementOf<number>[] = [];
  private curvesAt = -1;
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
    this.layout = new Layout({
      plan: this.elimination,
      slot: this.linear.slot,
      linearA: this.linear.linearA,
      linearB: this.linear.linearB,
      resistors: this.linear.resistors,
      columns: mostColumns(elements),
      devices: devices.length,
    });
    this.machine = machineFor(this.layout);
    this.store = this.machine.place(this.layout);
    this.net = new PortNet(this.elimination, this.machine.loops, this.store);
    const curvedAt = new Int32Array(elements.length).fill(-1);
    curved.forEach((e, i) => {
      curvedAt[e] = i;
    });
    const currentAt = new Int32Array(elements.length);
    const through = 2 * nodeCount + devices.length;
    this.deviceElement.forEach((e, d) => {
      currentAt[e] = through + d;
    });
    this.linear.linear.forEach((e, i) => {
      currentAt[e] = through + devices.length + i;
    });
    this.facts = {
      shape: elements,
      nodeCount,
      deviceOf: this.deviceOf,
      deviceElement: Int32Array.from(this.deviceElement),
      positionOf,
      curvedAt,
      currentAt,
      oneIsland: new Int32Array(nodeCount),
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
    this.reduce(numbers);
    const { net, devices } = this;
    this.readDevices(elements);
    let settling = settle(net, devices, NEAR_END);
    this.correct();
    if (!settling.settled || this.store.farthest[0]! > LAST_STEP) {
      settling = this.again(elements, settling);
      this.correct();
    }
    if (steps !== undefined) {
      const ports = net.plan.nodeCount - net.plan.firstPort;
      steps.nodes += net.plan.nodeCount + ports * settling.iterations;
      steps.solves += 1;
    }
    const closed = (this.flags & LEFT_OVER) === 0;
    const settled = settling.settled && closed && this.store.farthest[0]! <= SURE_STEP;
    this.reduced = true;
    return this.pointOf(this.curvesOf(elements, numbers.changes), open, settled, settling.iterations);
  }

  /** Takes the numbers of resistors and straight lines, and reduces the network to the ports. */
  private reduce(numbers: Numbers): void {
    const { linear, machine } = this;
    // Whatever ends this point early leaves the network as it must not be relied on.
    const reduced = this.reduced && this.store.lease.live;
    this.reduced = false;
    if (!this.store.lease.live) {
      this.store = machine.place(this.layout);
      this.net = new PortNet(this.elimination, machine.loops, this.store);
    }
    linear.read(numbers, this.store);
    if (!reduced || linear.conductancesChanged) machine.loops.reduce(this.store);
    else if (linear.sourcesChanged) machine.loops.carry(this.store);
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
   * voltages would not. What the point keeps goes to `out`.
   */
  private correct(): void {
    const { net, deviceEnds } = this;
    const { residual, delta, unknown, out } = this.store;
    const devices = this.devices.all;
    const last = net.plan.nodeCount - 1;
    const count = devices.length;
    const sent = 2 * net.plan.nodeCount;
    this.machine.loops.lack(this.store);
    for (let d = 0; d < count; d += 1) {
      const through = devices[d]!.amps(net, false);
      residual[deviceEnds[4 * d]!]! -= through;
      residual[deviceEnds[4 * d + 1]!]! += through;
      out[sent + count + d] = through;
      if (deviceEnds[4 * d + 2] === last && deviceEnds[4 * d + 3] === last) continue;
      const outwards = devices[d]!.amps(net, true);
      residual[deviceEnds[4 * d + 2]!]! -= outwards;
      residual[deviceEnds[4 * d + 3]!]! += outwards;
      out[sent + d] = outwards;
    }
    lineariseAll(net, this.devices);
    net.beginCorrection();
    for (const device of this.devices.rowed) device.rows(net);
    this.flags = net.endCorrection();
    for (let d = 0; d < count; d += 1) {
      out[sent + count + d]! += devices[d]!.ampsChange(net, delta, unknown, false);
      if (deviceEnds[4 * d + 2] === last && deviceEnds[4 * d + 3] === last) continue;
      out[sent + d]! += devices[d]!.ampsChange(net, delta, unknown, true);
    }
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
    curves: readonly ElementOf<number>[],
    open: Uint8Array,
    settled: boolean,
    iterations: number,
  ): Point {
    const { L, out } = this.store;
    const begin = this.room(out.length);
    const block = this.pool;
    block.set(out, begin);
    const island = (this.flags & FLOATING) === 0 ? null : this.islands.of(L, block, begin);
    return new SolvedPoint(this.facts, {
      block,
      begin,
      island,
      open,
      curves,
      regimes: this.regimesNow(),
      settled,
      iterations,
    });
  }

  /** The elements that are no resistors; the array of the point before where they are the same. */
  private curvesOf(elements: readonly ElementOf<number>[], changes: number): readonly ElementOf<number>[] {
    const { curved, curves } = this;
    if (changes === this.curvesAt) return curves;
    this.curvesAt = changes;
    let same = curves.length === curved.length;
    for (let i = 0; same && i < curved.length; i += 1) same = curves[i] === elements[curved[i]!];
    if (same) return curves;
    const present: ElementOf<number>[] = [];
    for (let i = 0; i < curved.length; i += 1) present.push(elements[curved[i]!]!);
    this.curves = present;
    return present;
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
