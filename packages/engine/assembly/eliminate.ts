/** Factoring, and carrying currents forward and voltages back: the loops of `src/network/kernel.ts`. */
import {
  COLUMN_AT,
  INVERSE_AT,
  J_AT,
  L_AT,
  PORT_RUN,
  PORT_SLOT,
  RUNS_AT,
  START_AT,
  S_AT,
  TARGET_AT,
  add,
  int,
  list,
  num,
  put,
  word,
} from './memory';

export function factor(p: usize, fromRun: i32, toRun: i32): void {
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

export function forward(p: usize, J: usize, toRun: i32): void {
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
export function backward(p: usize, J: usize, v: usize): void {
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
export function forwardAt(p: usize, W: usize, from: i32, to: i32): void {
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

export function backwardAt(p: usize, W: usize, from: i32, to: i32): void {
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
