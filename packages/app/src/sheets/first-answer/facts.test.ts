import { readFacts } from '@loomwright/engine';
import { describe, expect, it } from 'vitest';
import { effectWords } from './effect.ts';
import { factsFor, houseOf, isChosen, knownOf, stockOf, valueOf } from './facts.ts';

const facts = factsFor(false, false);
const fact = (id: string) => {
  const found = facts.find((each) => each.id === id);
  if (found === undefined) throw new Error(id);
  return found;
};
const choice = (id: string, label: string) => {
  const found = fact(id)
    .groups.flatMap((group) => group.choices)
    .find((each) => each.label.replace(/\u00a0/g, ' ') === label);
  if (found === undefined) throw new Error(label);
  return found;
};

describe('the six facts', () => {
  it('offer only what the engine reads, in both systems', () => {
    for (const [american, feet] of [
      [false, false],
      [true, true],
    ] as const)
      for (const each of factsFor(american, feet)) {
        for (const { gives, label } of each.groups.flatMap((group) => group.choices)) {
          const { problems } = readFacts(JSON.parse(JSON.stringify(gives({}))));
          expect(problems, `${each.id}: ${label}`).toEqual([]);
        }
        if (each.typed !== null)
          expect(readFacts({ [each.typed.name]: each.typed.example }).problems, each.typed.example).toEqual(
            [],
          );
      }
  });

  it('keep the other word of the house battery', () => {
    expect(choice('house', 'LiFePO4').gives({ house: '200 Ah' })).toEqual({ house: 'lifepo4 200 Ah' });
    expect(choice('house', '100 Ah').gives({ house: 'agm' })).toEqual({ house: 'agm 100 Ah' });
    expect(houseOf('sodium-ion 100..200 Ah')).toEqual({ chemistry: 'sodium-ion', capacity: '100..200 Ah' });
    expect(knownOf(fact('house'), { house: 'agm' })).toBe('part');
    expect(valueOf(fact('house'), { house: 'agm' }, null)).toBe('AGM Ah?');
  });

  it('tick sizes on and off in the order of the row', () => {
    expect(choice('stock', '16 mm²').gives({ stock: '25 mm2' })).toEqual({ stock: '16 mm2, 25 mm2' });
    expect(choice('stock', '25 mm²').gives({ stock: '16 25 mm2' })).toEqual({ stock: '16 mm2' });
    expect(choice('stock', '16 mm²').gives({ stock: '16 mm2' })).toEqual({ stock: undefined });
    expect(stockOf('6, 4, 1/0 AWG')).toEqual(['6 AWG', '4 AWG', '1/0 AWG']);
    expect(isChosen(fact('stock'), choice('stock', '16 mm²'), { stock: '16 25 mm2' })).toBe(true);
    expect(isChosen(fact('stock'), choice('stock', '35 mm²'), { stock: '16 25 mm2' })).toBe(false);
  });

  it('say what stands, and what does not', () => {
    expect(valueOf(fact('way'), {}, null)).toBe('don’t know');
    expect(valueOf(fact('way'), { battery: 'seat', length: '3..6 m' }, null)).toBe('under a seat, 3 to 6 m');
    expect(valueOf(fact('charger'), {}, '20 A')).toBe('don’t know, 20 A');
    expect(valueOf(fact('stock'), { stock: '16 mm2, 25 mm2' }, null)).toBe('16 25 mm²');
    expect(valueOf(fact('return'), {}, null, true)).toBe('as drawn');
  });
});

const row = (id: 'cable' | 'device' | 'hunts', value: string, verdict: 'met' | 'open' = 'met') => ({
  id,
  name: id,
  value,
  verdict,
  why: '',
  findings: [],
});

describe('what a choice would do', () => {
  it('names the rows that change, by value or by verdict', () => {
    const now = [row('cable', '16 to 50 mm²'), row('device', '80 A'), row('hunts', 'depends', 'open')];
    expect(effectWords(now, now)).toBe('as now');
    expect(effectWords(now, [row('cable', '35 mm²'), row('device', '80 A'), row('hunts', 'no')])).toBe(
      'cable 35 mm²; hunts: no',
    );
    expect(effectWords(now, now.with(1, row('device', '80 A', 'open')))).toBe('fuse 80 A');
  });
});
