import { designText, readFacts } from '@loomwright/engine';
import { describe, expect, it } from 'vitest';
import { mergeDesk } from './merge.ts';
import { Sessions } from './sessions.ts';

const sessions = new Sessions();
const desk = mergeDesk(sessions);
const merge = (was: string | null, mine: string, theirs: string) => desk.merge(was, mine, theirs);
const base = designText(readFacts({ charger: '40 A' }).facts).text;
const edited = (...changes: Parameters<ReturnType<Sessions['of']>['edit']>[0]): string =>
  sessions.of(base).edit(changes).source.text;

describe('two edits of one build', () => {
  it('go together where they do not meet, whichever came first', () => {
    const mine = edited({ set: ['parts', 'charger', 'current'], to: '30 A' });
    const theirs = edited(
      { set: ['title'], to: 'Theirs' },
      { add: ['places', 'roof'], value: { label: 'Roof' } },
    );
    const merged = merge(base, mine, theirs);
    expect(merged.meetings).toEqual([]);
    const other = merge(base, theirs, mine);
    for (const text of [merged.text, other.text]) {
      const { build } = sessions.of(text ?? '');
      expect(build?.title).toBe('Theirs');
      expect(build?.places.has('roof')).toBe(true);
      expect(build?.parts.get('charger')?.fields['current']).toMatchObject({ value: 30 });
    }
  });

  it('are named where they meet, and yours is laid on theirs', () => {
    const mine = edited({ set: ['parts', 'charger', 'current'], to: '30 A' });
    const theirs = edited(
      { set: ['parts', 'charger', 'current'], to: '50 A' },
      { set: ['title'], to: 'Theirs' },
    );
    const merged = merge(base, mine, theirs);
    expect(merged.meetings).toEqual([
      { path: ['parts', 'charger', 'current'], before: '40 A', yours: '30 A', theirs: '50 A' },
    ]);
    const { build } = sessions.of(merged.text ?? '');
    expect(build?.parts.get('charger')?.fields['current']).toMatchObject({ value: 30 });
    expect(build?.title).toBe('Theirs');
  });

  it('do not meet where both did the same', () => {
    const same = edited({ set: ['parts', 'charger', 'current'], to: '30 A' });
    expect(merge(base, same, `${same}# a remark\n`).meetings).toEqual([]);
  });

  it('meet where one took away what the other changed', () => {
    const mine = edited({ set: ['parts', 'shunt', 'rating'], to: '500 A' });
    const theirs = base
      .split('\n')
      .filter((line) => !line.includes('shunt'))
      .join('\n');
    const merged = merge(base, mine, theirs);
    expect(merged.meetings).toHaveLength(1);
    expect(merged.meetings[0]).toMatchObject({ yours: '500 A', theirs: 'not there' });
  });

  it('cannot be laid together value by value where yours is no document, or only its remarks changed', () => {
    expect(merge(base, `${base}  broken: [`, base).text).toBeNull();
    expect(merge(base, `${base}# a remark\n`, edited({ set: ['title'], to: 'Theirs' })).text).toBeNull();
    expect(merge(null, base, base).text).toBeNull();
  });
});
