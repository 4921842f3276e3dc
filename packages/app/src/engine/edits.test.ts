import { designText, readFacts, type Change } from '@loomwright/engine';
import { describe, expect, it } from 'vitest';
import { Edits } from './edits.ts';
import { Sessions } from './sessions.ts';

const base = designText(readFacts({ charger: '40 A' }).facts).text;
const to = (current: string): readonly Change[] => [{ set: ['parts', 'charger', 'current'], to: current }];

describe('edits', () => {
  it('that were foreseen are not made again, all others are', () => {
    const edits = new Edits(new Sessions());
    const foreseen = edits.foresee(base, to('30 A'));
    expect(edits.of(base, to('30 A'))).toBe(foreseen);
    const other = edits.of(base, to('20 A'));
    expect(other.build?.parts.get('charger')?.fields['current']).toMatchObject({ value: 20 });
    expect(edits.of(other.source.text, to('30 A'))).not.toBe(foreseen);
  });

  it('come to the same, foreseen or not', () => {
    const [one, two] = [new Edits(new Sessions()), new Edits(new Sessions())];
    one.foresee(base, to('3'));
    one.foresee(base, to('30 A'));
    expect(one.of(base, to('30 A')).source.text).toBe(two.of(base, to('30 A')).source.text);
    expect(one.of(base, to('3')).diagnostics).toEqual(two.of(base, to('3')).diagnostics);
  });
});
