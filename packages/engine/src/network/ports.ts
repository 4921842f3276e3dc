/**
 * The network seen from the ports of its devices.
 *
 * Below the ports everything is reduced once per set of numbers. Each device then adds, for the piece it stands on, a
 * positive conductance, a known current, or a *column*: an unknown current across a node pair together with one linear
 * row that fixes it. Columns carry a helper conductance of 1 S in parallel with the unknown current; it changes no answer
 * (the unknown takes it up) but keeps a port that hangs on nothing well conditioned.
 */
import type { Loops } from './loops.ts';
import type { Elimination } from './order.ts';
import { CONTRADICTORY, UNSTABLE, type Kind } from './small.ts';
import type { Store } from './store.ts';

/** Helper conductance across a column's node pair, siemens. */
const HELPER = 1;

export class PortNet {
  readonly plan: Elimination;
  /** Set while falling currents are kept as they were at the linearisation (a step that cannot overshoot). */
  flat = false;
  /** Above 1 where no stable point exists on the present pieces: flat currents then grow by it, to get past quickly. */
  hurry = 1;
  /** True when an island was given a current that has no way out. */
  pushed = false;
  /** True when some falling device is beyond the tip of its curve at the last linearisation. */
  unstable = false;
  /** True when a row without pivot asks for something (its device cannot get what it regulates). */
  contradictory = false;
  private readonly store: Store;
  /** Slot conductances, siemens, and injected currents by position, amperes: what the devices add to. */
  readonly S: Float64Array;
  readonly J: Float64Array;
  /** Voltages by position; between Newton steps only those of the ports are current. */
  readonly v: Float64Array;
  /** Unknown currents, by column, amperes. */
  readonly unknown: Float64Array;
  /** By column, 1 where the row had no pivot: its device has no influence on what it regulates. */
  readonly powerless: Int32Array;
  private readonly loops: Loops;
  private readonly ports: number;
  /** Number of unknown currents. */
  private size = 0;
  /** Rows of `size` coefficients and one constant: coefficients x unknowns + constant = 0. Clear between steps. */
  private readonly rows: Float64Array;
  /** Largest contribution to a coefficient of each row: what is far smaller is rounding. */
  private readonly scale: Float64Array;
  /**
   * Port voltages, one stretch of port positions after the other: by one ampere through each column, and last with all
   * unknown currents zero.
   */
  private readonly W: Float64Array;
  private readonly kind: Int32Array;
  private readonly columnA: Int32Array;
  private readonly columnB: Int32Array;
  private fixedRows = false;

  constructor(plan: Elimination, loops: Loops, store: Store) {
    this.plan = plan;
    this.loops = loops;
    this.ports = plan.nodeCount - plan.firstPort;
    this.store = store;
    this.S = store.S;
    this.J = store.J;
    this.v = store.v;
    this.unknown = store.unknown;
    this.powerless = store.powerless;
    this.rows = store.rows;
    this.scale = store.scale;
    this.W = store.W;
    this.kind = store.kind;
    this.columnA = store.columnA;
    this.columnB = store.columnB;
  }

  /** Starts a fresh set of stamps on top of the reduced network. */
  beginStamps(): void {
    this.size = 0;
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
    const q = this.size;
    this.size += 1;
    this.kind[q] = kind;
    this.columnA[q] = a;
    this.columnB[q] = b;
    return q;
  }

  /** Factors the ports and works out the response to every column. */
  endStamps(): void {
    this.pushed = this.loops.ports(this.store, this.size) !== 0;
  }

  /** Starts a fresh set of rows. In a correcting pass (`fixed`) rows count from the present point. */
  beginRows(fixed = false): void {
    this.fixedRows = fixed;
  }

  /** Adds k times the voltage from a to b to row q. */
  rowVolts(q: number, a: number, b: number, k: number): void {
    const { W, v, plan, ports, rows, size, scale } = this;
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
    const { rows, size, unknown } = this;
    rows[q * (size + 1) + r]! += k;
    if (this.fixedRows) rows[q * (size + 1) + size]! += k * unknown[r]!;
    this.rowVolts(q, this.columnA[r]!, this.columnB[r]!, k * HELPER);
  }

  /** Adds a constant to the right side of row q. */
  rowRight(q: number, value: number): void {
    const { rows, size } = this;
    rows[q * (size + 1) + size]! -= value;
  }

  /** Solves the rows and moves the ports' voltages there. */
  solveRows(): void {
    const flags = this.loops.step(this.store, this.size);
    this.unstable = (flags & UNSTABLE) !== 0;
    this.contradictory = (flags & CONTRADICTORY) !== 0;
  }

  /** Starts the correcting pass: `residual` holds what each position lacks. */
  beginCorrection(): void {
    this.loops.open(this.store, this.size);
    this.flat = false;
    this.beginRows(true);
  }

  /** Ends it: all voltages and their corrections; returns what `Loops.fix` says. */
  endCorrection(): number {
    return this.loops.fix(this.store, this.size);
  }

  /** Voltage from position a to position b. */
  volts(a: number, b: number): number {
    return this.v[a]! - this.v[b]!;
  }

  /** Current through the device at column q, amperes. */
  amps(q: number): number {
    return HELPER * (this.v[this.columnA[q]!]! - this.v[this.columnB[q]!]!) + this.unknown[q]!;
  }

  /** Change of the current through the device at column q in a correcting pass. */
  ampsChange(q: number, delta: Float64Array, change: Float64Array): number {
    return HELPER * (delta[this.columnA[q]!]! - delta[this.columnB[q]!]!) + change[q]!;
  }
}
