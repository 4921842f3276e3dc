/**
 * The hot loops of an operating point as a WebAssembly module, in AssemblyScript: no run-time library, no objects, only loads and
 * stores. Each function does what the one of the same name in `src/network/loops.ts` does, in the same order of operations,
 * so that both give the same bytes; that file says what they mean.
 *
 * `p` is the address of a circuit's numbers, laid out by `src/network/store.ts`: first its header (32-bit words), which names
 * sizes and the addresses of the lists.
 */

// Words of the header: their byte offsets. The order is that of `store.ts`.
const NODES: usize = 0;
const FIRST_PORT: usize = 4;
const PORT_RUN: usize = 8;
const RUN_COUNT: usize = 12;
const SLOTS: usize = 16;
const PORT_SLOT: usize = 20;
const RESISTORS: usize = 24;
const LINEAR: usize = 28;
const RISING_COUNT: usize = 32;
const S_AT: usize = 36;
const L_AT: usize = 40;
const INVERSE_AT: usize = 44;
const J_AT: usize = 48;
const V_AT: usize = 52;
const BASE_S_AT: usize = 56;
const BASE_J_AT: usize = 60;
const W_AT: usize = 64;
const ROWS_AT: usize = 68;
const SCALE_AT: usize = 72;
const UNKNOWN_AT: usize = 76;
const RESIDUAL_AT: usize = 80;
const DELTA_AT: usize = 84;
const OUT_AT: usize = 88;
const SIEMENS_AT: usize = 92;
const SOURCE_VOLTS_AT: usize = 96;
const SOURCE_AMPS_AT: usize = 100;
const FACTS_AT: usize = 104;
const KIND_AT: usize = 108;
const COLUMN_A_AT: usize = 112;
const COLUMN_B_AT: usize = 116;
const COLUMN_AT_AT: usize = 120;
const ROW_AT_AT: usize = 124;
const POWERLESS_AT: usize = 128;
const START_AT: usize = 132;
const COLUMN_AT: usize = 136;
const TARGET_AT: usize = 140;
const RUNS_AT: usize = 144;
const SLOT_AT: usize = 148;
const LINEAR_A_AT: usize = 152;
const LINEAR_B_AT: usize = 156;

const STRAY_AMPS: f64 = 1e-9;
const PUSH_OHMS: f64 = 1e3;
const NO_PIVOT: f64 = 1e-12;
const STRAY: f64 = 1e-9;
const STABLE_PIVOT: f64 = 1e-9;

const UNSTABLE: i32 = 1;
const CONTRADICTORY: i32 = 2;
const FLOATING: i32 = 4;
const LEFT_OVER: i32 = 8;

function word(p: usize, offset: usize): i32 {
  return load<i32>(p + offset);
}

function list(p: usize, offset: usize): usize {
  return <usize>load<u32>(p + offset);
}

function int(a: usize, i: i32): i32 {
  return load<i32>(a + ((<usize>i) << 2));
}

function num(a: usize, i: i32): f64 {
  return load<f64>(a + ((<usize>i) << 3));
}

function put(a: usize, i: i32, x: f64): void {
  store<f64>(a + ((<usize>i) << 3), x);
}

function add(a: usize, i: i32, x: f64): void {
  const at = a + ((<usize>i) << 3);
  store<f64>(at, load<f64>(at) + x);
}

function factor(p: usize, fromRun: i32, toRun: i32): void {
  const S = list(p, S_AT);
  const L = list(p, L_AT);
  const inverse = list(p, INVERSE_AT);
  const J = list(p, J_AT);
  const start = list(p, START_AT);
  const column = list(p, COLUMN_AT);
  const target = list(p, TARGET_AT);
  const runs = list(p, RUNS_AT);
  for (let run = fromRun; run < toRun; run += 1) {
    const degree = int(runs, 4 * run);
    const first = int(runs, 4 * run + 1);
    const end = int(runs, 4 * run + 2);
    let t = int(runs, 4 * run + 3);
    let e = int(start, first);
    if (degree == 1) {
      for (let k = first; k < end; k += 1, e += 1) {
        const s = num(S, e);
        if (s > 0) {
          put(inverse, k, 1 / s);
          put(L, e, 1);
          add(J, int(column, e), num(J, k));
        } else {
          put(inverse, k, 0);
          put(L, e, 0);
        }
      }
    } else if (degree == 2) {
      for (let k = first; k < end; k += 1, e += 2) {
        const s0 = num(S, e);
        const s1 = num(S, e + 1);
        const s = s0 + s1;
        const inv: f64 = s > 0 ? 1 / s : 0;
        const f0 = s0 * inv;
        const f1 = s1 * inv;
        const j = num(J, k);
        put(inverse, k, inv);
        put(L, e, f0);
        put(L, e + 1, f1);
        add(J, int(column, e), f0 * j);
        add(J, int(column, e + 1), f1 * j);
        add(S, int(target, t), f0 * s1);
        t += 1;
      }
    } else if (degree == 3) {
      for (let k = first; k < end; k += 1, e += 3) {
        const s0 = num(S, e);
        const s1 = num(S, e + 1);
        const s2 = num(S, e + 2);
        const s = s0 + s1 + s2;
        const inv: f64 = s > 0 ? 1 / s : 0;
        const f0 = s0 * inv;
        const f1 = s1 * inv;
        const f2 = s2 * inv;
        const j = num(J, k);
        put(inverse, k, inv);
        put(L, e, f0);
        put(L, e + 1, f1);
        put(L, e + 2, f2);
        add(J, int(column, e), f0 * j);
        add(J, int(column, e + 1), f1 * j);
        add(J, int(column, e + 2), f2 * j);
        add(S, int(target, t), f0 * s1);
        add(S, int(target, t + 1), f0 * s2);
        add(S, int(target, t + 2), f1 * s2);
        t += 3;
      }
    } else {
      for (let k = first; k < end; k += 1) {
        const last = e + degree;
        let s: f64 = 0;
        for (let i = e; i < last; i += 1) s += num(S, i);
        const inv: f64 = s > 0 ? 1 / s : 0;
        const j = num(J, k);
        put(inverse, k, inv);
        for (; e < last; e += 1) {
          const f = num(S, e) * inv;
          put(L, e, f);
          add(J, int(column, e), f * j);
          for (let h = e + 1; h < last; h += 1) {
            add(S, int(target, t), f * num(S, h));
            t += 1;
          }
        }
      }
    }
  }
}

function forward(p: usize, J: usize, toRun: i32): void {
  const L = list(p, L_AT);
  const column = list(p, COLUMN_AT);
  const runs = list(p, RUNS_AT);
  let e = 0;
  for (let run = 0; run < toRun; run += 1) {
    const degree = int(runs, 4 * run);
    const first = int(runs, 4 * run + 1);
    const end = int(runs, 4 * run + 2);
    if (degree == 1) {
      for (let k = first; k < end; k += 1, e += 1) add(J, int(column, e), num(L, e) * num(J, k));
    } else if (degree == 2) {
      for (let k = first; k < end; k += 1, e += 2) {
        const j = num(J, k);
        add(J, int(column, e), num(L, e) * j);
        add(J, int(column, e + 1), num(L, e + 1) * j);
      }
    } else {
      for (let k = first; k < end; k += 1) {
        const j = num(J, k);
        for (const last = e + degree; e < last; e += 1) add(J, int(column, e), num(L, e) * j);
      }
    }
  }
}

/** Below the ports. */
function backward(p: usize, J: usize, v: usize): void {
  const L = list(p, L_AT);
  const inverse = list(p, INVERSE_AT);
  const column = list(p, COLUMN_AT);
  const runs = list(p, RUNS_AT);
  let e = word(p, PORT_SLOT);
  for (let run = word(p, PORT_RUN) - 1; run >= 0; run -= 1) {
    const degree = int(runs, 4 * run);
    const first = int(runs, 4 * run + 1);
    let k = int(runs, 4 * run + 2) - 1;
    if (degree == 1) {
      for (; k >= first; k -= 1) {
        e -= 1;
        put(v, k, num(J, k) * num(inverse, k) + num(L, e) * num(v, int(column, e)));
      }
    } else if (degree == 2) {
      for (; k >= first; k -= 1) {
        e -= 2;
        put(
          v,
          k,
          num(J, k) * num(inverse, k) +
            num(L, e) * num(v, int(column, e)) +
            num(L, e + 1) * num(v, int(column, e + 1)),
        );
      }
    } else {
      for (; k >= first; k -= 1) {
        e -= degree;
        let volts = num(J, k) * num(inverse, k);
        for (let i = e; i < e + degree; i += 1) volts += num(L, i) * num(v, int(column, i));
        put(v, k, volts);
      }
    }
  }
}

/** In place, among the ports; `W` is where position 0 would stand. */
function forwardAt(p: usize, W: usize, from: i32, to: i32): void {
  const L = list(p, L_AT);
  const start = list(p, START_AT);
  const column = list(p, COLUMN_AT);
  let e = int(start, from);
  for (let k = from; k < to; k += 1) {
    const j = num(W, k);
    const end = int(start, k + 1);
    if (j == 0) {
      e = end;
      continue;
    }
    for (; e < end; e += 1) add(W, int(column, e), num(L, e) * j);
  }
}

function backwardAt(p: usize, W: usize, from: i32, to: i32): void {
  const L = list(p, L_AT);
  const inverse = list(p, INVERSE_AT);
  const start = list(p, START_AT);
  const column = list(p, COLUMN_AT);
  let end = int(start, to);
  for (let k = to - 1; k >= from; k -= 1) {
    let volts = num(W, k) * num(inverse, k);
    const begin = int(start, k);
    for (let e = begin; e < end; e += 1) volts += num(L, e) * num(W, int(column, e));
    end = begin;
    put(W, k, volts);
  }
}

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

function order(p: usize, size: i32): void {
  const kind = list(p, KIND_AT);
  const columnAt = list(p, COLUMN_AT_AT);
  let place: usize = columnAt;
  for (let sort = 0; sort < 3; sort += 1) {
    if (sort == 2) store<i32>(p + RISING_COUNT, <i32>((place - columnAt) >> 2));
    for (let q = 0; q < size; q += 1) {
      if (int(kind, q) != sort) continue;
      store<i32>(place, q);
      place += 4;
    }
  }
}

function clear(p: usize, size: i32): void {
  const rows = list(p, ROWS_AT);
  const scale = list(p, SCALE_AT);
  const end = size * (size + 1);
  for (let i = 0; i < end; i += 1) put(rows, i, 0);
  for (let q = 0; q < size; q += 1) put(scale, q, 0);
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

function prepare(p: usize, size: i32): void {
  const rows = list(p, ROWS_AT);
  const scale = list(p, SCALE_AT);
  const columnAt = list(p, COLUMN_AT_AT);
  const rowAt = list(p, ROW_AT_AT);
  const stride = size + 1;
  for (let q = 0; q < size; q += 1) {
    store<i32>(rowAt + ((<usize>q) << 2), int(columnAt, q) * stride);
    const first = q * stride;
    const largest = num(scale, q);
    if (largest == 0) continue;
    const by = 1 / largest;
    for (let r = first; r <= first + size; r += 1) put(rows, r, num(rows, r) * by);
  }
}

function exchange(rows: usize, rowAt: usize, place: i32, rising: i32, column: i32): void {
  let best = place;
  let largest = abs<f64>(num(rows, int(rowAt, place) + column));
  for (let r = place + 1; r < rising; r += 1) {
    const entry = abs<f64>(num(rows, int(rowAt, r) + column));
    if (entry > largest) {
      best = r;
      largest = entry;
    }
  }
  const swap = int(rowAt, place);
  store<i32>(rowAt + ((<usize>place) << 2), int(rowAt, best));
  store<i32>(rowAt + ((<usize>best) << 2), swap);
}

function solve(p: usize, size: i32): i32 {
  const rows = list(p, ROWS_AT);
  const columnAt = list(p, COLUMN_AT_AT);
  const rowAt = list(p, ROW_AT_AT);
  const powerless = list(p, POWERLESS_AT);
  const unknown = list(p, UNKNOWN_AT);
  const rising = word(p, RISING_COUNT);
  let flags = 0;
  prepare(p, size);
  for (let i = 0; i < size; i += 1) {
    const column = int(columnAt, i);
    if (i < rising) exchange(rows, rowAt, i, rising, column);
    const row = int(rowAt, i);
    const pivot = num(rows, row + column);
    store<i32>(powerless + ((<usize>column) << 2), 0);
    if (i >= rising && pivot <= STABLE_PIVOT) flags |= UNSTABLE;
    if (pivot < NO_PIVOT && pivot > -NO_PIVOT) {
      store<i32>(powerless + ((<usize>column) << 2), 1);
      continue;
    }
    for (let r = i + 1; r < size; r += 1) {
      const other = int(rowAt, r);
      const entry = num(rows, other + column);
      if (entry == 0) continue;
      const f = entry / pivot;
      for (let c = 0; c <= size; c += 1) add(rows, other + c, -(f * num(rows, row + c)));
    }
  }
  for (let i = size - 1; i >= 0; i -= 1) {
    const column = int(columnAt, i);
    const row = int(rowAt, i);
    let x = -num(rows, row + size);
    if (int(powerless, column) == 1) {
      if (abs<f64>(x) > STRAY) flags |= CONTRADICTORY;
      put(unknown, column, 0);
      continue;
    }
    for (let c = i + 1; c < size; c += 1) {
      const at = int(columnAt, c);
      x -= num(rows, row + at) * num(unknown, at);
    }
    put(unknown, column, x / num(rows, row + column));
  }
  clear(p, size);
  return flags;
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
  return flags;
}
