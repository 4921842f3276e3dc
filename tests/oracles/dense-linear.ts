/** Dense linear algebra with partial pivoting, and the linear part of a circuit reduced to its devices' nodes. */
import type { ElementOf } from '../../packages/engine/src/contracts/element.ts';

type Element = ElementOf<number>;

/** Solves A x = b in place (row-major, n x n) by elimination with partial pivoting; columns without pivot give 0. */
export function denseSolve(A: Float64Array, b: Float64Array, n: number): Float64Array {
  const row = Int32Array.from({ length: n }, (_, i) => i);
  const pivotRow = new Int32Array(n).fill(-1);
  let top = 0;
  for (let c = 0; c < n; c += 1) {
    let best = top;
    let size = 0;
    for (let r = top; r < n; r += 1) {
      const entry = Math.abs(A[row[r] * n + c]);
      if (entry > size) {
        size = entry;
        best = r;
      }
    }
    if (size < 1e-11) continue;
    const swap = row[top];
    row[top] = row[best]!;
    row[best] = swap;
    const p = row[top] * n;
    const pivot = A[p + c];
    for (let r = top + 1; r < n; r += 1) {
      const q = row[r] * n;
      const entry = A[q + c];
      const f = entry / pivot;
      for (let k = c + 1; k < n; k += 1) A[q + k] -= f * A[p + k];
      b[row[r]] -= f * b[row[top]];
    }
    pivotRow[c] = row[top]!;
    top += 1;
  }
  const x = new Float64Array(n);
  for (let c = n - 1; c >= 0; c -= 1) {
    const r = pivotRow[c];
    if (r < 0) continue;
    let sum = b[r];
    for (let k = c + 1; k < n; k += 1) sum -= A[r * n + k] * x[k];
    x[c] = sum / A[r * n + c];
  }
  return x;
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
export class Reduction {
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
      const ia = innerOf[a];
      const pa = this.unknownOf[a];
      if (ia >= 0) {
        G[ia * m + ia] += g;
        if (innerOf[b] >= 0) G[ia * m + innerOf[b]] -= g;
        if (this.unknownOf[b] >= 0) B[ia * p + this.unknownOf[b]] -= g;
      } else if (pa >= 0) {
        this.Y[pa * p + pa] += g;
        if (this.unknownOf[b] >= 0) this.Y[pa * p + this.unknownOf[b]] -= g;
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
      const right = Float64Array.from({ length: m }, (_, r) => -B[r * p + c]);
      const x = denseSolve(G.slice(), right, m);
      for (let r = 0; r < m; r += 1) this.toPorts[r * p + c] = x[r]!;
      for (let r = 0; r < p; r += 1) {
        let sum = 0;
        for (let k = 0; k < m; k += 1) sum += B[k * p + r] * x[k];
        this.Y[r * p + c] += sum;
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
      for (let c = 0; c < p; c += 1) sum += this.toPorts[r * p + c] * x[c];
      v[n] = sum;
    });
    return v;
  }
}
