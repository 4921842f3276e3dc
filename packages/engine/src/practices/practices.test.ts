import { describe, expect, it } from 'vitest';
import type { AmpacityQuestion } from '../contracts/index.ts';
import { europe, northAmerica, practices, TOPICS } from './index.ts';

const question = (over: Partial<AmpacityQuestion>): AmpacityQuestion => ({
  areaMm2: 21.1506,
  awg: null,
  insulation: 'pvc-105',
  insulationC: 105,
  in: 'free',
  airC: 30,
  engineSpace: false,
  ...over,
});

describe('statements', () => {
  it('are numbered by practice, with text, source and provenance', () => {
    for (const practice of Object.values(practices)) {
      const own = practice.id === 'europe' ? 'EU' : 'NA';
      for (const [id, statement] of practice.statements) {
        expect(id).toBe(statement.id);
        expect(id).toMatch(new RegExp(`^(GEN|${own})-[1-9][0-9]*$`));
        expect(statement.text.length).toBeGreaterThan(20);
        expect(statement.source).not.toBe('');
      }
    }
  });

  it('of every topic exist in each practice that has any', () => {
    for (const [topic, ids] of Object.entries(TOPICS)) {
      const known = ids.filter((id) => northAmerica.statements.has(id) || europe.statements.has(id));
      expect(known, topic).toEqual(ids);
      const found = europe.statements.has(ids[0]) || ids.some((id) => europe.statements.has(id));
      expect(found, topic).toBe(true);
    }
  });

  it('are each cited by some topic', () => {
    const cited = new Set<string>(Object.values(TOPICS).flat());
    const all = new Set(Object.values(practices).flatMap((p) => [...p.statements.keys()]));
    expect([...all].filter((id) => !cited.has(id))).toEqual([]);
  });

  it('name the conflict between the practices where there is one', () => {
    expect(northAmerica.statements.get('NA-5')?.text).toMatch(/150 %/);
    expect(europe.statements.get('EU-5')?.text).toMatch(/150 %/);
    expect(northAmerica.statements.get('NA-4')?.text).toMatch(/200 mm/);
    expect(europe.statements.get('EU-4')?.text).toMatch(/178 mm/);
  });
});

describe('distances and limits', () => {
  it('are those of 33 CFR 183.455 in North America', () => {
    expect(northAmerica.reach.plain.sourced).toMatchObject({ value: 0.178, unit: 'm', prov: 'seen' });
    expect(northAmerica.reach.sheathed.sourced).toMatchObject({ value: 1.016, prov: 'seen' });
    expect(northAmerica.reach.doubtful).toBeNull();
  });

  it('in Europe are met up to 178 mm and open up to the 200 mm from memory', () => {
    expect(europe.reach.plain.sourced.value).toBe(0.178);
    expect(europe.reach.doubtful?.sourced).toMatchObject({ value: 0.2, prov: 'memory' });
  });

  it('lose 3 % and 10 % at most, and protect to the whole ampacity', () => {
    for (const practice of Object.values(practices)) {
      expect(practice.dropLimits.critical.sourced.value).toBe(0.03);
      expect(practice.dropLimits.other.sourced.value).toBe(0.1);
      expect(practice.ratingFactor).toBe(1);
    }
  });
});

describe('bundle factor', () => {
  it.each([
    // 33 CFR 183.425 table 5 note 2.
    [1, 1],
    [2, 1],
    [3, 0.7],
    [4, 0.6],
    [6, 0.6],
    [7, 0.5],
    [24, 0.5],
    [25, 0.4],
  ])('of %d conductors is %d in both practices, in Europe by practice only', (count, factor) => {
    expect(northAmerica.bundle(count).sourced).toMatchObject({ value: factor, prov: 'seen' });
    expect(europe.bundle(count).sourced).toMatchObject({ value: factor, prov: 'practice' });
  });
});

describe('the tables', () => {
  const [cfr] = northAmerica.tables;
  const [iec, iso] = europe.tables;

  it('name what can be confirmed', () => {
    expect([cfr, iec, iso].map((t) => t?.path)).toEqual([
      'table:ampacity/33-cfr-183',
      'table:ampacity/iec-60364-5-52',
      'table:ampacity/iso-13297',
    ]);
  });

  it('an engine-space factor from memory counts as computed where the square-root rule gives it too', () => {
    // 90 °C: 0.82 printed in memory, sqrt(40/60) = 0.816.
    const answer = cfr?.look(
      question({ insulation: 'xlpe-90', insulationC: 90, airC: 40, engineSpace: true }),
    );
    expect(answer?.airFactor).toBeCloseTo(Math.sqrt(40 / 60), 12);
    expect(answer?.airBasis?.sourced.prov).toBe('computed');
    const seen = cfr?.look(question({ airC: 40, engineSpace: true }));
    expect(seen).toMatchObject({ airFactor: 0.85, airLabel: 'engine space' });
    expect(seen?.airBasis?.sourced.prov).toBe('seen');
  });

  it('need no air factor in the air that they are printed for', () => {
    expect(cfr?.look(question({}))).toMatchObject({ amps: 160, airFactor: 1, airBasis: null });
    expect(iec?.look(question({ areaMm2: 25, airC: 45 }))).toMatchObject({ airFactor: 1, airBasis: null });
    expect(iso?.look(question({ areaMm2: 25, airC: 45 }))?.airFactor).toBeCloseTo(Math.sqrt(60 / 75), 12);
  });

  it('never give more in hotter air', () => {
    for (const table of [cfr, iec, iso]) {
      for (const engineSpace of [false, true]) {
        let before = Infinity;
        for (let airC = -20; airC <= 106; airC += 1) {
          const answer = table?.look(question({ areaMm2: 25, airC, engineSpace }));
          const now = (answer?.amps ?? 0) * (answer?.airFactor ?? 0);
          expect(now).toBeLessThanOrEqual(before);
          before = now;
        }
        expect(before).toBe(0);
      }
    }
  });

  it('say why there is no figure', () => {
    expect(cfr?.look(question({ airC: 105 }))).toMatchObject({ amps: null, basis: null });
    expect(cfr?.look(question({ areaMm2: 150 }))?.reason).toMatch(/largest size/);
  });
});
