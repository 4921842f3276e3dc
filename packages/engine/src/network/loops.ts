/**
 * What is done to a circuit's numbers in one go: the steps of an operating point. Here in TypeScript; the WebAssembly module
 * does the same in the same order of operations (`assembly/kernel.ts`), so both give the same bytes.
 */
import { backward, backwardAt, factor, forward, forwardAt } from './kernel.ts';
import { clearRows, order, solveSmall } from './small.ts';
import type { Store } from './store.ts';

/** Beside UNSTABLE and CONTRADICTORY: there are islands; one of them was left with a current that has no way out. */
export const FLOATING = 4;
export const LEFT_OVER = 8;

/** A current below this (amperes) into an island that gives it no way out is rounding, not contradiction. */
const STRAY_AMPS = 1e-9;
/** Ohms by which a contradictory current pushes an island away, so that a piece moves. */
const PUSH_OHMS = 1e3;

export interface Loops {
  /** Puts conductances and source currents into slots and positions, reduces all below the ports and remembers that. */
  reduce(store: Store): void;
  /** The same where no conductance has changed since. */
  carry(store: Store): void;
  /**
   * Factors the ports with what the devices have added, works out the response to every column, and takes the ports back to
   * where no device has added anything. 1 where an island was given a current that has no way out, else 0.
   *
   * @param size number of unknown device currents
   */
  ports(store: Store, size: number): number;
  /** Solves the rows, moves the ports' voltages there and clears the rows; returns UNSTABLE and CONTRADICTORY. */
  step(store: Store, size: number): number;
  /** Voltages below the ports, and what each position lacks at all of them, branch by branch, into `residual`. */
  lack(store: Store): void;
  /** Carries `residual` forward and takes it for the response at zero unknown currents. */
  open(store: Store, size: number): void;
  /**
   * Solves the rows, and adds the correction (`delta`) that they bring to all voltages, into `out`, with the currents of the linear
   * elements; returns flags.
   */
  fix(store: Store, size: number): number;
}

/** Conductances (siemens) into the slots. */
function stamp({ S, siemens, wiring: { slot } }: Store): void {
  S.fill(0);
  for (let i = 0; i < siemens.length; i += 1) {
    const at = slot[i]!;
    if (at >= 0) S[at]! += siemens[i]!;
  }
}

/** Source currents (amperes) into the positions. */
function inject({ J, siemens, sourceVolts, sourceAmps, wiring }: Store): void {
  const { linearA, linearB, resistors } = wiring;
  J.fill(0);
  for (let k = 0; k < sourceVolts.length; k += 1) {
    const known = sourceAmps[k]! - siemens[resistors + k]! * sourceVolts[k]!;
    J[linearA[resistors + k]!]! -= known;
    J[linearB[resistors + k]!]! += known;
  }
}

function keepJ({ J, baseJ, wiring }: Store): void {
  for (let k = 0, at = wiring.plan.firstPort; k < baseJ.length; k += 1, at += 1) baseJ[k] = J[at]!;
}

function openFrom({ L, W, inverse, wiring: { plan } }: Store, size: number, J: Float64Array): void {
  const from = plan.firstPort;
  const last = plan.nodeCount - 1;
  const base = size * (plan.nodeCount - from) - from;
  for (let k = from; k < last; k += 1) W[base + k] = J[k]!;
  W[base + last] = 0;
  backwardAt(plan, L, inverse, W, base, from, last);
}

/** Pushes islands away that were given a current with no way out; 1 where there is one. */
function push({ inverse, J, wiring: { plan } }: Store): number {
  let pushed = 0;
  for (let k = plan.firstPort; k < plan.nodeCount - 1; k += 1) {
    if (inverse[k] !== 0) continue;
    const stray = J[k]!;
    if (stray <= STRAY_AMPS && stray >= -STRAY_AMPS) continue;
    inverse[k] = PUSH_OHMS;
    pushed = 1;
  }
  return pushed;
}

/** Voltages of the ports by one ampere through column q. */
function respond(store: Store, q: number): void {
  const { L, W, inverse, columnA, columnB, wiring } = store;
  const { plan } = wiring;
  const from = plan.firstPort;
  const last = plan.nodeCount - 1;
  const base = q * (plan.nodeCount - from) - from;
  const a = columnA[q]!;
  const b = columnB[q]!;
  for (let k = from; k < last; k += 1) W[base + k] = 0;
  W[base + a]! -= 1;
  W[base + b]! += 1;
  forwardAt(plan, L, W, base, a < b ? a : b, last);
  W[base + last] = 0;
  backwardAt(plan, L, inverse, W, base, from, last);
}

/** Takes the ports back to where no device has added anything. */
function restore({ S, J, baseS, baseJ, wiring: { plan } }: Store): void {
  const slot = plan.start[plan.firstPort]!;
  for (let e = 0; e < baseS.length; e += 1) S[slot + e] = baseS[e]!;
  for (let k = 0; k < baseJ.length; k += 1) J[plan.firstPort + k] = baseJ[k]!;
}

/** Voltages of the ports that belong to the unknowns, into an array by position. */
function combine({ W, unknown, wiring: { plan } }: Store, size: number, into: Float64Array): void {
  const last = plan.nodeCount - 1;
  const from = plan.firstPort;
  const ports = plan.nodeCount - from;
  const open = size * ports - from;
  for (let k = from; k < last; k += 1) into[k] = W[open + k]!;
  for (let q = 0; q < size; q += 1) {
    const amps = unknown[q]!;
    const base = q * ports - from;
    for (let k = from; k < last; k += 1) into[k]! += amps * W[base + k]!;
  }
  into[last] = 0;
}

/** What each position lacks at these voltages, branch by branch. */
function balance({ v, residual, siemens, sourceVolts, sourceAmps, wiring }: Store): void {
  const { linearA, linearB, resistors } = wiring;
  residual.fill(0);
  for (let i = 0; i < resistors; i += 1) {
    const a = linearA[i]!;
    const b = linearB[i]!;
    const amps = siemens[i]! * (v[a]! - v[b]!);
    residual[a]! -= amps;
    residual[b]! += amps;
  }
  for (let k = 0; k < sourceVolts.length; k += 1) {
    const a = linearA[resistors + k]!;
    const b = linearB[resistors + k]!;
    const amps = siemens[resistors + k]! * (v[a]! - v[b]! - sourceVolts[k]!) + sourceAmps[k]!;
    residual[a]! -= amps;
    residual[b]! += amps;
  }
}

/** Largest change of a port's voltage. */
function farthest(delta: Float64Array, from: number): number {
  let largest = 0;
  for (let k = from; k < delta.length; k += 1) {
    const size = Math.abs(delta[k]!);
    if (!(size <= largest)) largest = size;
  }
  return largest;
}

/** Voltages with their corrections, each in two parts: the sum, and what it leaves out. */
function sums({ v, delta, inverse, residual, out }: Store): number {
  const nodes = v.length;
  let flags = 0;
  for (let k = 0; k < nodes; k += 1) {
    const volts = v[k]!;
    const d = delta[k]!;
    const sum = volts + d;
    out[k] = sum;
    out[nodes + k] = d - (sum - volts);
    if (inverse[k] === 0 && k < nodes - 1) {
      flags |= FLOATING;
      if (Math.abs(residual[k]!) > STRAY_AMPS) flags |= LEFT_OVER;
    }
  }
  return flags;
}

/** Currents of the linear elements, exact even where the difference of two voltages is small. */
function currentsOf({ out, currents, siemens, sourceVolts, sourceAmps, wiring }: Store): void {
  const { linearA, linearB, resistors, plan } = wiring;
  const nodes = plan.nodeCount;
  for (let i = 0; i < resistors; i += 1) {
    const a = linearA[i]!;
    const b = linearB[i]!;
    const g = siemens[i]!;
    currents[i] = g === 0 ? 0 : g * (out[a]! - out[b]! + (out[nodes + a]! - out[nodes + b]!));
  }
  for (let k = 0; k < sourceVolts.length; k += 1) {
    const a = linearA[resistors + k]!;
    const b = linearB[resistors + k]!;
    const over = out[a]! - out[b]! - sourceVolts[k]! + (out[nodes + a]! - out[nodes + b]!);
    currents[resistors + k] = siemens[resistors + k]! * over + sourceAmps[k]!;
  }
}

/** The loops in TypeScript. */
export const plainLoops: Loops = {
  reduce(store) {
    const { plan } = store.wiring;
    const { S, L, inverse, J, baseS } = store;
    stamp(store);
    inject(store);
    factor(plan, S, L, inverse, J, 0, plan.portRun);
    const slot = plan.start[plan.firstPort]!;
    for (let e = 0; e < baseS.length; e += 1) baseS[e] = S[slot + e]!;
    keepJ(store);
  },

  carry(store) {
    const { plan } = store.wiring;
    inject(store);
    forward(plan, store.L, store.J, 0, plan.portRun);
    keepJ(store);
  },

  ports(store, size) {
    const { plan } = store.wiring;
    factor(plan, store.S, store.L, store.inverse, store.J, plan.portRun, plan.runs.length / 4);
    const pushed = push(store);
    for (let q = 0; q < size; q += 1) respond(store, q);
    openFrom(store, size, store.J);
    order(store, size);
    clearRows(store, size);
    restore(store);
    return pushed;
  },

  step(store, size) {
    const flags = solveSmall(store, size);
    combine(store, size, store.v);
    return flags;
  },

  lack(store) {
    const { plan } = store.wiring;
    backward(plan, store.L, store.inverse, store.J, store.v, 0, plan.portRun);
    balance(store);
  },

  open(store, size) {
    const { plan } = store.wiring;
    forward(plan, store.L, store.residual, 0, plan.runs.length / 4);
    openFrom(store, size, store.residual);
  },

  fix(store, size) {
    const { plan } = store.wiring;
    const { L, inverse, residual, delta } = store;
    const flags = solveSmall(store, size);
    combine(store, size, delta);
    store.farthest[0] = farthest(delta, plan.firstPort);
    backward(plan, L, inverse, residual, delta, 0, plan.portRun);
    const islands = sums(store);
    currentsOf(store);
    return flags | islands;
  },
};
