/** Remedies: each proposed change is applied to a copy, judged again, and offered only when it helps and harms nothing. */
import type { Change, Check, Finding, Operation, Practice, Remedy } from '../contracts/index.ts';

export interface JudgedRemedy {
  readonly title: string;
  readonly changes: readonly Change[];
  readonly before: Finding;
  /** The same finding afterwards; null when it no longer exists. */
  readonly after: Finding | null;
  /** Dangers and faults that were not there before. */
  readonly fresh: readonly Finding[];
  /** Dangers and faults that went with it. */
  readonly cleared: readonly Finding[];
  readonly findings: readonly Finding[];
}

export interface Copy {
  readonly findings: readonly Finding[];
}

export interface Bench {
  /** Findings of a copy with the changes applied; null when the changed document does not read. */
  judge(changes: readonly Change[]): Copy | null;
}

const bad = (f: Finding): boolean => f.verdict === 'danger' || f.verdict === 'fault';

/**
 * What a check proposes for a finding, judged on copies. A remedy is offered when its finding is no longer danger or fault (an
 * open one: when it is met) and no new danger appears.
 */
export function offerRemedies(
  check: Check,
  finding: Finding,
  findings: readonly Finding[],
  op: Operation,
  practice: Practice,
  bench: Bench,
): readonly JudgedRemedy[] {
  const subject = check.subjects(op).find((s) => `${check.id}/${s.id}` === finding.id);
  if (subject === undefined || check.remedies === undefined) return [];
  const proposed = check.remedies(subject, op, check.judge(subject, op, practice), practice);
  return proposed.flatMap((r) => tried(r, finding, findings, bench));
}

function tried(
  remedy: Remedy,
  finding: Finding,
  findings: readonly Finding[],
  bench: Bench,
): readonly JudgedRemedy[] {
  const copy = bench.judge(remedy.changes);
  if (copy === null) return [];
  const after = copy.findings.find((f) => f.id === finding.id) ?? null;
  if (after !== null && (bad(after) || (finding.verdict === 'open' && after.verdict === 'open'))) return [];
  const before = new Map(findings.map((f) => [f.id, f]));
  const fresh = copy.findings.filter((f) => bad(f) && !isBad(before.get(f.id)));
  if (fresh.some((f) => f.verdict === 'danger')) return [];
  const still = new Map(copy.findings.map((f) => [f.id, f]));
  const cleared = findings.filter((f) => bad(f) && !isBad(still.get(f.id)));
  return [
    {
      title: remedy.title,
      changes: remedy.changes,
      before: finding,
      after,
      fresh,
      cleared,
      findings: copy.findings,
    },
  ];
}

const isBad = (f: Finding | undefined): boolean => f !== undefined && bad(f);
