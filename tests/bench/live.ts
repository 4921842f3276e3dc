/**
 * An edit of a made-up build of 60 parts, from its changes to what is drawn and to its findings: the engine's share of what a person
 * waits for, as multiples of a fresh 60-node operating point of ngspice in the same run. `main.js --live SORT` under --cpu-prof
 * shows where one sort of edit spends its time.
 */
import { openSession, type Build, type Change, type Session } from '../../packages/engine/src/index.ts';
import { generate } from '../documents/generate.ts';
import { median, milliseconds, points, type JudgedRow } from './judged.ts';
import { warmSpice } from './timed-spice.ts';

const BUILD = { parts: 60, owners: 2, supply: 'alternator' } as const;
const SEEDS = [2, 8];
/** Edits of each sort and build that are not counted: the machine's compiler is at work then. */
const WARM = 4;
const COUNTED = 6;

/** The n-th edit of its sort. */
type Edit = (build: Build, n: number) => Change;

const pick = <T>(list: readonly T[], n: number): T => {
  const found = list[n % list.length];
  if (found === undefined) throw new Error('a made-up build has every sort of part');
  return found;
};

const withField = (build: Build, field: string): readonly string[] =>
  [...build.parts.values()].filter((part) => field in part.fields).map((part) => part.id);

const wireOf = (build: Build, n: number): string => pick([...build.wires.keys()], 7 * n);

export const EDITS: Readonly<Record<string, Edit>> = {
  'size of a wire': (build, n) => ({
    set: ['wires', wireOf(build, n), 'size'],
    to: pick(['4 mm2', '6 mm2', '10 mm2', '16 mm2', '25 mm2', '35 mm2'], n),
  }),
  'rating of a device': (build, n) => ({
    set: ['parts', pick(withField(build, 'rating'), 5 * n), 'rating'],
    to: pick(['10 A', '15 A', '20 A', '30 A', '40 A', '60 A', '100 A'], n),
  }),
  'length of a wire': (build, n) => ({
    set: ['wires', wireOf(build, n), 'length'],
    to: pick(['1.1 m', '1.4 m', '1.7 m', '2.3 m', '2.9 m'], n),
  }),
  'a load more': (build, n) => ({
    set: ['parts', `more-${n}`],
    to: { kind: 'load', at: pick([...build.places.keys()], n), current: '3 A' },
  }),
};

/** Milliseconds from an edit on, one list for each thing that a person waits for. */
interface Taken {
  readonly drawn: number[];
  /** The first finding that is final. */
  readonly first: number[];
  /** The last finding whose verdict is another than before. */
  readonly turned: number[];
  readonly judged: number[];
}

/** One edit after the other, each on what the last one left. */
function edited(text: string, edit: Edit, rounds: number, taken: Taken): void {
  let now: Session = openSession(text);
  now.subject();
  now.judge();
  for (let n = 0; n < rounds; n += 1) {
    const { build } = now;
    if (build === null) throw new Error('an edit of the bench was refused');
    const change = edit(build, n);
    let next = now;
    const toDrawing = milliseconds(() => {
      next = now.edit([change]);
      next.subject();
    });
    const found = judged(next, verdictsOf(now));
    if (n >= WARM) {
      taken.drawn.push(toDrawing);
      taken.first.push(toDrawing + found.first);
      taken.turned.push(toDrawing + found.turned);
      taken.judged.push(toDrawing + found.all);
    }
    now = next;
  }
}

type Verdicts = ReadonlyMap<string, string>;

const verdictsOf = (session: Session): Verdicts =>
  new Map(session.judge().findings.map(({ id, verdict }) => [id, verdict]));

/** Judges in steps, as the app does. */
function judged(session: Session, before: Verdicts): { first: number; turned: number; all: number } {
  const begin = performance.now();
  let [first, turned] = [0, 0];
  for (const finding of session.judging()) {
    if (finding === undefined) continue;
    const at = performance.now() - begin;
    if (first === 0) first = at;
    if (before.get(finding.id) !== finding.verdict) turned = at;
  }
  return { first, turned: Math.max(first, turned), all: performance.now() - begin };
}

const p95 = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length * 0.95)] ?? Number.NaN;

/** What an edit changes is to be seen, and its findings are to come, within 50 ms, beside a point of 3.5 ms. */
const GATE = 14;

/** `gate` null: told. All findings cannot be asked for in that time: the judged set alone may take 25 points. */
const WAITED: readonly {
  readonly of: keyof Taken;
  readonly name: string;
  readonly gate: number | null;
  readonly aim: number;
}[] = [
  { of: 'drawn', name: 'what is drawn', gate: GATE, aim: 5 },
  { of: 'first', name: 'its first finding', gate: GATE, aim: 5 },
  { of: 'turned', name: 'every verdict that turns', gate: null, aim: GATE },
  { of: 'judged', name: 'all findings', gate: null, aim: GATE },
];

/** `only`: edits of this sort. */
export async function benchLive(only: string | null = null): Promise<JudgedRow[]> {
  const spice = await warmSpice();
  const op: number[] = [];
  const sorts = Object.entries(EDITS).filter(([name]) => only === null || name === only);
  const taken = sorts.map(([name, edit]) => ({
    name,
    edit,
    times: { drawn: [], first: [], turned: [], judged: [] } as Taken,
  }));
  for (const seed of SEEDS) {
    const text = generate(seed, BUILD);
    for (const sort of taken) {
      // Side by side, so that a busy machine slows both.
      op.push(...(await points(spice, 1 + 50 * op.length)));
      edited(text, sort.edit, WARM + COUNTED, sort.times);
    }
  }
  await spice.stop();
  const point = median(op);
  return taken.flatMap((sort) =>
    WAITED.map(({ of, name, gate, aim }): JudgedRow => {
      const times = sort.times[of];
      return {
        name: `${sort.name}: edit to ${name} : fresh ngspice .op`,
        ratio: median(times) / point,
        gate,
        aim,
        note: `median ${median(times).toFixed(1)} ms, 95 % within ${p95(times).toFixed(1)} ms, against ${point.toFixed(2)} ms`,
      };
    }),
  );
}
