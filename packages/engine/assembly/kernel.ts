/**
 * The hot loops of an operating point as a WebAssembly module, in AssemblyScript: no run-time library, no objects, only loads and
 * stores. Each function does what the one of the same name in `src/network/loops.ts` does, in the same order of operations,
 * so that both give the same bytes; that file says what they mean.
 */
import { backward, backwardAt, factor, forward, forwardAt } from './eliminate';
import {
  BASE_J_AT,
  BASE_S_AT,
  COLUMN_A_AT,
  COLUMN_B_AT,
  CURRENTS_AT,
  DELTA_AT,
  FACTS_AT,
  FIRST_PORT,
  INVERSE_AT,
  J_AT,
  LINEAR,
  LINEAR_A_AT,
  LINEAR_B_AT,
  NODES,
  OUT_AT,
  PORT_RUN,
  PORT_SLOT,
  RESIDUAL_AT,
  RESISTORS,
  RUN_COUNT,
  SIEMENS_AT,
  SLOTS,
  SLOT_AT,
  SOURCE_AMPS_AT,
  SOURCE_VOLTS_AT,
  S_AT,
  UNKNOWN_AT,
  V_AT,
  W_AT,
  add,
  int,
  list,
  num,
  put,
  word,
} from './memory';
import { clear, order, solve } from './small';

const STRAY_AMPS: f64 = 1e-9;
const PUSH_OHMS: f64 = 1e3;
const FLOATING: i32 = 4;
const LEFT_OVER: i32 = 8;

function inject(p: usize): void {
  const J = list(p, J_AT);
  const nodes = word(p, NODES);
  for (let k = 0; k < nodes; k += 1) put(J, k, 0);
  const siemens = list(p, SIEMENS_AT);
  const volts = list(p, SOURCE_VOLTS_AT);
  const amps = list(p, SOURCE_AMPS_AT);
  const a = list(p, LINEAR_A_AT);
  const b = list(p, LINEAR_B_AT);
  const first = word(p, RESISTORS);
  const end = word(p, LINEAR);
  for (let i = first; i < end; i += 1) {
    const known = num(amps, i - first) - num(siemens, i) * num(volts, i - first);
    add(J, int(a, i), -known);
    add(J, int(b, i), known);
  }
}

function keepJ(p: usize): void {
  const J = list(p, J_AT);
  const baseJ = list(p, BASE_J_AT);
  const from = word(p, FIRST_PORT);
  const nodes = word(p, NODES);
  for (let k = from; k < nodes; k += 1) put(baseJ, k - from, num(J, k));
}

export function reduce(p: usize): void {
  const S = list(p, S_AT);
  const slots = word(p, SLOTS);
  for (let e = 0; e < slots; e += 1) put(S, e, 0);
  const slot = list(p, SLOT_AT);
  const siemens = list(p, SIEMENS_AT);
  const linear = word(p, LINEAR);
  for (let i = 0; i < linear; i += 1) {
    const at = int(slot, i);
    if (at >= 0) add(S, at, num(siemens, i));
  }
  inject(p);
  factor(p, 0, word(p, PORT_RUN));
  const baseS = list(p, BASE_S_AT);
  const first = word(p, PORT_SLOT);
  for (let e = first; e < slots; e += 1) put(baseS, e - first, num(S, e));
  keepJ(p);
}

export function carry(p: usize): void {
  inject(p);
  forward(p, list(p, J_AT), word(p, PORT_RUN));
  keepJ(p);
}

function openFrom(p: usize, size: i32, J: usize): void {
  const from = word(p, FIRST_PORT);
  const last = word(p, NODES) - 1;
  const W = list(p, W_AT) + ((<usize>(size * (last + 1 - from) - from)) << 3);
  for (let k = from; k < last; k += 1) put(W, k, num(J, k));
  put(W, last, 0);
  backwardAt(p, W, from, last);
}

export function ports(p: usize, size: i32): i32 {
  const from = word(p, FIRST_PORT);
  const last = word(p, NODES) - 1;
  const count = last + 1 - from;
  const J = list(p, J_AT);
  const S = list(p, S_AT);
  const inverse = list(p, INVERSE_AT);
  factor(p, word(p, PORT_RUN), word(p, RUN_COUNT));
  let pushed = 0;
  for (let k = from; k < last; k += 1) {
    if (num(inverse, k) != 0) continue;
    const stray = num(J, k);
    if (stray <= STRAY_AMPS && stray >= -STRAY_AMPS) continue;
    put(inverse, k, PUSH_OHMS);
    pushed = 1;
  }
  const columnA = list(p, COLUMN_A_AT);
  const columnB = list(p, COLUMN_B_AT);
  for (let q = 0; q < size; q += 1) {
    const W = list(p, W_AT) + ((<usize>(q * count - from)) << 3);
    const a = int(columnA, q);
    const b = int(columnB, q);
    for (let k = from; k < last; k += 1) put(W, k, 0);
    add(W, a, -1);
    add(W, b, 1);
    forwardAt(p, W, a < b ? a : b, last);
    put(W, last, 0);
    backwardAt(p, W, from, last);
  }
  openFrom(p, size, J);
  order(p, size);
  clear(p, size);
  const baseS = list(p, BASE_S_AT);
  const baseJ = list(p, BASE_J_AT);
  const first = word(p, PORT_SLOT);
  const slots = word(p, SLOTS);
  for (let e = first; e < slots; e += 1) put(S, e, num(baseS, e - first));
  for (let k = from; k <= last; k += 1) put(J, k, num(baseJ, k - from));
  return pushed;
}

function combine(p: usize, size: i32, into: usize): void {
  const unknown = list(p, UNKNOWN_AT);
  const from = word(p, FIRST_PORT);
  const last = word(p, NODES) - 1;
  const count = last + 1 - from;
  let W = list(p, W_AT) - ((<usize>from) << 3);
  const open = W + ((<usize>(size * count)) << 3);
  for (let k = from; k < last; k += 1) put(into, k, num(open, k));
  for (let q = 0; q < size; q += 1) {
    const amps = num(unknown, q);
    for (let k = from; k < last; k += 1) add(into, k, amps * num(W, k));
    W += (<usize>count) << 3;
  }
  put(into, last, 0);
}

export function step(p: usize, size: i32): i32 {
  const flags = solve(p, size);
  combine(p, size, list(p, V_AT));
  return flags;
}

export function lack(p: usize): void {
  const v = list(p, V_AT);
  backward(p, list(p, J_AT), v);
  const residual = list(p, RESIDUAL_AT);
  const nodes = word(p, NODES);
  for (let k = 0; k < nodes; k += 1) put(residual, k, 0);
  const siemens = list(p, SIEMENS_AT);
  const linearA = list(p, LINEAR_A_AT);
  const linearB = list(p, LINEAR_B_AT);
  const first = word(p, RESISTORS);
  const end = word(p, LINEAR);
  for (let i = 0; i < first; i += 1) {
    const a = int(linearA, i);
    const b = int(linearB, i);
    const amps = num(siemens, i) * (num(v, a) - num(v, b));
    add(residual, a, -amps);
    add(residual, b, amps);
  }
  const volts = list(p, SOURCE_VOLTS_AT);
  const known = list(p, SOURCE_AMPS_AT);
  for (let i = first; i < end; i += 1) {
    const a = int(linearA, i);
    const b = int(linearB, i);
    const amps = num(siemens, i) * (num(v, a) - num(v, b) - num(volts, i - first)) + num(known, i - first);
    add(residual, a, -amps);
    add(residual, b, amps);
  }
}

export function open(p: usize, size: i32): void {
  const residual = list(p, RESIDUAL_AT);
  forward(p, residual, word(p, RUN_COUNT));
  openFrom(p, size, residual);
}

/** Currents of the linear elements at the voltages in `out`. */
function currents(p: usize): void {
  const out = list(p, OUT_AT);
  const low = out + ((<usize>word(p, NODES)) << 3);
  const into = list(p, CURRENTS_AT);
  const siemens = list(p, SIEMENS_AT);
  const linearA = list(p, LINEAR_A_AT);
  const linearB = list(p, LINEAR_B_AT);
  const first = word(p, RESISTORS);
  const end = word(p, LINEAR);
  for (let i = 0; i < first; i += 1) {
    const a = int(linearA, i);
    const b = int(linearB, i);
    const g = num(siemens, i);
    put(into, i, g == 0 ? 0 : g * (num(out, a) - num(out, b) + (num(low, a) - num(low, b))));
  }
  const volts = list(p, SOURCE_VOLTS_AT);
  const known = list(p, SOURCE_AMPS_AT);
  for (let i = first; i < end; i += 1) {
    const a = int(linearA, i);
    const b = int(linearB, i);
    const over = num(out, a) - num(out, b) - num(volts, i - first) + (num(low, a) - num(low, b));
    put(into, i, num(siemens, i) * over + num(known, i - first));
  }
}

export function fix(p: usize, size: i32): i32 {
  const delta = list(p, DELTA_AT);
  const residual = list(p, RESIDUAL_AT);
  const inverse = list(p, INVERSE_AT);
  const v = list(p, V_AT);
  let flags = solve(p, size);
  combine(p, size, delta);
  const nodes = word(p, NODES);
  let largest: f64 = 0;
  for (let k = word(p, FIRST_PORT); k < nodes; k += 1) {
    const far = abs<f64>(num(delta, k));
    if (!(far <= largest)) largest = far;
  }
  store<f64>(list(p, FACTS_AT), largest);
  backward(p, residual, delta);
  const out = list(p, OUT_AT);
  const low = out + ((<usize>nodes) << 3);
  for (let k = 0; k < nodes; k += 1) {
    const volts = num(v, k);
    const d = num(delta, k);
    const sum = volts + d;
    put(out, k, sum);
    put(low, k, d - (sum - volts));
    if (num(inverse, k) == 0 && k < nodes - 1) {
      flags |= FLOATING;
      if (abs<f64>(num(residual, k)) > STRAY_AMPS) flags |= LEFT_OVER;
    }
  }
  currents(p);
  return flags;
}
