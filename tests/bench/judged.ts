/**
 * Speed of the judged set of made-up builds of 60 parts: every condition and window under the three assumptions, warm and in a
 * fresh process, as multiples of a fresh 60-node operating point of ngspice in the same run.
 */
import { spawnSync } from 'node:child_process';
import { openSession, type Build, type Push } from '../../packages/engine/src/index.ts';
import { makeRegistry } from '../../packages/engine/src/kinds/registry.ts';
import { makeOperation, valuesFor } from '../../packages/engine/src/operate/index.ts';
import { practices } from '../../packages/engine/src/practices/index.ts';
import { generate } from '../documents/generate.ts';
import { drawCircuit } from '../oracles/generate.ts';
import { netlist } from '../oracles/spice.ts';
import { warmSpice, type TimedSpice } from './timed-spice.ts';

export interface JudgedRow {
  readonly name: string;
  /** Multiple of the operating point's time; small is good. */
  readonly ratio: number;
  /** Most allowed (null: any), and aimed at. */
  readonly gate: number | null;
  readonly aim: number;
  readonly note: string;
}

/** Builds with two owner's switches, as an ordinary van has. */
const SEEDS = [2, 4, 8];
const BUILD = { parts: 60, owners: 2, supply: 'alternator' } as const;
/** Rounds before the clock, so that what is called warm runs compiled; a fresh process is timed by itself. */
const WARM_ROUNDS = 20;
const ROUNDS = 7;
const FRESH_PROCESSES = 3;
const OP_NODES = 60;
const OP_RUNS = 6;
const WARM_GATE = 25;
const FIRST_GATE = 110;
/** As the limits of the machine allow: 12 ms and 60 ms beside a 3.5 ms point. */
const WARM_AIM = 3.5;
const FIRST_AIM = 17;
const PUSHES: readonly Push[] = ['nominal', 'slack', 'stiff'];

function build(seed: number): Build {
  const { build: made } = openSession(generate(seed, BUILD));
  if (made === null) throw new Error(`the made-up build ${seed} does not read`);
  return made;
}

/** Solves the judged set under the three assumptions; returns the number of outcomes. */
function judgedSet(of: Build): number {
  const registry = makeRegistry();
  let outcomes = 0;
  for (const push of PUSHES) {
    const assumption = { push, pinned: new Set<string>() };
    const op = makeOperation(of, registry, {
      assumption,
      practice: practices[of.practice ?? 'europe'],
      values: valuesFor(of, assumption),
    });
    outcomes += op.windows().length + op.all().length;
  }
  return outcomes;
}

export const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Time of some work by the clock, ms. */
export function milliseconds(work: () => void): number {
  const begin = performance.now();
  work();
  return performance.now() - begin;
}

/** Times of fresh 60-node operating points, ms. */
export async function points(spice: TimedSpice, from: number): Promise<number[]> {
  const times: number[] = [];
  for (let seed = from; times.length < OP_RUNS && seed < from + 40; seed += 1) {
    const circuit = drawCircuit(seed, {
      nodes: OP_NODES,
      open: 0.1,
      piecewise: false,
      converters: 1,
      load: 0.6,
    });
    const text = netlist(circuit.reference, circuit.elements);
    const ms = await spice.run(text);
    if (ms !== null) times.push(ms);
  }
  return times;
}

/** Time of the judged set of one build in this process, ms: for a process started for nothing else. */
export function firstRun(seed: number): number {
  const of = build(seed);
  return milliseconds(() => void judgedSet(of));
}

/**
 * `first` starts a fresh process that prints `firstRun(seed)`; `point`: the run's median fresh 60-node operating point, ms. Points that
 * are run between the judged sets, so that a busy machine shows in both, are told beside it.
 */
export async function benchJudged(first: (seed: number) => number, point: number): Promise<JudgedRow[]> {
  const spice = await warmSpice();
  const builds = SEEDS.map(build);
  for (let round = 0; round < WARM_ROUNDS; round += 1) for (const of of builds) judgedSet(of);
  const op: number[] = [];
  const warm = builds.map((): number[] => []);
  for (let round = 0; round < ROUNDS; round += 1) {
    op.push(...(await points(spice, 1 + 50 * round)));
    builds.forEach((of, i) => warm[i]?.push(milliseconds(() => void judgedSet(of))));
  }
  await spice.stop();
  const cold = SEEDS.map((seed) => Math.min(...Array.from({ length: FRESH_PROCESSES }, () => first(seed))));
  const warmBest = median(warm.map((times) => Math.min(...times)));
  const coldBest = median(cold);
  const note = (ms: number): string =>
    `${ms.toFixed(0)} ms against ${point.toFixed(2)} ms, median of ${SEEDS.length} builds of ${BUILD.parts} parts; against ${median(op).toFixed(2)} ms, measured between them, ${(ms / median(op)).toFixed(1)}`;
  return [
    {
      name: `judged set, three assumptions, warm : fresh ngspice .op, ${OP_NODES} nodes`,
      ratio: warmBest / point,
      gate: WARM_GATE,
      aim: WARM_AIM,
      note: note(warmBest),
    },
    {
      name: `judged set, three assumptions, first run : fresh ngspice .op, ${OP_NODES} nodes`,
      ratio: coldBest / point,
      gate: FIRST_GATE,
      aim: FIRST_AIM,
      note: note(coldBest),
    },
  ];
}

/** Runs this program again in a fresh process, started alike, for one build; its only output is the time. */
export function inFreshProcess(program: string, seed: number): number {
  const done = spawnSync(process.execPath, [...process.execArgv, program, '--first', String(seed)], {
    encoding: 'utf8',
  });
  const ms = Number(done.stdout.trim());
  if (done.status !== 0 || !Number.isFinite(ms))
    throw new Error(`the first run of ${seed} failed: ${done.stderr}`);
  return ms;
}
