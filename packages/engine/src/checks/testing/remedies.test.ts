import { describe, expect, it } from 'vitest';
import { editText, readDocument } from '../../document/index.ts';
import { makeRegistry } from '../../kinds/registry.ts';
import { own } from './worked-texts.ts';
import { judgeText } from './judge-text.ts';

describe('remedies as changes of the document', () => {
  it.each(own.filter((c) => c.remedies !== undefined).map((c) => [c.id, c] as const))(
    '%s: each reads, and one of them clears the failing example',
    (_id, check) => {
      const before = judgeText(check.failing, [check]);
      const finding = before.findings.find((f) => f.verdict !== 'met');
      const subject = check
        .subjects(before.operations.nominal)
        .find((s) => `${check.id}/${s.id}` === finding?.id);
      if (finding === undefined || subject === undefined) throw new Error('nothing fails');
      const op = before.operations.nominal;
      const offered =
        check.remedies?.(subject, op, check.judge(subject, op, before.practice), before.practice) ?? [];
      const after = offered.map((remedy) => {
        const read = readDocument(check.failing, makeRegistry());
        const edited = editText(read.source, remedy.changes);
        if (!edited.ok)
          throw new Error(`${remedy.title}: ${edited.diagnostics.map((d) => d.message).join('; ')}`);
        return judgeText(edited.text, [check]).findings.find((f) => f.id === finding.id)?.verdict;
      });
      expect(after.some((v) => v === undefined || v === 'met' || v === 'advice')).toBe(true);
    },
  );
});
