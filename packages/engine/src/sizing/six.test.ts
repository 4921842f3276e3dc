import { describe, expect, it } from 'vitest';
import { acceptedAmps, advise, inputAmps } from './advise.ts';
import { isDontKnow, QUESTIONS, readFacts, usualStock } from './six.ts';

const middle = (length: string): number => {
  const span = readFacts({ length }).facts.length;
  return ((span?.low ?? 0) + (span?.high ?? 0)) / 2;
};

describe('reading the six facts', () => {
  it('reads all of them', () => {
    const { facts, problems } = readFacts({
      supply: 'alternator',
      battery: 'bonnet',
      length: 'medium',
      charger: '40 A',
      house: 'lifepo4 200 Ah',
      return: 'cable',
      stock: '16 25 35 50 mm2',
      system: '24 V',
      practice: 'north-america',
    });
    expect(problems).toEqual([]);
    expect(facts.length).toEqual({ low: 3, high: 6, text: '3..6 m' });
    expect(facts.charger).toBe(40);
    expect([facts.chemistry, facts.capacity?.low]).toEqual(['lifepo4', 200]);
    expect(facts.stock.map((size) => size.areaMm2)).toEqual([16, 25, 35, 50]);
    expect([facts.supply, facts.battery, facts.return, facts.system, facts.practice]).toEqual([
      'alternator',
      'bonnet',
      'cable',
      24,
      'north-america',
    ]);
  });

  it('takes a bare number in the unit that its question names', () => {
    const { facts, problems } = readFacts({ length: '4.5', charger: '30', house: 'agm 100' });
    expect(problems).toEqual([]);
    expect([facts.length?.low, facts.length?.high, facts.charger]).toEqual([4.5, 4.5, 30]);
    expect([facts.chemistry, facts.capacity?.low]).toEqual(['agm', 100]);
  });

  it('short, medium and long have 1.5, 4.5 and 8 m in the middle', () => {
    expect([middle('short'), middle('medium'), middle('long')]).toEqual([1.5, 4.5, 8]);
  });

  it('takes everything as not known when nothing is said', () => {
    const { facts, problems } = readFacts({
      supply: "don't know",
      length: '',
      charger: 'unknown',
      house: '?',
    });
    expect(problems).toEqual([]);
    expect(facts).toMatchObject({
      supply: null,
      addedLimit: null,
      battery: null,
      length: null,
      charger: null,
      chemistry: null,
      capacity: null,
      return: null,
      stock: [],
      system: 12,
      practice: 'europe',
    });
  });

  it.each([
    ['house', 'agm 120..140 Ah', ['agm', 120, 140]],
    ['house', '200 Ah', [null, 200, 200]],
    ['house', 'sodium-ion', ['sodium-ion', undefined, undefined]],
    ['house', 'LFP 100Ah', ['lifepo4', 100, 100]],
  ] as const)('%s: %s', (name, text, [chemistry, low, high]) => {
    const { facts, problems } = readFacts({ [name]: text });
    expect(problems).toEqual([]);
    expect([facts.chemistry, facts.capacity?.low, facts.capacity?.high]).toEqual([chemistry, low, high]);
  });

  it.each([
    ['6, 4, 2 AWG', 3],
    ['16mm2, 25mm2', 2],
    ['4 AWG; 25 mm²', 2],
    ['1/0 AWG', 1],
  ])('stock: %s', (stock, count) => {
    const { facts, problems } = readFacts({ stock });
    expect(problems).toEqual([]);
    expect(facts.stock).toHaveLength(count);
  });

  it('reads the limit of a converter', () => {
    expect(readFacts({ supply: 'converter 20 A' }).facts).toMatchObject({
      supply: 'converter',
      addedLimit: { low: 20 },
    });
    expect(readFacts({ supply: 'alternator 20 A' }).problems[0]?.message).toContain('only a converter');
  });

  it.each([
    ['supply', 'dynamo'],
    ['battery', 'roof'],
    ['length', '4.5 V'],
    ['length', '500 m'],
    ['charger', '40 V'],
    ['house', 'nickel 20 Ah'],
    ['house', 'lifepo4 200 V'],
    ['return', 'rope'],
    ['stock', '16 25'],
    ['system', '48 V'],
    ['practice', 'mars'],
    ['supply', 'constructor'],
  ] as const)('refuses %s: %s, in words', (name, text) => {
    const { problems } = readFacts({ [name]: text });
    expect(problems.map((problem) => problem.name)).toEqual([name]);
    expect(problems[0]?.message).toMatch(/write|expected|at most|allowed|at least|up to/i);
  });

  it('has a question for each of the facts, and knows what not knowing is', () => {
    expect(QUESTIONS.map((question) => question.name)).toEqual([
      'supply',
      'battery',
      'length',
      'charger',
      'house',
      'return',
      'stock',
    ]);
    expect(['', '?', 'unknown', "don't know", 'dont know', "I don't know"].every(isDontKnow)).toBe(true);
    expect(isDontKnow('40 A')).toBe(false);
    expect(usualStock('europe').length).toBeGreaterThan(3);
    expect(usualStock('north-america').every((size) => size.family === 'awg')).toBe(true);
  });
});

describe('advise', () => {
  const facts = readFacts({ supply: 'alternator', house: 'lifepo4 200 Ah' }).facts;

  it('takes 20 A and shows the deficit where none fits the surplus of a hot idle', () => {
    // 120 A x 40 % - 30 A = 18 A left; 20 A out is 20 x 14.4 / 0.88 / (14.2 x 0.97) = 23.8 A in.
    const advice = advise(facts);
    expect(advice).toMatchObject({ amps: 20, fits: false, surplus: 18, accepts: 100 });
    expect(advice.input).toBeCloseTo(23.76, 2);
  });

  it('takes the largest that a converter allows and the battery accepts', () => {
    const wide = readFacts({ supply: 'converter 50 A', house: 'lifepo4 200 Ah' }).facts;
    expect(advise(wide)).toMatchObject({ amps: 40, fits: true });
    const lead = readFacts({ supply: 'converter 100 A', house: 'agm 150 Ah' }).facts;
    expect(advise(lead)).toMatchObject({ amps: 30, accepts: 30 });
  });

  it('has nothing to give where the limit of a converter is not known', () => {
    expect(advise(readFacts({ supply: 'converter' }).facts)).toMatchObject({
      amps: 20,
      fits: false,
      surplus: null,
    });
  });

  it('uses 0.5 C for lithium and 0.2 C for lead', () => {
    expect(acceptedAmps('lifepo4', 100)).toBe(50);
    expect(acceptedAmps('flooded', 100)).toBe(20);
    expect(acceptedAmps(null, 100)).toBe(50);
  });

  it('asks the same input at twice the voltage for the same output', () => {
    expect(inputAmps(30, 24)).toBeCloseTo(inputAmps(30, 12), 9);
  });
});
