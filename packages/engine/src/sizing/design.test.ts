import { describe, expect, it } from 'vitest';
import { readDocument } from '../document/index.ts';
import { makeRegistry } from '../kinds/registry.ts';
import { designText } from './design.ts';
import { readFacts, type Answers } from './six.ts';

const registry = makeRegistry();

const SUPPLIES = ['', 'alternator', 'variable', 'converter', 'converter 30 A'];
const RETURNS = ['', 'cable', 'body'];
const SYSTEMS = ['12 V', '24 V'];
const HOUSES = ['', 'agm 120 Ah', 'lifepo4 100..300 Ah', 'sodium-ion 100 Ah', 'gel', 'flooded 90 Ah'];

const read = (answers: Answers) => {
  const { facts, problems } = readFacts(answers);
  expect(problems).toEqual([]);
  return designText(facts);
};

const line = (text: string, start: string) =>
  text.split('\n').find((each) => each.trim().startsWith(start)) ?? '';

describe('the first design', () => {
  it('reads without a word of complaint, whatever is known', () => {
    let count = 0;
    for (const supply of SUPPLIES)
      for (const way of RETURNS)
        for (const system of SYSTEMS)
          for (const house of HOUSES)
            for (const practice of ['europe', 'north-america']) {
              const design = read({
                supply,
                return: way,
                system,
                house,
                practice,
                battery: ['bonnet', 'seat', 'behind'][count % 3] ?? '',
              });
              const { build, diagnostics } = readDocument(design.text, registry);
              expect(diagnostics, design.text).toEqual([]);
              expect(build?.practice).toBe(practice);
              count += 1;
            }
    expect(count).toBe(360);
  });

  it('rates the devices for the worst ends of what is assumed', () => {
    // 40 x 14.6 / 0.85 / 12.0 / 0.75 = 76.3 A; 40 / 0.75 = 53.3 A.
    const design = read({ charger: '40 A' });
    expect([design.feedRating, design.houseRating]).toEqual([80, 60]);
  });

  it('says of every fact whether it was given or assumed', () => {
    const known = read({
      supply: 'alternator',
      length: '3.6 m',
      charger: '40 A',
      house: 'lifepo4 200 Ah',
      return: 'cable',
      stock: '35 mm2',
    });
    expect(line(known.text, 'vehicle:')).toContain('# given');
    expect(line(known.text, '- { from: take-off')).toMatch(/3\.6 m.*# given/);
    expect(line(known.text, 'charger:')).toContain('# given');
    expect(line(known.text, 'house-battery:')).toContain('# given');
    const nothing = read({});
    expect(line(nothing.text, 'vehicle:')).toContain('# assumed');
    expect(line(nothing.text, '- { from: take-off')).toMatch(/1\.\.10 m.*# assumed/);
    expect(line(nothing.text, 'charger:')).toContain('advised');
    expect(nothing.advice?.fits).toBe(false);
    expect(known.advice).toBeNull();
  });

  it('returns through the body only when told to', () => {
    expect(read({ return: 'body' }).text).toContain('to: locker-ground.stud');
    expect(read({}).text).not.toContain('locker-ground');
    expect(designText(readFacts({}).facts, { return: 'body', length: '1 m' }).text).toMatch(
      /length: 1 m[\s\S]*locker-ground/,
    );
  });

  it('takes the house wires from the stock', () => {
    expect(read({ charger: '40 A', stock: '35 50 mm2' }).text).toMatch(/out: .*size: 35\s?mm2/);
  });
});
