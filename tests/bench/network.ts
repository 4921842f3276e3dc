/**
 * Speed of operating points, measured side by side in one process: the engine's own point with contacts changed against a fresh
 * operating point of ngspice and against full dense Newton. Ratios count; microseconds depend on the machine.
 */
import { planCircuit } from '../../packages/engine/src/network/plan.ts';
import { denseNewton, densePieces } from '../oracles/dense.ts';
import { drawCircuit, type Circuit, type Element } from '../oracles/generate.ts';
import { netlist } from '../oracles/spice.ts';
import { warmSpice, type TimedSpice } from './timed-spice.ts';

export interface BenchRow {
  readonly name: string;
  /** How many times faster the engine is. */
  readonly ratio: number;
  /** Least ratio allowed, and the one aimed at. */
  readonly gate: number;
  readonly aim: number;
  readonly note: string;
  /** Median time of what it is measured against, ms. */
  readonly against: number;
}

const ROUNDS = 25;
/** Points timed in a round. */
const POINTS = 300;
const DENSE_ROUNDS = 5;
const CONVERGED = 30;
/** Time for which points are solved before timing, ms, so that the engine runs compiled. */
const WARM_MS = 300;
const OP_GATES: readonly (readonly [nodes: number, gate: number, aim: number])[] = [
  [60, 400, 1500],
  [300, 150, 500],
  [1000, 150, 700],
];
const DENSE_GATES: readonly (readonly [nodes: number, gate: number, aim: number])[] = [
  [60, 40, 150],
  [100, 100, 400],
  [300, 1000, 5000],
];

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

function draw(seed: number, nodes: number): Circuit {
  const converters = nodes > 200 ? 3 : nodes > 60 ? 2 : 1;
  return drawCircuit(seed, { nodes, open: 0.1, piecewise: false, converters, load: 0.6 });
}

/** The circuit with three of its contacts changed over, in several ways. */
function changed(circuit: Circuit, count: number): Element[][] {
  return Array.from({ length: count }, (_, k) => {
    const elements = circuit.elements.slice();
    for (let j = 0; j < 3; j += 1) {
      const at = circuit.contacts[(7 * k + 5 * j) % circuit.contacts.length] ?? 0;
      const e = elements[at];
      if (e?.type === 'resistor') elements[at] = { ...e, ohms: e.ohms === Infinity ? 3e-3 : Infinity };
    }
    return elements;
  });
}

/** Microseconds per point of the engine: best of several rounds through all variants, contacts changing from each to the next. */
function ownTime(circuit: Circuit, variants: readonly Element[][]): number {
  const plan = planCircuit(circuit.nodeCount, circuit.reference, circuit.elements);
  const round = (points: number): void => {
    for (let i = 0; i < points; i += variants.length) for (const v of variants) plan.solve(v);
  };
  for (const until = performance.now() + WARM_MS; performance.now() < until;) round(POINTS);
  let best = Infinity;
  for (let r = 0; r < ROUNDS; r += 1) {
    const begin = performance.now();
    round(POINTS);
    const solved = Math.ceil(POINTS / variants.length) * variants.length;
    best = Math.min(best, ((performance.now() - begin) * 1e3) / solved);
  }
  return best;
}

async function againstOp(spice: TimedSpice, nodes: number, gate: number, aim: number): Promise<BenchRow> {
  const own: number[] = [];
  const other: number[] = [];
  for (let seed = 1; other.length < CONVERGED && seed <= 40; seed += 1) {
    const circuit = draw(seed, nodes);
    const variants = changed(circuit, 6);
    const times: number[] = [];
    for (const v of variants) {
      const text = netlist(circuit.reference, v);
      const ms = await spice.run(text);
      if (ms !== null) times.push(ms * 1e3);
    }
    if (times.length === 0) continue;
    other.push(...times);
    own.push(ownTime(circuit, variants));
  }
  return {
    name: `fresh ngspice .op : own point, contacts changed, ${nodes} nodes`,
    ratio: median(other) / median(own),
    gate,
    aim,
    note: `${median(own).toFixed(1)} us against ${median(other).toFixed(0)} us, ${other.length} converged runs`,
    against: median(other) / 1e3,
  };
}

function againstDense(nodes: number, gate: number, aim: number): BenchRow {
  const own: number[] = [];
  const other: number[] = [];
  for (let seed = 1; seed <= 3; seed += 1) {
    const circuit = draw(seed, nodes);
    const pieces = densePieces(circuit.nodeCount, circuit.reference, circuit.elements);
    if (pieces === null) continue;
    own.push(ownTime(circuit, changed(circuit, 6)));
    let best = Infinity;
    for (let round = 0; round < DENSE_ROUNDS; round += 1) {
      const begin = performance.now();
      denseNewton(circuit.nodeCount, circuit.reference, circuit.elements, pieces);
      best = Math.min(best, (performance.now() - begin) * 1e3);
    }
    other.push(best);
  }
  return {
    name: `full dense Newton on known pieces : own point, ${nodes} nodes`,
    ratio: median(other) / median(own),
    gate,
    aim,
    note: `${median(own).toFixed(1)} us against ${median(other).toFixed(0)} us`,
    against: median(other) / 1e3,
  };
}

/** Rows against ngspice. */
export async function benchSpice(): Promise<BenchRow[]> {
  const spice = await warmSpice();
  const rows: BenchRow[] = [];
  for (const [nodes, gate, aim] of OP_GATES) rows.push(await againstOp(spice, nodes, gate, aim));
  await spice.stop();
  return rows;
}

/** Rows against full dense Newton. */
export function benchDense(): BenchRow[] {
  return DENSE_GATES.map(([nodes, gate, aim]) => againstDense(nodes, gate, aim));
}

export interface NetworkBench {
  /** All rows on the operating point. */
  readonly rows: readonly BenchRow[];
  /** The run's median fresh 60-node operating point of ngspice, ms: the measure of the judged set. */
  readonly point: number;
}

export async function benchNetwork(): Promise<NetworkBench> {
  const spice = await benchSpice();
  return { rows: [...spice, ...benchDense()], point: spice[0]?.against ?? Number.NaN };
}
