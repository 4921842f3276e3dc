/** The small system of the unknown device currents: the loops of `src/network/small.ts`. */
import {
  COLUMN_AT_AT,
  KIND_AT,
  POWERLESS_AT,
  RISING_COUNT,
  ROWS_AT,
  ROW_AT_AT,
  SCALE_AT,
  UNKNOWN_AT,
  add,
  int,
  list,
  num,
  put,
  word,
} from './memory';

const NO_PIVOT: f64 = 1e-12;
const STRAY: f64 = 1e-9;
const STABLE_PIVOT: f64 = 1e-9;
const UNSTABLE: i32 = 1;
const CONTRADICTORY: i32 = 2;

export function order(p: usize, size: i32): void {
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

export function clear(p: usize, size: i32): void {
  const rows = list(p, ROWS_AT);
  const scale = list(p, SCALE_AT);
  const end = size * (size + 1);
  for (let i = 0; i < end; i += 1) put(rows, i, 0);
  for (let q = 0; q < size; q += 1) put(scale, q, 0);
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

export function solve(p: usize, size: i32): i32 {
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
