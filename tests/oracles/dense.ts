/**
 * Second implementation of the operating point, sharing nothing with the engine: dense elimination with partial pivoting, the
 * full set of equations by Newton, and brute force over every combination of pieces. Of several solutions the one with
 * the highest input voltages counts.
 */
import type { ElementOf } from '../../packages/engine/src/contracts/element.ts';
import { denseSolve, reachable, Reduction } from './dense-linear.ts';
import { pieceEquations, piecesOf, volts, type Device } from './dense-pieces.ts';
import { worstMiss, type Answer } from './law.ts';

type Element = ElementOf<number>;

export interface DenseAnswer extends Answer {
  readonly volts: Float64Array;
  /** 1 for nodes with a path to the reference. */
  readonly known: Uint8Array;
  /** Combinations tried, and distinct solutions found. */
  readonly tried: number;
  readonly solutions: number;
  /** Of every distinct solution the volts at the inputs of powers and converters that are on. */
  readonly inputs: readonly (readonly number[])[];
}

/** How far a solution may be off the laws of its elements, in their units; beyond, its pieces do not fit. */
const LAW = 1e-6;

/** A device current into Kirchhoff's row of a node. */
function addFlow(
  A: Float64Array,
  right: Float64Array,
  x: Float64Array,
  n: number,
  node: number,
  unknown: number,
  sign: number,
): void {
  if (node < 0) return;
  A[node * n + unknown] += sign;
  right[node] -= sign * x[unknown];
}

/** Volts at the inputs of powers and converters that are on. */
function inputVolts(devices: readonly Device[], x: Float64Array): number[] {
  return devices
    .filter(({ element: e }) => e.type === 'power' || (e.type === 'converter' && e.on))
    .map(({ at }) => volts(x, at.a, at.b));
}

class Brute {
  private readonly reduction: Reduction;
  private readonly devices: Device[] = [];
  private readonly size: number;
  private readonly nodeCount: number;
  private readonly reference: number;
  private readonly elements: readonly Element[];
  readonly known: Uint8Array;
  private readonly start: Float64Array;

  constructor(nodeCount: number, reference: number, elements: readonly Element[], whole: boolean) {
    this.nodeCount = nodeCount;
    this.reference = reference;
    this.elements = elements;
    this.known = reachable(nodeCount, reference, elements, true);
    this.reduction = new Reduction(nodeCount, reference, elements, this.known, whole);
    const of = (n: number): number => this.reduction.unknownOf[n];
    let next = this.reduction.ports.length;
    elements.forEach((element, index) => {
      if (element.type === 'resistor') return;
      const isConverter = element.type === 'converter';
      const [a, b] = isConverter ? [element.inA, element.inB] : [element.a, element.b];
      const [oa, ob] = isConverter ? [element.outA, element.outB] : [a, b];
      const senses = isConverter || element.type === 'hold';
      const i = next;
      const o = isConverter ? next + 1 : -1;
      next += isConverter ? 2 : 1;
      const at = {
        a: of(a),
        b: of(b),
        oa: of(oa),
        ob: of(ob),
        sa: senses ? of(element.senseA) : -1,
        sb: senses ? of(element.senseB) : -1,
        i,
        o,
      };
      this.devices.push({ element, index, at, pieces: piecesOf(element) });
    });
    this.size = next;
    this.start = this.high();
  }

  /** A start on the side of high voltages. */
  private high(): Float64Array {
    const x = new Float64Array(this.size);
    let top = 1;
    for (const { element: e } of this.devices) {
      if (e.type === 'hold') top = Math.max(top, e.volts);
      if (e.type === 'pieces') top = Math.max(top, ...e.points.map(([v]) => v));
    }
    for (const { at, element } of this.devices) {
      for (const n of [at.a, at.oa, at.sa]) if (n >= 0) x[n] = top;
      x[at.i] = element.type === 'power' ? element.watts / top : 0;
      if (element.type === 'converter') x[at.o] = element.current;
    }
    return x;
  }

  /** Newton for one combination; null when it does not end. */
  newton(pieces: readonly string[]): Float64Array | null {
    const n = this.size;
    const p = this.reduction.ports.length;
    let x = this.start.slice();
    for (let step = 0; step < 40; step += 1) {
      const A = new Float64Array(n * n);
      const right = new Float64Array(n);
      for (let r = 0; r < p; r += 1) {
        for (let c = 0; c < p; c += 1) {
          const y = this.reduction.Y[r * p + c];
          A[r * n + c] = y;
          right[r] -= y * x[c];
        }
      }
      let row = p;
      this.devices.forEach((d, k) => {
        const { a, b, oa, ob, i, o } = d.at;
        addFlow(A, right, x, n, a, i, 1);
        addFlow(A, right, x, n, b, i, -1);
        if (o >= 0) {
          addFlow(A, right, x, n, oa, o, -1);
          addFlow(A, right, x, n, ob, o, 1);
        }
        for (const equation of pieceEquations(d, pieces[k], x)) {
          for (const [unknown, by] of equation.slope) if (unknown >= 0) A[row * n + unknown] += by;
          right[row] -= equation.value;
          row += 1;
        }
      });
      const change = denseSolve(A, right, n);
      let largest = 0;
      x = x.map((value, k) => value + change[k]);
      for (const c of change) largest = Math.max(largest, Math.abs(c));
      if (!(largest < 1e7)) return null;
      if (largest < 1e-9) return x;
    }
    return null;
  }

  private answer(x: Float64Array, tried: number, inputs: readonly number[][], full: boolean): DenseAnswer {
    const { devices, nodeCount } = this;
    let v = new Float64Array(nodeCount);
    if (full) v = this.reduction.expand(x, nodeCount);
    else this.reduction.ports.forEach((node, k) => (v[node] = x[k]!));
    const of = new Map(devices.map((d) => [d.index, d]));
    const currentOf = (e: number): number => {
      const element = this.elements[e];
      if (element.type === 'resistor') return (v[element.a] - v[element.b]) / element.ohms;
      return x[of.get(e)!.at.i];
    };
    const outOf = (e: number): number => {
      const o = of.get(e)?.at.o ?? -1;
      return o < 0 ? 0 : x[o];
    };
    return {
      volts: v,
      known: this.known,
      tried,
      solutions: inputs.length,
      inputs,
      current: currentOf,
      outCurrent: outOf,
    };
  }

  solve(): { answer: DenseAnswer; pieces: readonly string[] } | null {
    const { devices } = this;
    const total = devices.reduce((product, d) => product * d.pieces.length, 1);
    let best: Float64Array | null = null;
    let bestPieces: readonly string[] = [];
    let highest = -Infinity;
    let least = Infinity;
    const inputs = new Map<string, number[]>();
    for (let n = 0; n < total; n += 1) {
      let rest = n;
      const pieces = devices.map((d) => {
        const k = rest % d.pieces.length;
        rest = (rest - k) / d.pieces.length;
        return d.pieces[k];
      });
      const x = this.newton(pieces);
      if (x === null || this.lacks(x)) continue;
      const { worst: miss } = worstMiss(this.elements, this.answer(x, 0, [], false));
      if (miss > LAW) continue;
      const volt = inputVolts(devices, x);
      const height = volt.reduce((sum, v) => sum + v, 0);
      inputs.set(volt.map((v) => v.toFixed(6)).join(), volt);
      // On the edge of a piece both sides pass; a side that is a little off its law may look a little higher.
      const same = Math.abs(height - highest) <= LAW;
      if (same ? miss < least : height > highest) {
        highest = height;
        least = miss;
        best = x;
        bestPieces = pieces;
      }
    }
    if (best === null) return null;
    return { answer: this.answer(best, total, [...inputs.values()], true), pieces: bestPieces };
  }

  /** True when currents do not add up at some port (a combination without pivot). */
  private lacks(x: Float64Array): boolean {
    const p = this.reduction.ports.length;
    const sums = new Float64Array(p);
    for (let r = 0; r < p; r += 1)
      for (let c = 0; c < p; c += 1) sums[r] += this.reduction.Y[r * p + c] * x[c];
    for (const { at } of this.devices) {
      if (at.a >= 0) sums[at.a] += x[at.i];
      if (at.b >= 0) sums[at.b] -= x[at.i];
      if (at.o < 0) continue;
      if (at.oa >= 0) sums[at.oa] -= x[at.o];
      if (at.ob >= 0) sums[at.ob] += x[at.o];
    }
    return sums.some((sum) => !(Math.abs(sum) < 1e-6));
  }
}

/** Operating point by brute force, or null when no combination of pieces is a solution. */
export function solveDense(
  nodeCount: number,
  reference: number,
  elements: readonly Element[],
): DenseAnswer | null {
  return new Brute(nodeCount, reference, elements, false).solve()?.answer ?? null;
}

/** The pieces on which a circuit's devices stand at its operating point, by brute force. */
export function densePieces(
  nodeCount: number,
  reference: number,
  elements: readonly Element[],
): readonly string[] | null {
  return new Brute(nodeCount, reference, elements, false).solve()?.pieces ?? null;
}

/** Operating point on known pieces by Newton on the full dense equations: all node voltages, or null. */
export function denseNewton(
  nodeCount: number,
  reference: number,
  elements: readonly Element[],
  pieces: readonly string[],
): Float64Array | null {
  return new Brute(nodeCount, reference, elements, true).newton(pieces);
}
