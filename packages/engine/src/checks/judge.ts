/** Judging a build: every check on every subject, under the nominal, the slack and the stiff assumption. */
import type { Build, Check, Finding, Operation, Practice, Subject } from '../contracts/index.ts';
import { aheadOfSet, atOnce, solveInSteps } from '../operate/index.ts';
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

/** Which findings are wanted first; null: in whatever order is quickest for all of them. */
export type Ahead = ((id: string) => boolean) | null;

/** All findings of a build, in the order of the checks. `only`: these finding ids, for judging again after one change. */
export const judgeAll = (
  checks: readonly Check[],
  operations: Operations,
  practices: Practices,
  only?: ReadonlySet<string>,
): readonly Finding[] => atOnce(judgeInSteps(checks, operations, practices, { only }));

/** Work that can be laid aside between its steps. Findings that a step yields are final. */
export type InSteps<T> = Generator<Finding | undefined, T, undefined>;

interface How {
  readonly only?: ReadonlySet<string> | undefined;
  readonly ahead?: Ahead | undefined;
}

interface One {
  readonly id: string;
  readonly check: Check;
  readonly subject: Subject;
}

/**
 * As `judgeAll`, in steps, each finding once it is judged. With `ahead`: first those that it wants and that take no solved condition,
 * then all others that take none, then the judged set is solved, then the rest of those that it wants. What is judged, and what comes
 * of it, is the same.
 */
export function* judgeInSteps(
  checks: readonly Check[],
  operations: Operations,
  practices: Practices,
  { only, ahead = null }: How = {},
): InSteps<readonly Finding[]> {
  const judge = (one: One): Finding => judgeOne(one, operations, practices);
  const early =
    ahead === null
      ? NOTHING
      : yield* judgeAhead(listOf(checks, operations, only, true), operations, judge, ahead);
  const findings: Finding[] = [];
  for (const one of listOf(checks, operations, only, false)) {
    const finding = early.get(one.id) ?? judge(one);
    findings.push(finding);
    yield early.has(one.id) ? undefined : finding;
  }
  return findings;
}

const NOTHING: ReadonlyMap<string, Finding> = new Map();

/** What is judged, check by check. `quick`: only what can be listed before the judged set is solved. */
function* listOf(
  checks: readonly Check[],
  operations: Operations,
  only: ReadonlySet<string> | undefined,
  quick: boolean,
): Generator<One, void, undefined> {
  const wanted = only === undefined ? null : new Set([...only].map((id) => id.split('/')[0]));
  for (const check of checks) {
    if (wanted !== null && !wanted.has(check.id)) continue;
    const subjects = (): readonly Subject[] => check.subjects(operations.nominal);
    for (const subject of (quick ? aheadOfSet([operations.nominal], subjects) : subjects()) ?? []) {
      const id = `${check.id}/${subject.id}`;
      if (only === undefined || only.has(id)) yield { id, check, subject };
    }
  }
}

function* judgeAhead(
  list: Iterable<One>,
  operations: Operations,
  judge: (one: One) => Finding,
  ahead: (id: string) => boolean,
): InSteps<ReadonlyMap<string, Finding>> {
  const all = Object.values(operations) as readonly Operation[];
  const known = new Map<string, Finding>();
  /** False: it takes what is not solved yet. */
  const judged = (one: One): boolean => {
    const finding = aheadOfSet(all, () => judge(one));
    if (finding !== null) known.set(one.id, finding);
    return finding !== null;
  };
  const [soon, later]: [One[], One[]] = [[], []];
  for (const one of list) {
    if (!ahead(one.id)) later.push(one);
    else if (!judged(one)) soon.push(one);
    yield known.get(one.id);
  }
  for (const one of later) yield judged(one) ? known.get(one.id) : undefined;
  for (const operation of all) for (const steps = solveInSteps(operation); steps.next().done !== true;) yield;
  for (const one of soon) {
    judged(one);
    yield known.get(one.id);
  }
  return known;
}

function judgeOne({ id, check, subject }: One, operations: Operations, practices: Practices): Finding {
  const three = {
    nominal: check.judge(subject, operations.nominal, practices.nominal),
    slack: check.judge(subject, operations.slack, practices.slack),
    stiff: check.judge(subject, operations.stiff, practices.stiff),
  };
  return combine(check, subject, three, practices.nominal, asideOf(operations.nominal.build, id));
}

/** Why a finding was set aside; null: it was not. */
export function asideOf(build: Build, id: string): Finding['aside'] {
  const aside = build.aside.find((a) => a.finding === id);
  if (aside === undefined) return null;
  return {
    reason: aside.reason,
    ...(aside.by === undefined ? {} : { by: aside.by }),
    ...(aside.date === undefined ? {} : { date: aside.date }),
  };
}
