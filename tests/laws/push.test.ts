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
import { buildOf, EXAMPLES, practiceOf } from './builds.ts';

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

describe('a value pushed alone', () => {
  it.each(EXAMPLES.map((s) => [s.name, s.doc] as const))('%s: turns no finding that stands', (_, doc) => {
    const build = buildOf(doc);
    const practice = practiceOf(build);
    const same = { nominal: practice, slack: practice, stiff: practice };
    const operations = operationsOf(build, practice);
    const before = judgeAll(checks, operations, same);
    const values = some(banded(operations.nominal, before));
    expect(values.length).toBeGreaterThan(10);
    const turned: string[] = [];
    for (const path of values) {
      const [slack, stiff] = (['slack', 'stiff'] as const).map((push) =>
        pushedAlone(build, practice, push, path),
      ) as [Operation, Operation];
      const after = judgeAll(checks, { nominal: operations.nominal, slack, stiff }, same);
      before.forEach((f, i) => {
        const alone = after[i];
        if (alone === undefined || f.verdict === 'open') return;
        const undecided = alone.verdict === 'open' && alone.open === 'undecided';
        if (undecided || isBad(alone) !== isBad(f))
          turned.push(`${path} turns ${f.id}: ${f.verdict} ${f.band.join()} alone ${alone.band.join()}`);
      });
    }
    expect(turned.filter((t) => !KNOWN.has(t.split(':')[0] ?? ''))).toEqual([]);
  });
});
