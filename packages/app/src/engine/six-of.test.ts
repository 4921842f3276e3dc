import { designText, openSession, readFacts, type Answers } from '@loomwright/engine';
import { describe, expect, it } from 'vitest';
import { beganWithSix, sixOf } from './six-of.ts';

const CASES: readonly Answers[] = [
  {},
  {
    supply: 'alternator',
    battery: 'bonnet',
    length: '3.6 m',
    charger: '40 A',
    house: 'lifepo4 200 Ah',
    return: 'cable',
    stock: '16 25 35 50 mm2',
  },
  { supply: 'variable', battery: 'seat', length: '3..6 m', house: 'agm', return: 'body' },
  {
    supply: 'converter',
    battery: 'behind',
    charger: '20 A',
    house: '100 Ah',
    system: '24 V',
    practice: 'north-america',
    stock: '6, 4, 2 AWG',
  },
  { supply: 'converter 20 A', house: 'lifepo4', length: '1..10 m' },
];

describe('the six facts read back from a build', () => {
  it.each(CASES)('give the same design again: %o', (answers) => {
    const text = designText(readFacts(answers).facts).text;
    const { build } = openSession(text);
    expect(build).not.toBeNull();
    if (build === null) return;
    expect(beganWithSix(build)).toBe(true);
    const again = designText(readFacts(sixOf(build, text)).facts).text;
    expect(again).toBe(text);
  });

  it('names what was given, and nothing else', () => {
    const text = designText(readFacts({ supply: 'alternator', house: 'lifepo4' }).facts).text;
    const { build } = openSession(text);
    expect(build === null ? null : sixOf(build, text)).toEqual({
      supply: 'alternator',
      house: 'lifepo4',
      system: '12 V',
      practice: 'europe',
    });
  });
});
