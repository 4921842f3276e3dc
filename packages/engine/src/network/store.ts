/**
 * Where the numbers of one circuit stand while it is solved: one stretch of memory, laid out alike for the loops in TypeScript
 * (which see it through typed arrays) and for those of the WebAssembly module (which are told its address).
 */
import type { Elimination } from './order.ts';

/** What decides the size of the stretch, and the lists that do not change. */
export interface Wiring {
  readonly plan: Elimination;
  /** Of resistors, then straight lines: slot (-1: its ends are one node), and positions of its ends. */
  readonly slot: Int32Array;
  readonly linearA: Int32Array;
  readonly linearB: Int32Array;
  /** How many of them are resistors. */
  readonly resistors: number;
  /** Greatest number of unknown device currents. */
  readonly columns: number;
  readonly devices: number;
}

/** A stretch on loan: another circuit may get it while this one does not solve. */
export interface Lease {
  /** False once what stood there is lost. */
  live: boolean;
}

/** Words of the header: sizes (the last is noted by the loops), then the address of each list. */
const SIZES = 9;
const LISTS = 32;
/** Whole numbers of doubles, which follow. */
const HEADER_BYTES = 8 * Math.ceil((SIZES + LISTS) / 2);

/** Lengths of the lists of numbers, in the order of the header; then of those of places that change. */
function lengthsOf({ plan, slot, resistors, columns, devices }: Wiring): [floats: number[], ints: number[]] {
  const { nodeCount: nodes, firstPort, slotCount, start } = plan;
  const portSlots = slotCount - start[firstPort]!;
  const ports = nodes - firstPort;
  const linear = slot.length;
  const reduced = [slotCount, slotCount, nodes, nodes, nodes, portSlots, ports];
  const small = [ports * (columns + 1), columns * (columns + 1), columns, columns];
  // The currents follow on `out`, so that a point keeps both in one piece.
  const point = [nodes, nodes, 2 * nodes + 2 * devices, linear];
  const sources = linear - resistors;
  const places = [columns, columns, columns, columns, columns, columns];
  return [[...reduced, ...small, ...point, linear, sources, sources, 1], places];
}

/** The plan of a stretch. */
export class Layout {
  readonly wiring: Wiring;
  readonly bytes: number;
  /** Lengths of the lists that change, and where all begin, bytes from the beginning of the stretch. */
  readonly lengths: readonly number[];
  readonly offsets: readonly number[];
  private readonly sizes: readonly number[];
  /** The lists that do not change, one after the other. */
  private readonly fixed: Int32Array;

  constructor(wiring: Wiring) {
    const { plan, slot, linearA, linearB, resistors } = wiring;
    const fixed = [plan.start, plan.column, plan.target, plan.runs, slot, linearA, linearB];
    const [floats, ints] = lengthsOf(wiring);
    const offsets: number[] = [];
    let at = HEADER_BYTES;
    for (const length of floats) {
      offsets.push(at);
      at += 8 * length;
    }
    const fixedLengths = fixed.map((list) => list.length);
    for (const length of [...ints, ...fixedLengths]) {
      offsets.push(at);
      at += 4 * length;
    }
    this.wiring = wiring;
    this.bytes = 8 * Math.ceil(at / 8);
    this.lengths = [...floats, ...ints];
    this.offsets = offsets;
    const { nodeCount, firstPort, portRun, runs, slotCount, start } = plan;
    const runCount = runs.length / 4;
    const sizes = [nodeCount, firstPort, portRun, runCount, slotCount, start[firstPort]!];
    this.sizes = [...sizes, resistors, slot.length, 0];
    this.fixed = new Int32Array(fixedLengths.reduce((sum, length) => sum + length, 0));
    let place = 0;
    for (const list of fixed) {
      this.fixed.set(list, place);
      place += list.length;
    }
  }

  /** Writes header and lists for a stretch at address `at` of a memory, and clears the rest of it. */
  write(memory: ArrayBuffer, at: number): void {
    const { sizes, offsets, lengths, fixed, bytes } = this;
    new Uint8Array(memory, at, bytes).fill(0);
    const header = new Int32Array(memory, at, SIZES + LISTS);
    header.set(sizes);
    offsets.forEach((offset, i) => {
      header[SIZES + i] = at + offset;
    });
    new Int32Array(memory, at + offsets[lengths.length]!, fixed.length).set(fixed);
  }
}

/** The numbers of a circuit, by position, by slot, by column of its small system. Meanings and units: `ports.ts`, `small.ts`, `linear.ts`. */
export class Store {
  readonly wiring: Wiring;
  readonly lease: Lease;
  /** Address in the memory of the module. */
  readonly at: number;
  readonly S: Float64Array;
  readonly L: Float64Array;
  readonly inverse: Float64Array;
  readonly J: Float64Array;
  readonly v: Float64Array;
  readonly baseS: Float64Array;
  readonly baseJ: Float64Array;
  readonly W: Float64Array;
  readonly rows: Float64Array;
  readonly scale: Float64Array;
  readonly unknown: Float64Array;
  readonly residual: Float64Array;
  readonly delta: Float64Array;
  /** What a point keeps: volts by position, what they leave out, currents out of and through devices, those of the linear elements. */
  readonly out: Float64Array;
  /** The last part of it. */
  readonly currents: Float64Array;
  readonly siemens: Float64Array;
  readonly sourceVolts: Float64Array;
  readonly sourceAmps: Float64Array;
  /** One number: the largest change of a port's voltage in the correcting pass. */
  readonly farthest: Float64Array;
  readonly kind: Int32Array;
  readonly columnA: Int32Array;
  readonly columnB: Int32Array;
  /** Elimination place -> column, and -> where its row begins. */
  readonly columnAt: Int32Array;
  readonly rowAt: Int32Array;
  readonly powerless: Int32Array;
  /** How many unknowns come before the falling ones; used by the loops in TypeScript only. */
  rising = 0;

  /** @param at where the stretch begins in `memory`; it must have been cleared */
  constructor(layout: Layout, memory: ArrayBuffer, at: number, lease: Lease) {
    const { wiring, lengths, offsets } = layout;
    const numbers = (i: number): Float64Array => new Float64Array(memory, at + offsets[i]!, lengths[i]);
    const places = (i: number): Int32Array => new Int32Array(memory, at + offsets[i]!, lengths[i]);
    this.wiring = wiring;
    this.lease = lease;
    this.at = at;
    this.S = numbers(0);
    this.L = numbers(1);
    this.inverse = numbers(2);
    this.J = numbers(3);
    this.v = numbers(4);
    this.baseS = numbers(5);
    this.baseJ = numbers(6);
    this.W = numbers(7);
    this.rows = numbers(8);
    this.scale = numbers(9);
    this.unknown = numbers(10);
    this.residual = numbers(11);
    this.delta = numbers(12);
    this.out = new Float64Array(memory, at + offsets[13]!, lengths[13]! + lengths[14]!);
    this.currents = numbers(14);
    this.siemens = numbers(15);
    this.sourceVolts = numbers(16);
    this.sourceAmps = numbers(17);
    this.farthest = numbers(18);
    this.kind = places(19);
    this.columnA = places(20);
    this.columnB = places(21);
    this.columnAt = places(22);
    this.rowAt = places(23);
    this.powerless = places(24);
  }
}
