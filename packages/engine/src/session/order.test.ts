import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../contracts/index.ts';
import { mayTurn } from './changed.ts';
import { openSession, type Session } from './session.ts';

const file = new URL('../../../../examples/faulty-camper.yaml', import.meta.url);
/** Without sizes that are searched for. */
const text = readFileSync(file, 'utf8').replaceAll('size: auto', 'size: 16 mm2');

/** Ids in the order in which they are judged; what judges the reading of all others comes last anyway. */
const orderOf = (session: Session): readonly string[] =>
  [...session.judging()].flatMap((found) =>
    found === undefined || found.check === 'by-eye' ? [] : [found.id],
  );

const rated = (session: Session, to: string): Session => {
  const fuse = [...(session.build?.parts.values() ?? [])].find((part) => part.kind === 'fuse');
  return session.edit([{ set: ['parts', fuse?.id ?? '', 'rating'], to }]);
};

const of = (id: string, more: Partial<Finding>): Finding =>
  ({ id, verdict: 'met', margin: 5, limit: { value: 10, unit: 'A' }, ...more }) as Finding;

describe('the order in which an edit is judged', () => {
  it('is: what the edit is about, what may well turn, all else; also where the edit before was left', () => {
    const before = openSession(text);
    const may = mayTurn(before.judge().findings);
    for (const next of [rated(before, '15 A'), rated(rated(before, '20 A'), '15 A')]) {
      const turns = orderOf(next).map((id) => (next.concerned(id) ? 0 : may(id) ? 1 : 2));
      for (const turn of [0, 1, 2]) expect(turns).toContain(turn);
      expect(turns[0]).toBe(0);
      // Of the first two, what takes no solved condition comes before what takes one; behind both comes the rest.
      expect(turns.indexOf(2)).toBeGreaterThan(Math.max(turns.lastIndexOf(0), turns.lastIndexOf(1)));
    }
  });

  it('takes for likely to turn what is bad, what is open, what is close, and what was not there', () => {
    const may = mayTurn([
      of('fault', { verdict: 'fault' }),
      of('open', { verdict: 'open' }),
      of('close', { margin: 1 }),
      of('far', {}),
      of('advice', { verdict: 'advice', margin: null }),
    ]);
    expect(['fault', 'open', 'close', 'new'].map(may)).toEqual([true, true, true, true]);
    expect(['far', 'advice'].map(may)).toEqual([false, false]);
    // Before the first judgement nothing is known to be firm, nor to be likely.
    expect(mayTurn([])('any')).toBe(false);
  });
});
