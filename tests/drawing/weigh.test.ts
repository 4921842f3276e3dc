/** What a change is said to cost is the difference of what the two pictures cost. */
import { describe, expect, it } from 'vitest';
import { costOf, judge } from '../../packages/engine/src/drawing/sheet/judge.ts';
import type { Picture } from '../../packages/engine/src/drawing/sheet/picture.ts';
import { weighing } from '../../packages/engine/src/drawing/sheet/weigh.ts';
import { Random } from '../oracles/random.ts';
import { draughtsman, subjectFrom } from './draw.ts';
import { makeBuild } from './generate.ts';

/** A few parts and wires elsewhere; whether that makes a drawing does not matter here. */
function disturbed({ nodes, wires }: Picture, random: Random): Picture {
  const dy = random.whole(-20, 20);
  const moved = <T>(list: readonly T[], move: (each: T) => T): readonly T[] =>
    list.map((each) => (random.chance(0.05) ? move(each) : each));
  return {
    nodes: moved(nodes, (node) => ({ ...node, y: node.y + dy })),
    wires: moved(wires, ({ edge, points, label }) => ({
      edge,
      points: random.chance(0.5) ? points.slice(0, -1) : points.map(({ x, y }) => ({ x, y: y + dy })),
      label: { x: label.x, y: label.y + dy },
    })),
  };
}

describe('the cost of a change', () => {
  it.each([1, 2, 3])('is that of the whole picture after it less before it, build %i', async (seed) => {
    const random = new Random(seed);
    const subject = subjectFrom(makeBuild(seed, { parts: 30, places: 5 }).text);
    const { page } = await draughtsman().screen(subject, { view: 'all' });
    let { picture } = page;
    const tally = { better: 0, worse: 0 };
    for (let i = 0; i < 200; i += 1) {
      const tried = disturbed(picture, random);
      const whole = costOf(judge(tried)) - costOf(judge(picture));
      const said = weighing(picture)(tried);
      if (whole >= 1) expect(said).toBeGreaterThanOrEqual(1);
      else expect(said).toBeCloseTo(whole, 6);
      tally[whole < 1 ? 'better' : 'worse'] += 1;
      // From there on to the next, better or worse, so that both are seen.
      if (i % 3 === 0) picture = tried;
    }
    expect(tally.better).toBeGreaterThan(10);
    expect(tally.worse).toBeGreaterThan(10);
  });
});
