/**
 * The network seen from the ports of its devices.
 *
 * Below the ports everything is reduced once per set of numbers. Each device then adds, for the piece it stands on, a
 * positive conductance, a known current, or a *column*: an unknown current across a node pair together with one linear
 * row that fixes it. Columns carry a helper conductance of 1 S in parallel with the unknown current; it changes no answer
 * (the unknown takes it up) but keeps a port that hangs on nothing well conditioned.
 */
import { backwardAt, factor, forward, forwardAt } from './kernel.ts';
import type { Elimination } from './order.ts';
import { SmallSystem, type Kind } from './small.ts';

/** Helper conductance across a column's node pair, siemens. */
const HELPER = 1;
/** A current below this (amperes) into an island that gives it no way out is rounding, not contradiction. */
const STRAY_AMPS = 1e-9;
/** Ohms by which a contradictory current pushes an island away, so that a piece moves. */
const PUSH_OHMS = 1e3;

export class PortNet {
  readonly plan: Elimination;
  readonly S: Float64Array;
  readonly L: Float64Array;
  readonly inverse: Float64Array;
  /** Injected currents by position, carried forward as elimination proceeds. */
  readonly J: Float64Array;
  /** Voltages by position; between Newton steps only those of the ports are current. */
  readonly v: Float64Array;
  /** Set while falling currents are kept as they were at the linearisation (a step that cannot overshoot). */
  flat = false;
  /** Above 1 where no stable point exists on the present pieces: flat currents then grow by it, to get past quickly. */
  hurry = 1;
  /** True when an island was given a current that has no way out. */
  pushed = false;
  readonly system: SmallSystem;
  private readonly baseS: Float64Array;
  private readonly baseJ: Float64Array;
  /**
   * Port voltages, one stretch of port positions after the other: by one ampere through each column, and last with all
   * unknown currents zero.
   */
  private readonly W: Float64Array;
  private readonly ports: number;
  private readonly columnA: Int32Array;
  private readonly columnB: Int32Array;
  private fixedRows = false;

  /** @param mostColumns greatest number of unknown device currents */
  constructor(plan: Elimination, mostColumns: number) {
    const n = plan.nodeCount;
    this.plan = plan;
    this.S = new Float64Array(plan.slotCount);
    this.L = new Float64Array(plan.slotCount);
    this.inverse = new Float64Array(n);
    this.J = new Float64Array(n);
    this.v = new Float64Array(n);
    this.system = new SmallSystem(mostColumns);
    this.ports = n - plan.firstPort;
    this.W = new Float64Array(this.ports * (mostColumns + 1));
    this.columnA = new Int32Array(mostColumns);
    this.columnB = new Int32Array(mostColumns);
    this.baseS = new Float64Array(plan.slotCount - plan.start[plan.firstPort]!);
    this.baseJ = new Float64Array(n - plan.firstPort);
  }

  /** Reduces everything below the ports; S and J must hold the linear part of the network. */
  reduce(): void {
    const { plan, S, J } = this;
    factor(plan, S, this.L, this.inverse, J, 0, plan.portRun);
    const slot = plan.start[plan.firstPort]!;
    for (let e = 0; e < this.baseS.length; e += 1) this.baseS[e] = S[slot + e]!;
    for (let k = 0; k < this.baseJ.length; k += 1) this.baseJ[k] = J[plan.firstPort + k]!;
  }

  /** The same where J alone has changed since. */
  carry(): void {
    const { plan, J } = this;
    forward(plan, this.L, J, 0, plan.portRun);
    for (let k = 0; k < this.baseJ.length; k += 1) this.baseJ[k] = J[plan.firstPort + k]!;
  }

  /** Starts a fresh set of stamps on top of the reduced network. */
  beginStamps(): void {
    const { plan, S, J } = this;
    const slot = plan.start[plan.firstPort]!;
    for (let e = 0; e < this.baseS.length; e += 1) S[slot + e] = this.baseS[e]!;
    for (let k = 0; k < this.baseJ.length; k += 1) J[plan.firstPort + k] = this.baseJ[k]!;
    this.system.clear();
  }

  /** Adds a conductance (siemens) to a slot. */
  conduct(slot: number, siemens: number): void {
    if (slot >= 0) this.S[slot]! += siemens;
  }

  /** Adds a known current (amperes) that flows from position a through a device to position b. */
  draw(a: number, b: number, amperes: number): void {
    this.J[a]! -= amperes;
    this.J[b]! += amperes;
  }

  /**
   * Adds an unknown current from a to b; returns its column.
   *
   * @param kind how the device's current answers to its voltage
   */
  column(slot: number, a: number, b: number, kind: Kind): number {
    this.conduct(slot, HELPER);
    const q = this.system.add(kind);
    this.columnA[q] = a;
    this.columnB[q] = b;
    return q;
  }

  /** Factors the ports and works out the response to every column. */
  endStamps(): void {
    const { plan, L, inverse, J, W, columnA, columnB, ports } = this;
    const from = plan.firstPort;
    const last = plan.nodeCount - 1;
    const count = this.system.size;
    factor(plan, this.S, L, inverse, J, plan.portRun, plan.runs.length / 4);
    this.push(from, last);
    for (let q = 0; q < count; q += 1) {
      const base = q * ports - from;
      const a = columnA[q]!;
      const b = columnB[q]!;
      for (let k = from; k < last; k += 1) W[base + k] = 0;
      W[base + a]! -= 1;
      W[base + b]! += 1;
      forwardAt(plan, L, W, base, a < b ? a : b, last);
      W[base + last] = 0;
      backwardAt(plan, L, inverse, W, base, from, last);
    }
    this.openFrom(J);
    this.system.order();
  }

  /** Pushes islands away that were given a current with no way out. */
  private push(from: number, last: number): void {
    const { inverse, J } = this;
    this.pushed = false;
    for (let k = from; k < last; k += 1) {
      if (inverse[k] !== 0) continue;
      const stray = J[k]!;
      if (stray <= STRAY_AMPS && stray >= -STRAY_AMPS) continue;
      inverse[k] = PUSH_OHMS;
      this.pushed = true;
    }
  }

  /** Takes these injected currents (already carried forward) for the voltages at zero unknown currents. */
  openFrom(J: Float64Array): void {
    const { plan, W, ports } = this;
    const from = plan.firstPort;
    const last = plan.nodeCount - 1;
    const base = this.system.size * ports - from;
    for (let k = from; k < last; k += 1) W[base + k] = J[k]!;
    W[base + last] = 0;
    backwardAt(plan, this.L, this.inverse, W, base, from, last);
  }

  /** Starts a fresh set of rows. In a correcting pass (`fixed`) rows count from the present point. */
  beginRows(fixed = false): void {
    this.fixedRows = fixed;
    this.system.clearRows();
  }

  /** Adds k times the voltage from a to b to row q. */
  rowVolts(q: number, a: number, b: number, k: number): void {
    const { W, v, plan, ports } = this;
    const { rows, size, scale } = this.system;
    const row = q * (size + 1);
    let wa = a - plan.firstPort;
    let wb = b - plan.firstPort;
    let largest = scale[q]!;
    for (let r = 0; r < size; r += 1) {
      const fromA = k * W[wa]!;
      const fromB = k * W[wb]!;
      rows[row + r]! += fromA - fromB;
      const sizeA = fromA < 0 ? -fromA : fromA;
      const sizeB = fromB < 0 ? -fromB : fromB;
      if (sizeA > largest) largest = sizeA;
      if (sizeB > largest) largest = sizeB;
      wa += ports;
      wb += ports;
    }
    scale[q] = largest;
    rows[row + size]! += k * (W[wa]! - W[wb]!);
    if (this.fixedRows) rows[row + size]! += k * (v[a]! - v[b]!);
  }

  /** Adds k times the current through the device at column r to row q. */
  rowAmps(q: number, r: number, k: number): void {
    const { rows, size, unknown } = this.system;
    rows[q * (size + 1) + r]! += k;
    if (this.fixedRows) rows[q * (size + 1) + size]! += k * unknown[r]!;
    this.rowVolts(q, this.columnA[r]!, this.columnB[r]!, k * HELPER);
  }

  /** Adds a constant to the right side of row q. */
  rowRight(q: number, value: number): void {
    const { rows, size } = this.system;
    rows[q * (size + 1) + size]! -= value;
  }

  /** Solves the rows and moves the ports' voltages there. */
  solveRows(): void {
    this.system.solve();
    this.combine(this.v);
  }

  /** Voltages of the ports that belong to the unknowns, into an array by position. */
  combine(into: Float64Array): void {
    const { plan, W, ports } = this;
    const { unknown, size } = this.system;
    const last = plan.nodeCount - 1;
    const from = plan.firstPort;
    const open = size * ports - from;
    for (let k = from; k < last; k += 1) into[k] = W[open + k]!;
    for (let q = 0; q < size; q += 1) {
      const amps = unknown[q]!;
      const base = q * ports - from;
      for (let k = from; k < last; k += 1) into[k]! += amps * W[base + k]!;
    }
    into[last] = 0;
  }

  /** Voltage from position a to position b. */
  volts(a: number, b: number): number {
    return this.v[a]! - this.v[b]!;
  }

  /** Current through the device at column q, amperes. */
  amps(q: number): number {
    return HELPER * (this.v[this.columnA[q]!]! - this.v[this.columnB[q]!]!) + this.system.unknown[q]!;
  }

  /** Change of the current through the device at column q in a correcting pass. */
  ampsChange(q: number, delta: Float64Array, change: Float64Array): number {
    return HELPER * (delta[this.columnA[q]!]! - delta[this.columnB[q]!]!) + change[q]!;
  }
}
