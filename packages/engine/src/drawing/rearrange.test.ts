import { describe, expect, it } from 'vitest';
import type { Order } from './order.ts';
import { rearranged } from './rearrange.ts';

const order: Order = {
  version: 1,
  views: {
    all: {
      screen: {
        nodes: ['a', 'b', 'bar'],
        sides: {
          a: { west: [], east: ['w1'] },
          b: { west: [], east: ['w2', 'w3'] },
          bar: { west: ['w1', 'w2', 'w3'], east: [] },
        },
      },
      paper: 'A4',
    },
  },
};

const westOfBar = (before: string | null) =>
  rearranged(order, 'all', { wire: 'w2', at: 'bar', before })?.views.all?.screen?.sides['bar']?.west;

describe('a wish for the order of a drawing', () => {
  it('puts a part before another one; its wires find their places at other parts afresh, the rest stays', () => {
    const made = rearranged(order, 'all', { part: 'b', before: 'a' });
    expect(made?.views.all).toEqual({
      screen: {
        nodes: ['b', 'a', 'bar'],
        sides: {
          a: { west: [], east: ['w1'] },
          b: { west: [], east: ['w2', 'w3'] },
          bar: { west: ['w1'], east: [] },
        },
        firm: true,
      },
      paper: 'A4',
    });
  });

  it('puts a part behind all others', () => {
    expect(rearranged(order, 'all', { part: 'a', before: null })?.views.all?.screen?.nodes).toEqual([
      'b',
      'bar',
      'a',
    ]);
  });

  it('puts a wire above or below others where it meets a part', () => {
    expect(westOfBar('w1')).toEqual(['w2', 'w1', 'w3']);
    expect(westOfBar(null)).toEqual(['w1', 'w3', 'w2']);
  });

  it('changes nothing for what it does not know, and is null where no order is kept', () => {
    expect(rearranged(order, 'all', { part: 'x', before: 'a' })?.views.all).toEqual(order.views.all);
    expect(rearranged(order, 'all', { wire: 'x', at: 'bar', before: 'w1' })?.views.all).toEqual(
      order.views.all,
    );
    expect(rearranged(order, 'power', { part: 'a', before: null })).toBeNull();
  });
});
