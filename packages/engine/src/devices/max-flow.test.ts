import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { maxFlow, type FlowLink } from './max-flow.ts';

describe('greatest flow', () => {
  it('of the network of Cormen, Leiserson, Rivest and Stein (Introduction to Algorithms, figure 26.6) is 23', () => {
    const links: FlowLink[] = [
      { a: 's', b: 'v1', capacity: 16, oneWay: true },
      { a: 's', b: 'v2', capacity: 13, oneWay: true },
      { a: 'v2', b: 'v1', capacity: 4, oneWay: true },
      { a: 'v1', b: 'v3', capacity: 12, oneWay: true },
      { a: 'v3', b: 'v2', capacity: 9, oneWay: true },
      { a: 'v2', b: 'v4', capacity: 14, oneWay: true },
      { a: 'v4', b: 'v3', capacity: 7, oneWay: true },
      { a: 'v3', b: 't', capacity: 20, oneWay: true },
      { a: 'v4', b: 't', capacity: 4, oneWay: true },
    ];
    const flow = maxFlow(links, 's', 't');
    expect(flow.total).toBe(23);
    expect(flow.limiting.map((i) => links[i]?.capacity)).toEqual([12, 7, 4]);
  });

  it('two fuses that feed one busbar add, a smaller one behind it limits', () => {
    const links: FlowLink[] = [
      { a: 'sources', b: 'bar', capacity: 60 },
      { a: 'sources', b: 'bar', capacity: 80 },
      { a: 'bar', b: 'wire', capacity: Infinity },
    ];
    expect(maxFlow(links, 'sources', 'wire')).toEqual({ total: 140, limiting: [0, 1] });
    const behind = [...links, { a: 'wire', b: 'end', capacity: 15 }];
    expect(maxFlow(behind, 'sources', 'end')).toEqual({ total: 15, limiting: [3] });
  });

  it('is endless where nothing limits it, and nothing where nothing leads there', () => {
    expect(maxFlow([{ a: 's', b: 't', capacity: Infinity }], 's', 't').total).toBe(Infinity);
    expect(maxFlow([{ a: 's', b: 'x', capacity: 5 }], 's', 't')).toEqual({ total: 0, limiting: [] });
    expect(maxFlow([{ a: 't', b: 's', capacity: 5, oneWay: true }], 's', 't').total).toBe(0);
  });

  it('equals the least cut found by trying every one', () => {
    const node = fc.integer({ min: 0, max: 5 });
    const link = fc.record({
      a: node.map((n) => `n${n}`),
      b: node.map((n) => `n${n}`),
      capacity: fc.constantFrom(0, 0.25, 1, 3, 7.5, 15, 60),
      oneWay: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(link, { maxLength: 14 }), (links) => {
        const { total, limiting } = maxFlow(links, 'n0', 'n5');
        expect(total).toBeCloseTo(leastCut(links), 9);
        expect(limiting.reduce((sum, i) => sum + (links[i]?.capacity ?? 0), 0)).toBeCloseTo(total, 9);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

function leastCut(links: readonly FlowLink[]): number {
  let least = Infinity;
  for (let mask = 0; mask < 16; mask += 1) {
    const inside = (name: string): boolean =>
      name === 'n0' || (name !== 'n5' && (mask & (1 << (Number(name.slice(1)) - 1))) !== 0);
    const across = links.filter((l) =>
      l.oneWay === true ? inside(l.a) && !inside(l.b) : inside(l.a) !== inside(l.b),
    );
    least = Math.min(
      least,
      across.reduce((sum, l) => sum + l.capacity, 0),
    );
  }
  return least;
}
