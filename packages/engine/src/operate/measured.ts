/** Measured resistances between two terminals: the computed path is brought to what was measured. */
import type { ElementOf, Measured } from '../contracts/index.ts';
import type { Circuit } from './circuit.ts';

/**
 * Finds the path of least resistance between the two terminals through closed resistive elements and scales its members so
 * that they add up to the measured figure. Paths that share members are scaled in the order of the document.
 */
export function applyMeasured(
  circuit: Circuit,
  elements: readonly ElementOf<number>[],
  measured: readonly Measured[],
): void {
  for (const m of measured) {
    const from = circuit.nodes.find(m.from);
    const to = circuit.nodes.find(m.to);
    if (from < 0 || to < 0 || from === to) continue;
    const path = leastPath(circuit, elements, from, to);
    const sum = path.reduce((ohms, e) => ohms + ohmsOf(elements[e], circuit.scale[e] ?? 1), 0);
    if (sum <= 0) continue;
    for (const e of path) circuit.scale[e] = (circuit.scale[e] ?? 1) * (m.resistance.value / sum);
  }
}

const ohmsOf = (e: ElementOf<number> | undefined, scale: number): number =>
  e?.type === 'resistor' && Number.isFinite(e.ohms) ? e.ohms * scale : 0;

/** Elements along the path of least resistance; empty when there is none. */
function leastPath(
  circuit: Circuit,
  elements: readonly ElementOf<number>[],
  from: number,
  to: number,
): readonly number[] {
  const best = new Float64Array(circuit.nodes.count).fill(Infinity);
  const by = new Int32Array(circuit.nodes.count).fill(-1);
  const done = new Uint8Array(circuit.nodes.count);
  best[from] = 0;
  for (let node = from; node >= 0; node = nearest(best, done)) {
    done[node] = 1;
    if (node === to) break;
    elements.forEach((e, i) => {
      if (e.type !== 'resistor' || !Number.isFinite(e.ohms)) return;
      const next = e.a === node ? e.b : e.b === node ? e.a : -1;
      const sum = (best[node] ?? Infinity) + ohmsOf(e, circuit.scale[i] ?? 1);
      if (next >= 0 && sum < (best[next] ?? Infinity)) {
        best[next] = sum;
        by[next] = i;
      }
    });
  }
  const path: number[] = [];
  for (let node = to; node !== from;) {
    const e = by[node] ?? -1;
    const element = elements[e];
    if (e < 0 || element?.type !== 'resistor') return [];
    path.push(e);
    node = element.a === node ? element.b : element.a;
  }
  return path;
}

function nearest(best: Float64Array, done: Uint8Array): number {
  let at = -1;
  for (let i = 0; i < best.length; i++) {
    if (done[i] === 0 && (best[i] ?? Infinity) < (at < 0 ? Infinity : (best[at] ?? Infinity))) at = i;
  }
  return at;
}
