/**
 * How a circuit's numbers stand in memory: `p` is their address, laid out by `src/network/store.ts`: first the header (32-bit
 * words), which names sizes and the addresses of the lists.
 */

// Words of the header: their byte offsets. The order is that of `store.ts`.
export const NODES: usize = 0;
export const FIRST_PORT: usize = 4;
export const PORT_RUN: usize = 8;
export const RUN_COUNT: usize = 12;
export const SLOTS: usize = 16;
export const PORT_SLOT: usize = 20;
export const RESISTORS: usize = 24;
export const LINEAR: usize = 28;
export const RISING_COUNT: usize = 32;
export const S_AT: usize = 36;
export const L_AT: usize = 40;
export const INVERSE_AT: usize = 44;
export const J_AT: usize = 48;
export const V_AT: usize = 52;
export const BASE_S_AT: usize = 56;
export const BASE_J_AT: usize = 60;
export const W_AT: usize = 64;
export const ROWS_AT: usize = 68;
export const SCALE_AT: usize = 72;
export const UNKNOWN_AT: usize = 76;
export const RESIDUAL_AT: usize = 80;
export const DELTA_AT: usize = 84;
export const OUT_AT: usize = 88;
export const CURRENTS_AT: usize = 92;
export const SIEMENS_AT: usize = 96;
export const SOURCE_VOLTS_AT: usize = 100;
export const SOURCE_AMPS_AT: usize = 104;
export const FACTS_AT: usize = 108;
export const KIND_AT: usize = 112;
export const COLUMN_A_AT: usize = 116;
export const COLUMN_B_AT: usize = 120;
export const COLUMN_AT_AT: usize = 124;
export const ROW_AT_AT: usize = 128;
export const POWERLESS_AT: usize = 132;
export const START_AT: usize = 136;
export const COLUMN_AT: usize = 140;
export const TARGET_AT: usize = 144;
export const RUNS_AT: usize = 148;
export const SLOT_AT: usize = 152;
export const LINEAR_A_AT: usize = 156;
export const LINEAR_B_AT: usize = 160;

export function word(p: usize, offset: usize): i32 {
  return load<i32>(p + offset);
}

export function list(p: usize, offset: usize): usize {
  return <usize>load<u32>(p + offset);
}

export function int(a: usize, i: i32): i32 {
  return load<i32>(a + ((<usize>i) << 2));
}

export function num(a: usize, i: i32): f64 {
  return load<f64>(a + ((<usize>i) << 3));
}

export function put(a: usize, i: i32, x: f64): void {
  store<f64>(a + ((<usize>i) << 3), x);
}

export function add(a: usize, i: i32, x: f64): void {
  const at = a + ((<usize>i) << 3);
  store<f64>(at, load<f64>(at) + x);
}
