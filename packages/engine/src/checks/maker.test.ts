/** A charger's printed instruction: the larger demand governs, and what differs is said. */
import { describe, expect, it } from 'vitest';
import { checks } from './registry.ts';
import { van } from './support/examples.ts';
import { judgeText } from './testing/judge-text.ts';

const charger = (maker: string): string =>
  van('A charger with a printed instruction', {
    parts: {
      charger: `{ kind: dc-charger, at: locker, current: 30 A, enable: signal, starts: 12.3 V after 15 s, stops: 12.0 V after 5 s, low-input: stops, negative: common, efficiency: 0.88, maker: ${maker} }`,
    },
  });

const wanted = checks.filter((check) => ['maker', 'nuisance', 'conductor'].includes(check.id));

function find(maker: string, id: string) {
  const found = judgeText(charger(maker), wanted).findings.find((f) => f.id === id);
  if (found === undefined) throw new Error(`no finding ${id}`);
  return found;
}

describe("the maker's instruction", () => {
  // 30 A x 14.4 V / 0.88 / 12.0 V = 40.9 A.
  it('governs where it asks for more than is computed', () => {
    expect(find('{ input: 55 A }', 'conductor/feed-2').value.value).toBe(55);
    expect(find('{ input: 55 A }', 'nuisance/feed-fuse').verdict).toBe('fault');
    expect(find('{ input: 55 A }', 'maker/charger').verdict).toBe('advice');
    expect(find('{ input: 55 A }', 'maker/charger').says).toMatch(/55.A where 40\.9.A.*printed one governs/u);
  });

  it('does not lower what is computed', () => {
    expect(find('{ input: 35 A }', 'conductor/feed-2').value.value).toBeCloseTo(40.9, 1);
    expect(find('{ input: 35 A }', 'maker/charger').says).toMatch(/computed one governs/u);
    expect(find('{ input: 41 A }', 'maker/charger').verdict).toBe('met');
  });

  it('is broken by a larger fuse or a thinner cable, up to the end of a printed band', () => {
    expect(find('{ fuse: 50 A }', 'maker/charger').verdict).toBe('fault');
    expect(find('{ fuse: 50 A }', 'maker/charger').says).toMatch(/feed-fuse is rated 60.A/u);
    expect(find('{ fuse: 50..70 A }', 'maker/charger').verdict).toBe('met');
    expect(find('{ cable: 50 mm2 }', 'maker/charger').says).toMatch(/feed is 35.mm²/u);
    expect(find('{ cable: 2 AWG }', 'maker/charger').verdict).toBe('met');
  });

  it('says what it cannot compare', () => {
    expect(find('{ cable: two of the thick ones }', 'maker/charger').verdict).toBe('advice');
    expect(find('{ cable: two of the thick ones }', 'maker/charger').says).toMatch(/no size that can be/u);
  });
});

describe('a unit that looks at its input unloaded', () => {
  it('pauses on purpose, and the finding on hunting says so', () => {
    const doc = van('A charger that samples', {
      parts: {
        charger:
          '{ kind: dc-charger, at: locker, current: 30 A, enable: signal, starts: 12.3 V after 15 s, stops: 12.0 V after 5 s, low-input: stops, negative: common, samples: 5 s every 3 min }',
      },
    });
    const found = judgeText(
      doc,
      checks.filter((check) => check.id === 'hunting'),
    ).findings[0];
    expect(found?.says).toMatch(/pauses of 5\.00.s every 3.min are on purpose/u);
    expect(found?.working.find((s) => s.what.includes('pauses'))?.value).toBeCloseTo((100 * 175) / 180, 6);
  });
});
