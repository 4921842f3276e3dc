/**
 * Second implementation of the operating point, sharing nothing with the engine: dense elimination with partial pivoting, the
 * full set of equations by Newton, and brute force over every combination of pieces. Of several solutions the one with
 * the highest input voltages counts.
 */
import type { ElementOf } from '../../packages/engine/src/contracts/element.ts';
import { efficiency, worstMiss, type Answer } from './law.ts';

type Element = ElementOf<number>;
type Converter = Extract<Element, { type: 'converter' }>;

/** Solves A x = b in place (row-major, n x n) by elimination with partial pivoting; columns without pivot give 0. */
export function denseSolve(A: Float64Array, b: Float64Array, n: number): Float64Array {
  const row = Int32Array.from({ length: n }, (_, i) => i);
  const pivotRow = new Int32Array(n).fill(-1);
  let top = 0;
  for (let c = 0; c < n; c += 1) {
    let best = top;
    let size = 0;
    for (let r = top; r < n; r += 1) {
      const entry = Math.abs(A[row[r]! * n + c]!);
      if (entry > size) {
        size = entry;
        best = r;
      }
    }
    if (size < 1e-11) continue;
    const swap = row[top]!;
    row[top] = row[best]!;
    row[best] = swap;
    const p = row[top]! * n;
    const pivot = A[p + c]!;
    for (let r = top + 1; r < n; r += 1) {
      const q = row[r]! * n;
      const entry = A[q + c]!;
      const f = entry / pivot;
      for (let k = c + 1; k < n; k += 1) A[q + k]! -= f * A[p + k]!;
      b[row[r]!]! -= f * b[row[top]!]!;
    }
    pivotRow[c] = row[top]!;
    top += 1;
  }
  const x = new Float64Array(n);
  for (let c = n - 1; c >= 0; c -= 1) {
    const r = pivotRow[c]!;
    if (r < 0) continue;
    let sum = b[r]!;
    for (let k = c + 1; k < n; k += 1) sum -= A[r * n + k]! * x[k]!;
    x[c] = sum / A[r * n + c]!;
  }
  return x;
}

/** One equation: value at x, and its derivatives as (unknown, value) pairs; unknown -1 is the reference. */
interface Equation {
  value: number;
  slope: [unknown: number, by: number][];
}

interface Device {
  readonly element: Element;
  readonly index: number;
  /** Unknowns: node voltages of a, b, out a, out b, sense a, sense b, then currents through and out. */
  readonly at: { a: number; b: number; oa: number; ob: number; sa: number; sb: number; i: number; o: number };
  readonly pieces: readonly string[];
}

function converterPieces(e: Converter): string[] {
  if (!e.on) return ['off<0', 'off<1', 'off'];
  const remote = e.senseA !== e.outA || e.senseB !== e.outB;
  const low =
    e.lowInput.type === 'holds'
      ? ['hold', 'starved']
      : e.lowInput.type === 'reduces'
        ? ['reduce', 'starved']
        : [];
  if (e.demand !== null) {
    const outs = remote ? ['limited', 'volts', 'cap', 'blocked'] : ['limited', 'volts', 'blocked'];
    return ['full', 'limit', 'low', 'dead', ...low].flatMap((input) => outs.map((out) => `${input} ${out}`));
  }
  return ['blocked', 'volts', 'current', 'limit', 'low', 'dead', ...low, ...(remote ? ['cap'] : [])];
}

function piecesOf(e: Element): string[] {
  switch (e.type) {
    case 'pieces':
      return Array.from({ length: e.points.length + 1 }, (_, i) => String(i));
    case 'hold': {
      const remote = e.senseA !== e.a || e.senseB !== e.b;
      return ['regulating', 'least', 'greatest', ...(remote ? ['cap'] : [])];
    }
    case 'power':
      return e.limit * e.knee < e.watts ? ['power', 'limit', 'resistor'] : ['power', 'resistor'];
    case 'converter':
      return converterPieces(e);
    default:
      return [];
  }
}

function volts(x: Float64Array, a: number, b: number): number {
  return (a < 0 ? 0 : x[a]!) - (b < 0 ? 0 : x[b]!);
}

/** value = c + sum k (v_a - v_b) + sum k i */
function linear(
  x: Float64Array,
  c: number,
  pairs: [number, number, number][],
  singles: [number, number][],
): Equation {
  const slope: [number, number][] = [];
  let value = c;
  for (const [a, b, k] of pairs) {
    value += k * volts(x, a, b);
    slope.push([a, k], [b, -k]);
  }
  for (const [i, k] of singles) {
    value += k * x[i]!;
    slope.push([i, k]);
  }
  return { value, slope };
}

function pieceEquations(d: Device, piece: string, x: Float64Array): Equation[] {
  const { element: e, at } = d;
  const { a, b, i } = at;
  if (e.type === 'pieces') {
    const s = Number(piece);
    const last = e.points.length - 1;
    const [v0, i0] = e.points[Math.min(s, last)]!;
    let g = s === 0 ? e.below : e.above;
    if (s > 0 && s <= last) {
      const [v1, i1] = e.points[s - 1]!;
      g = (i0 - i1) / (v0 - v1);
    }
    return [linear(x, g * v0 - i0, [[a, b, -g]], [[i, 1]])];
  }
  if (e.type === 'hold') {
    if (piece === 'least') return [linear(x, e.least, [], [[i, 1]])];
    if (piece === 'greatest') return [linear(x, e.greatest, [], [[i, 1]])];
    if (piece === 'cap') return [linear(x, -1.1 * e.volts, [[a, b, 1]], [])];
    return [linear(x, -e.volts, [[at.sa, at.sb, 1]], [])];
  }
  if (e.type === 'power') {
    if (piece === 'limit') return [linear(x, -e.limit, [], [[i, 1]])];
    if (piece === 'resistor') return [linear(x, 0, [[a, b, -e.watts / e.knee ** 2]], [[i, 1]])];
    return [product(x, a, b, i, 0, -e.watts)];
  }
  return e.type === 'converter' ? converterEquations(e, d, piece, x) : [];
}

/** (v_a - v_b) (i - less) + c = 0 */
function product(x: Float64Array, a: number, b: number, i: number, less: number, c: number): Equation {
  const v = volts(x, a, b);
  const amps = x[i]! - less;
  return {
    value: v * amps + c,
    slope: [
      [a, amps],
      [b, -amps],
      [i, v],
    ],
  };
}

/** Input power less standby = output power / efficiency. */
function energy(e: Converter, d: Device, x: Float64Array): Equation {
  const { a, b, oa, ob, i, o } = d.at;
  const input = product(x, a, b, i, e.standbyAmps, 0);
  const out = volts(x, oa, ob);
  const sent = x[o]!;
  const asked = sent / efficiency(e, sent);
  const h = 1e-7 * Math.max(1, e.ratedCurrent);
  const rise = ((sent + h) / efficiency(e, sent + h) - (sent - h) / efficiency(e, sent - h)) / (2 * h);
  return {
    value: input.value - out * asked,
    slope: [...input.slope, [oa, -asked], [ob, asked], [o, -out * rise]],
  };
}

function converterEquations(e: Converter, d: Device, piece: string, x: Float64Array): Equation[] {
  const { a, b, oa, ob, sa, sb, i, o } = d.at;
  const low = e.inputLimit / e.lowest;
  const none = linear(x, 0, [], [[o, 1]]);
  const resistor = linear(x, 0, [[a, b, -low]], [[i, 1]]);
  const standby = linear(x, -e.standbyAmps, [], [[i, 1]]);
  const limit = linear(x, -e.inputLimit, [], [[i, 1]]);
  const held = linear(x, e.lowInput.type === 'holds' ? -e.lowInput.volts : 0, [[a, b, 1]], []);
  const regulated = linear(x, -e.volts, [[sa, sb, 1]], []);
  const capped = linear(x, -1.1 * e.volts, [[oa, ob, 1]], []);
  if (piece.startsWith('off')) {
    const g = 1 / e.idleOhms;
    if (piece === 'off') return [linear(x, -e.standbyAmps, [[a, b, -g]], [[i, 1]]), none];
    return [linear(x, 0, [[a, b, -(piece === 'off<1' ? g + e.standbyAmps : g)]], [[i, 1]]), none];
  }
  const reduce = e.lowInput.type === 'reduces' ? e.lowInput : { from: 1, to: 0 };
  const k = 1 / (reduce.from - reduce.to);
  if (e.demand === null) {
    const power = energy(e, d, x);
    switch (piece) {
      case 'blocked':
      case 'starved':
        return [standby, none];
      case 'dead':
        return [resistor, none];
      case 'volts':
        return [regulated, power];
      case 'cap':
        return [capped, power];
      case 'current':
        return [linear(x, -e.current, [], [[o, 1]]), power];
      case 'limit':
        return [limit, power];
      case 'low':
        return [resistor, power];
      case 'hold':
        return [held, power];
      default:
        return [linear(x, e.current * k * reduce.to, [[a, b, -e.current * k]], [[o, 1]]), power];
    }
  }
  const [input = '', out = ''] = piece.split(' ');
  const v = volts(x, a, b);
  const full = e.demand / v;
  // share x (full - standby) = i - standby, written for the share that the output follows
  const share = (x[i]! - e.standbyAmps) / (full - e.standbyAmps);
  const byAmps = 1 / (full - e.standbyAmps);
  const byVolts = (share * full) / v / (full - e.standbyAmps);
  const follow: Equation = {
    value: x[o]! - e.current * share,
    slope: [
      [o, 1],
      [i, -e.current * byAmps],
      [a, -e.current * byVolts],
      [b, e.current * byVolts],
    ],
  };
  const outputs: Record<string, Equation> = { limited: follow, volts: regulated, cap: capped, blocked: none };
  const s = (v - reduce.to) * k;
  const reduced: Equation = {
    value: x[i]! - e.standbyAmps - s * (full - e.standbyAmps),
    slope: [
      [i, 1],
      [a, -(k * (full - e.standbyAmps) - (s * full) / v)],
      [b, k * (full - e.standbyAmps) - (s * full) / v],
    ],
  };
  const inputs: Record<string, Equation> = {
    full: product(x, a, b, i, 0, -e.demand),
    limit,
    low: resistor,
    dead: resistor,
    hold: held,
    starved: standby,
    reduce: reduced,
  };
  const nothing = (input === 'dead' || input === 'starved') && out === 'limited';
  return [inputs[input] ?? standby, nothing ? none : (outputs[out] ?? none)];
}

/**
 * Nodes with a path to the reference through closed resistors or devices. The output of a converter is no path when `outputs`
 * is false: what hangs on it alone has no certain voltage while it sends nothing.
 */
export function reachable(
  nodeCount: number,
  reference: number,
  elements: readonly Element[],
  outputs: boolean,
): Uint8Array {
  const seen = new Uint8Array(nodeCount);
  seen[reference] = 1;
  for (let changed = true; changed;) {
    changed = false;
    const join = (a: number, b: number): void => {
      if (seen[a] === seen[b]) return;
      seen[a] = 1;
      seen[b] = 1;
      changed = true;
    };
    for (const e of elements) {
      if (e.type === 'converter') {
        join(e.inA, e.inB);
        if (e.on && outputs) join(e.outA, e.outB);
      } else if (e.type !== 'resistor' || e.ohms < Infinity) join(e.a, e.b);
    }
  }
  return seen;
}

/** The linear part, reduced to the ports by dense elimination with partial pivoting. */
class Reduction {
  readonly ports: number[] = [];
  readonly unknownOf: Int32Array;
  readonly Y: Float64Array;
  private readonly inner: number[] = [];
  private readonly toPorts: Float64Array;

  constructor(
    nodeCount: number,
    reference: number,
    elements: readonly Element[],
    known: Uint8Array,
    whole: boolean,
  ) {
    const isPort = new Uint8Array(nodeCount).fill(whole ? 1 : 0);
    for (const e of elements) {
      if (e.type === 'resistor') continue;
      const nodes = e.type === 'converter' ? [e.inA, e.inB, e.outA, e.outB, e.senseA, e.senseB] : [e.a, e.b];
      if (e.type === 'hold') nodes.push(e.senseA, e.senseB);
      for (const node of nodes) isPort[node] = 1;
    }
    this.unknownOf = new Int32Array(nodeCount).fill(-1);
    for (let n = 0; n < nodeCount; n += 1) {
      if (n === reference || known[n] === 0) continue;
      if (isPort[n] === 1) {
        this.unknownOf[n] = this.ports.length;
        this.ports.push(n);
      } else this.inner.push(n);
    }
    const innerOf = new Int32Array(nodeCount).fill(-1);
    this.inner.forEach((n, k) => (innerOf[n] = k));
    const p = this.ports.length;
    const m = this.inner.length;
    const G = new Float64Array(m * m);
    const B = new Float64Array(m * p);
    this.Y = new Float64Array(p * p);
    const put = (a: number, b: number, g: number): void => {
      const ia = innerOf[a]!;
      const pa = this.unknownOf[a]!;
      if (ia >= 0) {
        G[ia * m + ia]! += g;
        if (innerOf[b]! >= 0) G[ia * m + innerOf[b]!]! -= g;
        if (this.unknownOf[b]! >= 0) B[ia * p + this.unknownOf[b]!]! -= g;
      } else if (pa >= 0) {
        this.Y[pa * p + pa]! += g;
        if (this.unknownOf[b]! >= 0) this.Y[pa * p + this.unknownOf[b]!]! -= g;
      }
    };
    for (const e of elements) {
      if (e.type !== 'resistor' || e.ohms === Infinity || known[e.a] === 0) continue;
      put(e.a, e.b, 1 / e.ohms);
      put(e.b, e.a, 1 / e.ohms);
    }
    // inner voltages = -inv(G) B ports
    this.toPorts = new Float64Array(m * p);
    for (let c = 0; c < p; c += 1) {
      const right = Float64Array.from({ length: m }, (_, r) => -B[r * p + c]!);
      const x = denseSolve(G.slice(), right, m);
      for (let r = 0; r < m; r += 1) this.toPorts[r * p + c] = x[r]!;
      for (let r = 0; r < p; r += 1) {
        let sum = 0;
        for (let k = 0; k < m; k += 1) sum += B[k * p + r]! * x[k]!;
        this.Y[r * p + c]! += sum;
      }
    }
  }

  /** All node voltages from those of the ports. */
  expand(x: Float64Array, nodeCount: number): Float64Array {
    const v = new Float64Array(nodeCount);
    const p = this.ports.length;
    this.ports.forEach((n, k) => (v[n] = x[k]!));
    this.inner.forEach((n, r) => {
      let sum = 0;
      for (let c = 0; c < p; c += 1) sum += this.toPorts[r * p + c]! * x[c]!;
      v[n] = sum;
    });
    return v;
  }
}

export interface DenseAnswer extends Answer {
  readonly volts: Float64Array;
  /** 1 for nodes with a path to the reference. */
  readonly known: Uint8Array;
  /** Combinations tried, and distinct solutions found. */
  readonly tried: number;
  readonly solutions: number;
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
    const of = (n: number): number => this.reduction.unknownOf[n]!;
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
          const y = this.reduction.Y[r * p + c]!;
          A[r * n + c] = y;
          right[r]! -= y * x[c]!;
        }
      }
      let row = p;
      this.devices.forEach((d, k) => {
        const flow = (node: number, unknown: number, sign: number): void => {
          if (node < 0) return;
          A[node * n + unknown]! += sign;
          right[node]! -= sign * x[unknown]!;
        };
        flow(d.at.a, d.at.i, 1);
        flow(d.at.b, d.at.i, -1);
        if (d.at.o >= 0) {
          flow(d.at.oa, d.at.o, -1);
          flow(d.at.ob, d.at.o, 1);
        }
        for (const equation of pieceEquations(d, pieces[k]!, x)) {
          for (const [unknown, by] of equation.slope) if (unknown >= 0) A[row * n + unknown]! += by;
          right[row]! -= equation.value;
          row += 1;
        }
      });
      const change = denseSolve(A, right, n);
      let largest = 0;
      x = x.map((value, k) => value + change[k]!);
      for (const c of change) largest = Math.max(largest, Math.abs(c));
      if (!(largest < 1e7)) return null;
      if (largest < 1e-9) return x;
    }
    return null;
  }

  private answer(x: Float64Array, tried: number, solutions: number, full: boolean): DenseAnswer {
    const { devices, nodeCount } = this;
    let v = new Float64Array(nodeCount);
    if (full) v = this.reduction.expand(x, nodeCount);
    else this.reduction.ports.forEach((node, k) => (v[node] = x[k]!));
    const of = new Map(devices.map((d) => [d.index, d]));
    const currentOf = (e: number): number => {
      const element = this.elements[e]!;
      if (element.type === 'resistor') return (v[element.a]! - v[element.b]!) / element.ohms;
      return x[of.get(e)!.at.i]!;
    };
    const outOf = (e: number): number => {
      const o = of.get(e)?.at.o ?? -1;
      return o < 0 ? 0 : x[o]!;
    };
    return { volts: v, known: this.known, tried, solutions, current: currentOf, outCurrent: outOf };
  }

  solve(): { answer: DenseAnswer; pieces: readonly string[] } | null {
    const { devices } = this;
    const total = devices.reduce((product, d) => product * d.pieces.length, 1);
    let best: Float64Array | null = null;
    let bestPieces: readonly string[] = [];
    let highest = -Infinity;
    const heights = new Set<string>();
    for (let n = 0; n < total; n += 1) {
      let rest = n;
      const pieces = devices.map((d) => {
        const k = rest % d.pieces.length;
        rest = (rest - k) / d.pieces.length;
        return d.pieces[k]!;
      });
      const x = this.newton(pieces);
      if (x === null || this.lacks(x) || worstMiss(this.elements, this.answer(x, 0, 0, false)).worst > 1e-6)
        continue;
      let height = 0;
      for (const { element, at } of devices) {
        if (element.type === 'power' || (element.type === 'converter' && element.on))
          height += volts(x, at.a, at.b);
      }
      heights.add(height.toFixed(6));
      if (height > highest) {
        highest = height;
        best = x;
        bestPieces = pieces;
      }
    }
    if (best === null) return null;
    return { answer: this.answer(best, total, heights.size, true), pieces: bestPieces };
  }

  /** True when currents do not add up at some port (a combination without pivot). */
  private lacks(x: Float64Array): boolean {
    const p = this.reduction.ports.length;
    const sums = new Float64Array(p);
    for (let r = 0; r < p; r += 1)
      for (let c = 0; c < p; c += 1) sums[r]! += this.reduction.Y[r * p + c]! * x[c]!;
    for (const { at } of this.devices) {
      if (at.a >= 0) sums[at.a]! += x[at.i]!;
      if (at.b >= 0) sums[at.b]! -= x[at.i]!;
      if (at.o < 0) continue;
      if (at.oa >= 0) sums[at.oa]! -= x[at.o]!;
      if (at.ob >= 0) sums[at.ob]! += x[at.o]!;
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
