/**
 * Bands are tried all slack and all stiff at once. Here single values are pushed instead, one after the other: none of them
 * alone may turn a finding that both ends together leave decided. SOAK=1 tries every value.
 */
import { describe, expect, it } from 'vitest';
import { judgeAll } from '../../packages/engine/src/checks/judge.ts';
import { checks } from '../../packages/engine/src/checks/registry.ts';
import { operationsOf } from '../../packages/engine/src/checks/testing/judge-text.ts';
import type { Build, Finding, Operation, Practice, Push } from '../../packages/engine/src/contracts/index.ts';
import { makeRegistry } from '../../packages/engine/src/kinds/registry.ts';
import { makeOperation, valuesFor } from '../../packages/engine/src/operate/index.ts';
import { seeded } from '../documents/mutate.ts';
import { buildOf, EXAMPLES, generated, practiceOf } from './builds.ts';

/** Builds with much that hangs on bands; the examples have little. */
const MADE_UP = generated([5, 4]);

const SAMPLE = process.env['SOAK'] === '1' ? Infinity : 25;

function pushedAlone(build: Build, practice: Practice, push: Push, only: string): Operation {
  const assumption = { push, pinned: new Set<string>(), only };
  return makeOperation(build, makeRegistry(), {
    assumption,
    practice,
    values: valuesFor(build, assumption),
  });
}

/** Paths of all values with a band that findings rest on or were solved with. */
function banded(op: Operation, findings: readonly Finding[]): readonly string[] {
  const paths = new Set<string>();
  const from = [...op.assumed(), ...findings.flatMap((f) => [...f.restsOn, ...f.needs.map((n) => n.basis)])];
  for (const b of from) if (b.sourced.band !== undefined) paths.add(b.path);
  return [...paths].toSorted();
}

function some(paths: readonly string[]): readonly string[] {
  const chance = seeded(2);
  const left = [...paths];
  const chosen: string[] = [];
  while (chosen.length < SAMPLE && left.length > 0) chosen.push(...left.splice(chance.below(left.length), 1));
  return chosen;
}

const isBad = (f: Finding): boolean => f.verdict === 'danger' || f.verdict === 'fault';

/** Pushes of one value that decide a finding otherwise than all together do: value and finding, with the reason. */
const KNOWN: ReadonlyMap<string, string> = new Map([]);

/** Findings that stand in `before` and that this value alone turns. */
function turnedBy(
  build: Build,
  path: string,
  nominal: Operation,
  before: readonly Finding[],
): readonly string[] {
  const practice = practiceOf(build);
  const same = { nominal: practice, slack: practice, stiff: practice };
  const slack = pushedAlone(build, practice, 'slack', path);
  const stiff = pushedAlone(build, practice, 'stiff', path);
  const after = judgeAll(checks, { nominal, slack, stiff }, same);
  return before.flatMap((f, i) => {
    const alone = after[i];
    if (alone === undefined || f.verdict === 'open') return [];
    const undecided = alone.verdict === 'open' && alone.open === 'undecided';
    return undecided || isBad(alone) !== isBad(f)
      ? [`${path} turns ${f.id}: ${f.verdict} ${f.band.join()} alone ${alone.band.join()}`]
      : [];
  });
}

// All values take minutes for each build.
describe('a value pushed alone', { timeout: 3_600_000 }, () => {
  it.each([...EXAMPLES, ...MADE_UP].map((s) => [s.name, s.doc] as const))(
    '%s: turns no finding that stands',
    (_, doc) => {
      const build = buildOf(doc);
      const practice = practiceOf(build);
      const operations = operationsOf(build, practice);
      const before = judgeAll(checks, operations, { nominal: practice, slack: practice, stiff: practice });
      const values = some(banded(operations.nominal, before));
      expect(values.length).toBeGreaterThan(10);
      const turned = values.flatMap((path) => turnedBy(build, path, operations.nominal, before));
      expect(turned.filter((t) => !KNOWN.has(t.split(':')[0] ?? ''))).toEqual([]);
    },
  );

  it('is noticed where the ends together have missed it', () => {
    // Judged without any push, what hangs on its bands seems to stand.
    const [made] = MADE_UP;
    if (made === undefined) throw new Error('there is no such build');
    const build = buildOf(made.doc);
    const practice = practiceOf(build);
    const same = { nominal: practice, slack: practice, stiff: practice };
    const operations = operationsOf(build, practice);
    const { nominal } = operations;
    const undecided = judgeAll(checks, operations, same).filter((f) => f.open === 'undecided');
    expect(undecided.length).toBeGreaterThan(0);
    const blind = judgeAll(checks, { nominal, slack: nominal, stiff: nominal }, same);
    const paths = [...new Set(undecided.flatMap((f) => f.needs.map((n) => n.basis.path)))].slice(0, 8);
    expect(paths.flatMap((path) => turnedBy(build, path, nominal, blind))).not.toEqual([]);
  });
});
