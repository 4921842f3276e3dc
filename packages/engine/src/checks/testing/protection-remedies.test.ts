/** Remedies of the protection checks, as changes of the document: each reads, and one of them clears the failing twin. */
import { describe, expect, it } from 'vitest';
import type { Check } from '../../contracts/index.ts';
import { editText, readDocument } from '../../document/index.ts';
import { makeRegistry } from '../../kinds/registry.ts';
import { automaticReset } from '../automatic-reset.ts';
import { clearing } from '../clearing.ts';
import { conductor } from '../conductor.ts';
import { interrupting } from '../interrupting.ts';
import { mechanicalSize } from '../mechanical-size.ts';
import { nuisance } from '../nuisance.ts';
import { protectedReach } from '../protected.ts';
import { ratingWindow } from '../rating-window.ts';
import { rating } from '../rating.ts';
import { venting } from '../venting.ts';
import { judgeText } from './judge-text.ts';

const remedied: readonly Check[] = [
  automaticReset,
  clearing,
  conductor,
  interrupting,
  mechanicalSize,
  nuisance,
  protectedReach,
  rating,
  ratingWindow,
  venting,
];

function judgedAgain(check: Check): readonly string[] {
  const before = judgeText(check.failing, [check]);
  const op = before.operations.nominal;
  const finding = before.findings.find((f) => f.verdict !== 'met' && f.verdict !== 'open');
  const subject = check.subjects(op).find((s) => `${check.id}/${s.id}` === finding?.id);
  if (finding === undefined || subject === undefined) throw new Error('nothing fails');
  const offered = check.remedies?.(subject, op, check.judge(subject, op, before.practice), before.practice);
  return (offered ?? []).map((remedy) => {
    const read = readDocument(check.failing, makeRegistry());
    const edited = editText(read.source, remedy.changes);
    if (!edited.ok) return `${remedy.title}: ${edited.diagnostics.map((d) => d.message).join('; ')}`;
    const after = judgeText(edited.text, [check]).findings;
    const now = after.find((f) => f.id === finding.id)?.verdict ?? 'gone';
    return now === finding.verdict ? 'unchanged' : now;
  });
}

describe('remedies of the protection checks', () => {
  it.each(remedied.map((check) => [check.id, check] as const))('%s', (_id, check) => {
    const verdicts = judgedAgain(check);
    expect(verdicts.filter((v) => v.includes(' '))).toEqual([]);
    expect(
      verdicts.some((v) => ['met', 'gone', 'advice'].includes(v)),
      verdicts.join(', '),
    ).toBe(true);
  });
});
