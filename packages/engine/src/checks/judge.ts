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
export function judgeAll(
  checks: readonly Check[],
  operations: Operations,
  practices: Practices,
  only?: ReadonlySet<string>,
): readonly Finding[] {
  const wanted = only === undefined ? null : new Set([...only].map((id) => id.split('/')[0]));
  return checks.flatMap((check) => {
    if (wanted !== null && !wanted.has(check.id)) return [];
    return check
      .subjects(operations.nominal)
      .filter((s) => only === undefined || only.has(`${check.id}/${s.id}`))
      .map((s) => judgeOne(check, s, operations, practices));
  });
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
