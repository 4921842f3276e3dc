/** Facts worth getting: which single value would close the most open verdicts. */
import type { InSteps } from '../checks/judge.ts';
import type { Basis, Effort, Fact, Finding } from '../contracts/index.ts';

/** How hard a fact is to get, easy first. */
const EFFORTS: readonly Effort[] = ['read', 'confirm', 'tape', 'meter', 'engine', 'log'];

/** Weight of a finding that stops being open. */
const weight = (f: Finding): number => (f.dangerFamily ? 10 : 1);

/** Judges again the findings named, with the values at these paths counted as given at their nominal. */
export type Rejudge = (pinned: ReadonlySet<string>, only: ReadonlySet<string>) => InSteps<readonly Finding[]>;

/**
 * Ranks the values that open findings hang on: score = findings that stop being open when that value alone is fixed (10 for a
 * danger family, else 1); ties by how hard the value is to get, then by name. A value that closes nothing is not listed.
 */
export function* rankFacts(
  findings: readonly Finding[],
  rejudge: Rejudge,
  choices: readonly Choice[] = [],
): InSteps<readonly Fact[]> {
  const open = findings.filter((f) => f.verdict === 'open');
  const facts: Fact[] = [];
  for (const choice of choices) facts.push(...chosen(choice, open, yield* choice.outcomes()));
  for (const [path, { basis, by }] of candidates(open)) {
    const closes = new Set(closedByGiving(path, by));
    const rest = by.filter((f) => !closes.has(f.id) && f.open !== 'missing');
    if (rest.length > 0) {
      const after = yield* rejudge(new Set([path]), new Set(rest.map((f) => f.id)));
      for (const f of after) if (f.verdict !== 'open') closes.add(f.id);
    }
    const score = by.filter((f) => closes.has(f.id)).reduce((sum, f) => sum + weight(f), 0);
    if (score > 0) facts.push({ basis, score, closes: [...closes].toSorted(), how: basis.how });
  }
  return facts.toSorted(inOrder);
}

/** A fact with a few possible answers: each is tried. */
export interface Choice {
  readonly basis: Basis;
  /** Findings under each of the answers. */
  readonly outcomes: () => InSteps<readonly (readonly Finding[])[]>;
}

/** What is open now and open under none of the answers, whichever it turns out to be. */
function chosen(
  choice: Choice,
  open: readonly Finding[],
  found: readonly (readonly Finding[])[],
): readonly Fact[] {
  const outcomes = found.map((list) => new Map(list.map((f) => [f.id, f.verdict])));
  const closed = open.filter((f) => outcomes.every((verdicts) => verdicts.get(f.id) !== 'open'));
  const score = closed.reduce((sum, f) => sum + weight(f), 0);
  if (score === 0) return [];
  return [{ basis: choice.basis, score, closes: closed.map((f) => f.id).toSorted(), how: choice.basis.how }];
}

function inOrder(a: Fact, b: Fact): number {
  if (a.score !== b.score) return b.score - a.score;
  const effort = EFFORTS.indexOf(a.basis.effort) - EFFORTS.indexOf(b.basis.effort);
  if (effort !== 0) return effort;
  return a.basis.path < b.basis.path ? -1 : 1;
}

interface Candidate {
  readonly basis: Basis;
  readonly by: Finding[];
}

/** Every value that an open finding needs, with the findings that need it. */
function candidates(open: readonly Finding[]): ReadonlyMap<string, Candidate> {
  const map = new Map<string, Candidate>();
  for (const f of open) {
    for (const need of f.needs) {
      const known = map.get(need.basis.path);
      if (known === undefined) map.set(need.basis.path, { basis: need.basis, by: [f] });
      else if (!known.by.includes(f)) known.by.push(f);
    }
  }
  return map;
}

/** Findings that lack exactly this one figure: giving it answers them, whichever way. */
function closedByGiving(path: string, by: readonly Finding[]): readonly string[] {
  return by
    .filter(
      (f) =>
        (f.open === 'missing' || f.open === 'unconfirmed') && f.needs.every((n) => n.basis.path === path),
    )
    .map((f) => f.id);
}
