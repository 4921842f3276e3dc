/** For tests: a document judged from its text. */
import type { Assumption, Build, Check, Finding, Operation, Practice, Push } from '../../contracts/index.ts';
import { readDocument } from '../../document/index.ts';
import { makeRegistry } from '../../kinds/registry.ts';
import { makeOperation, valuesFor } from '../../operate/index.ts';
import { practices } from '../../practices/index.ts';
import { judgeAll, type Operations } from '../judge.ts';
import { checks as all } from '../registry.ts';

export function buildOf(text: string): Build {
  const read = readDocument(text, makeRegistry());
  if (read.build === null) throw new Error(read.diagnostics.map((d) => `${d.line}:${d.column} ${d.message}`).join('\n'));
  return read.build;
}

export const practiceOf = (build: Build): Practice => practices[build.practice ?? 'europe'];

export function operationOf(build: Build, push: Push = 'nominal'): Operation {
  const assumption: Assumption = { push, pinned: new Set() };
  const values = valuesFor(build, assumption);
  return makeOperation(build, makeRegistry(), { assumption, practice: practiceOf(build), values });
}

export function operationsOf(build: Build): Operations {
  return { nominal: operationOf(build), slack: operationOf(build, 'slack'), stiff: operationOf(build, 'stiff') };
}

export function findingsOf(text: string, checks: readonly Check[] = all): readonly Finding[] {
  const build = buildOf(text);
  const practice = practiceOf(build);
  return judgeAll(checks, operationsOf(build), { nominal: practice, slack: practice, stiff: practice });
}

export const findingOf = (text: string, id: string, checks: readonly Check[] = all): Finding => {
  const found = findingsOf(text, checks).find((f) => f.id === id);
  if (found === undefined) throw new Error(`no finding ${id}`);
  return found;
};
