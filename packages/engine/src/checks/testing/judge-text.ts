/** Judges a build text: for tests of checks. */
import type { Build, Check, Finding, Operation, Practice, PracticeId, Push } from '../../contracts/index.ts';
import { formatDiagnostic, readDocument } from '../../document/index.ts';
import { makeRegistry } from '../../kinds/registry.ts';
import { makeOperation, valuesFor } from '../../operate/index.ts';
import { practices } from '../../practices/index.ts';
import { judgeAll, type Operations } from '../judge.ts';

export interface JudgedText {
  readonly build: Build;
  readonly operations: Operations;
  readonly practice: Practice;
  readonly findings: readonly Finding[];
  /** The finding of this id; throws with the ids that there are. */
  readonly finding: (id: string) => Finding;
}

/** Reads a text; throws with all faults when it does not read. */
export function readText(text: string): Build {
  const result = readDocument(text, makeRegistry());
  if (result.build === null)
    throw new Error(result.diagnostics.map((d) => formatDiagnostic(d, 'the text')).join('\n'));
  return result.build;
}

/** Judges a text by these checks. */
export function judgeText(text: string, checks: readonly Check[], practiceId?: PracticeId): JudgedText {
  const build = readText(text);
  const practice = practices[practiceId ?? build.practice ?? 'europe'];
  const operations = operationsOf(build, practice);
  const same = { nominal: practice, slack: practice, stiff: practice };
  const findings = judgeAll(checks, operations, same);
  return {
    build,
    operations,
    practice,
    findings,
    finding: (id) => {
      const found = findings.find((f) => f.id === id);
      if (found === undefined)
        throw new Error(`no finding ${id}; there are ${findings.map((f) => f.id).join(', ')}`);
      return found;
    },
  };
}

export function operationsOf(build: Build, practice: Practice): Operations {
  const registry = makeRegistry();
  const under = (push: Push): Operation => {
    const assumption = { push, pinned: new Set<string>() };
    return makeOperation(build, registry, { assumption, practice, values: valuesFor(build, assumption) });
  };
  return { nominal: under('nominal'), slack: under('slack'), stiff: under('stiff') };
}
