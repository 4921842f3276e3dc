/** Judging a build: every check on every subject, under the nominal, the slack and the stiff assumption. */
import type { Build, Check, Finding, Operation, Practice, Subject } from '../contracts/index.ts';
import { combine } from './combine.ts';

export interface Operations {
  readonly nominal: Operation;
  readonly slack: Operation;
  readonly stiff: Operation;
}

/** Each assumption has its own values, and so its own practice. */
export interface Practices {
  readonly nominal: Practice;
  readonly slack: Practice;
  readonly stiff: Practice;
}

/** All findings of a build, in the order of the checks. `only`: these finding ids, for judging again after one change. */
export const judgeAll = (
  checks: readonly Check[],
  operations: Operations,
  practices: Practices,
  only?: ReadonlySet<string>,
): readonly Finding[] => atOnce(judgeInSteps(checks, operations, practices, only));

/** Work that can be laid aside between its steps. */
export type InSteps<T> = Generator<undefined, T, undefined>;

/** All steps one after the other. */
export function atOnce<T>(steps: InSteps<T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/** As `judgeAll`, subject by subject. */
export function* judgeInSteps(
  checks: readonly Check[],
  operations: Operations,
  practices: Practices,
  only?: ReadonlySet<string>,
): InSteps<readonly Finding[]> {
  const wanted = only === undefined ? null : new Set([...only].map((id) => id.split('/')[0]));
  const findings: Finding[] = [];
  for (const check of checks) {
    if (wanted !== null && !wanted.has(check.id)) continue;
    for (const subject of check.subjects(operations.nominal)) {
      if (only !== undefined && !only.has(`${check.id}/${subject.id}`)) continue;
      findings.push(judgeOne(check, subject, operations, practices));
      yield;
    }
  }
  return findings;
}

function judgeOne(check: Check, subject: Subject, operations: Operations, practices: Practices): Finding {
  const three = {
    nominal: check.judge(subject, operations.nominal, practices.nominal),
    slack: check.judge(subject, operations.slack, practices.slack),
    stiff: check.judge(subject, operations.stiff, practices.stiff),
  };
  const id = `${check.id}/${subject.id}`;
  return combine(check, subject, three, practices.nominal, asideOf(operations.nominal.build, id));
}

function asideOf(build: Build, id: string): Finding['aside'] {
  const aside = build.aside.find((a) => a.finding === id);
  if (aside === undefined) return null;
  return {
    reason: aside.reason,
    ...(aside.by === undefined ? {} : { by: aside.by }),
    ...(aside.date === undefined ? {} : { date: aside.date }),
  };
}
