/** A build that names no practice: two rule sets are tried. */
import type { Basis, Finding } from '../contracts/index.ts';

const PRACTICE: Basis = {
  path: 'practice',
  label: 'the practice to judge by',
  how: 'name it: north-america or europe',
  effort: 'read',
  assumed: true,
  sourced: { value: Number.NaN, unit: '', prov: 'memory', source: 'not named in the build' },
};

/** Where both agree the first stands; where they differ it is open until the practice is named. */
export function mergePractices(
  first: readonly Finding[],
  second: readonly Finding[],
  pinned: ReadonlySet<string>,
): readonly Finding[] {
  if (pinned.has(PRACTICE.path)) return first;
  const other = new Map(second.map((f) => [f.id, f]));
  const merged = first.map((f) => {
    const g = other.get(f.id);
    return g === undefined || g.verdict === f.verdict ? f : undecided(f, g);
  });
  const known = new Set(first.map((f) => f.id));
  return [...merged, ...second.filter((f) => !known.has(f.id))];
}

function undecided(a: Finding, b: Finding): Finding {
  const worse = rank(a) >= rank(b) ? a : b;
  if (worse.verdict === 'advice' || worse.verdict === 'met') return worse;
  return {
    ...worse,
    verdict: 'open',
    open: 'missing',
    ifNot: worse.verdict === 'open' ? worse.ifNot : worse.verdict,
    needs: [{ basis: PRACTICE, why: 'the two practices differ here' }, ...worse.needs],
  };
}

const ORDER = ['met', 'advice', 'open', 'fault', 'danger'];
const rank = (f: Finding): number => ORDER.indexOf(f.verdict);
