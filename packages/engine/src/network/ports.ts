/**
 * The network seen from the ports of its devices.
 *
 * Below the ports everything is reduced once per set of numbers. Each device then adds, for the piece it stands on, a
 * positive conductance, a known current, or a *column*: an unknown current across a node pair together with one linear
 * row that fixes it. Columns carry a helper conductance of 1 S in parallel with the unknown current; it changes no answer
 * (the unknown takes it up) but keeps a port that hangs on nothing well conditioned.
 */
import { backward, factor, forward } from './kernel.ts';
import type { Elimination } from './order.ts';
import { SmallSystem } from './small.ts';

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
  /** Voltages of the ports with all unknown currents zero. */
  readonly open: Float64Array;
  /** Set while falling currents are kept as they were at the linearisation (a step that cannot overshoot). */
  flat = false;
  /** True when an island was given a current that has no way out. */
  pushed = false;
  readonly system = new SmallSystem();
  private readonly baseS: Float64Array;
  private readonly baseJ: Float64Array;
  private readonly columns: Float64Array[] = [];
  private count = 0;
  private columnA = new Int32Array(8);
  private columnB = new Int32Array(8);
  private fixedRows = false;

  constructor(plan: Elimination) {
    const n = plan.nodeCount;
    this.plan = plan;
    this.S = new Float64Array(plan.slotCount);
    this.L = new Float64Array(plan.slotCount);
    this.inverse = new Float64Array(n);
    this.J = new Float64Array(n);
    this.v = new Float64Array(n);
    this.open = new Float64Array(n);
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

  /** Starts a fresh set of stamps on top of the reduced network. */
  beginStamps(): void {
    const { plan, S, J } = this;
    const slot = plan.start[plan.firstPort]!;
    for (let e = 0; e < this.baseS.length; e += 1) S[slot + e] = this.baseS[e]!;
    for (let k = 0; k < this.baseJ.length; k += 1) J[plan.firstPort + k] = this.baseJ[k]!;
    this.system.clear();
    this.count = 0;
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
   * @param falling true where the device's current falls as its voltage rises (constant power)
   */
  column(slot: number, a: number, b: number, falling: boolean): number {
    this.conduct(slot, HELPER);
    if (this.count === this.columnA.length) this.grow();
    this.columnA[this.count] = a;
    this.columnB[this.count] = b;
    this.count += 1;
    return this.system.add(falling);
  }

  private grow(): void {
    const a = new Int32Array(2 * this.count);
    const b = new Int32Array(2 * this.count);
    a.set(this.columnA);
    b.set(this.columnB);
    this.columnA = a;
    this.columnB = b;
  }

  /** Factors the ports and works out the response to every column. */
  endStamps(): void {
    const { plan, L, inverse, J, open } = this;
    const from = plan.firstPort;
    const last = plan.nodeCount - 1;
    factor(plan, this.S, L, inverse, J, plan.portRun, plan.runs.length / 4);
    this.pushed = false;
    for (let k = from; k < last; k += 1) {
      if (inverse[k] !== 0) continue;
      const stray = J[k]!;
      if (stray > STRAY_AMPS || stray < -STRAY_AMPS) {
        inverse[k] = PUSH_OHMS;
        this.pushed = true;
      }
    }
    backward(plan, L, inverse, J, open, from, last);
    for (let q = 0; q < this.count; q += 1) {
      const w = (this.columns[q] ??= new Float64Array(plan.nodeCount));
      for (let k = from; k <= last; k += 1) w[k] = 0;
      const a = this.columnA[q]!;
      const b = this.columnB[q]!;
      w[a]! -= 1;
      w[b]! += 1;
      forward(plan, L, w, a < b ? a : b, last);
      w[last] = 0;
      backward(plan, L, inverse, w, w, from, last);
    }
  }

  /** Starts a fresh set of rows. In a correcting pass (`fixed`) rows count from the present point, in `open` and unknowns. */
  beginRows(fixed = false): void {
    this.fixedRows = fixed;
    this.system.clearRows();
  }

  /** Adds k times the voltage from a to b to row q. */
  rowVolts(q: number, a: number, b: number, k: number): void {
    const { system, open, v } = this;
    for (let r = 0; r < this.count; r += 1) {
      const w = this.columns[r]!;
      system.addTo(q, r, k * (w[a]! - w[b]!));
    }
    if (this.fixedRows) system.addRight(q, -k * (v[a]! - v[b]!));
    system.addRight(q, -k * (open[a]! - open[b]!));
  }

  /** Adds k times the current through the device at column r to row q. */
  rowAmps(q: number, r: number, k: number): void {
    const { system } = this;
    system.addTo(q, r, k);
    if (this.fixedRows) system.addRight(q, -k * system.unknown[r]!);
    this.rowVolts(q, this.columnA[r]!, this.columnB[r]!, k * HELPER);
  }

  /** Adds a constant to the right side of row q. */
  rowRight(q: number, value: number): void {
    this.system.addRight(q, value);
  }

  /** Solves the rows and moves the ports' voltages there. */
  solveRows(): void {
    this.system.solve();
    this.combine(this.v, this.system.unknown);
  }

  /** into = open + columns x unknowns, ports only. */
  combine(into: Float64Array, unknown: Float64Array): void {
    const { plan, open } = this;
    const from = plan.firstPort;
    const end = plan.nodeCount;
    for (let k = from; k < end; k += 1) into[k] = open[k]!;
    for (let q = 0; q < this.count; q += 1) {
      const w = this.columns[q]!;
      const x = unknown[q]!;
      if (x === 0) continue;
      for (let k = from; k < end; k += 1) into[k]! += x * w[k]!;
    }
    into[end - 1] = 0;
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
