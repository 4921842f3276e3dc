/** Upright legs between an end of a wire and the level row that it runs in. */
import type { Obstacle } from './obstacles.ts';
import { outOf, type RowEnd } from './row-end.ts';
import { WEIGHT } from './weight.ts';

const SAME = 1e-6;
/** From a leg to parts and labels, and to another upright line, mm. */
const LEG_AIR = 1;
const BESIDE_LEG = 1.5;

/** From an end to the row: straight, or over an upright leg. */
export interface Way {
  readonly leg: number | null;
  readonly cost: number;
}

export function waysOf(
  end: RowEnd,
  legs: readonly number[],
  cut: number,
  obstacles: readonly Obstacle[],
): readonly Way[] {
  const straight: readonly Way[] = standsStraight(end, cut) ? [{ leg: null, cost: 0 }] : [];
  const ways = legs.map((leg) => ({ leg, cost: legCost(end, leg, cut, obstacles) }));
  return [...straight, ...ways.filter((way) => way.cost < Infinity)];
}

/** A fixed end only on its own axis. */
const standsStraight = (end: RowEnd, cut: number): boolean =>
  end.type !== 'fixed' || Math.abs(end.y - cut) < SAME;

/** Where an upright leg may stand, near the end first; `way`: the wire leaves it towards the tail, or towards the nose. */
export function channels(end: RowEnd, way: 1 | -1, obstacles: readonly Obstacle[]): readonly number[] {
  if (end.type === 'floating') return [];
  const found = [end.x + way * 2, end.x + way * 4.5];
  for (const each of obstacles) {
    if (each.what === 'level') continue;
    found.push(way > 0 ? each.right + 2 : each.left - 2, way > 0 ? each.left - 2 : each.right + 2);
  }
  const away = (x: number): number => (x - end.x) * way;
  const sorted = found
    .filter((x) => away(x) > 1.5 && away(x) < FARTHEST_LEG)
    .toSorted((a, b) => away(a) - away(b));
  return sorted.filter((x, i) => i === 0 || Math.abs(x - (sorted[i - 1] ?? x)) > 0.4).slice(0, MOST_LEGS);
}

const MOST_LEGS = 5;
/** An upright leg is no further from its end, mm. */
export const FARTHEST_LEG = 60;

/** Of the leg, its bends and its way from the end; Infinity: it would go through something. */
function legCost(end: RowEnd, x: number, cut: number, obstacles: readonly Obstacle[]): number {
  const fixed = end.type === 'fixed';
  const far = fixed || end.taps.length === 0 ? end.y : nearest(end.taps, cut);
  const [top, bottom] = [Math.min(far, cut), Math.max(far, cut)];
  const [left, right] = [Math.min(x, end.x), Math.max(x, end.x)];
  let cost = WEIGHT.bend * 2 + WEIGHT.length * (riseOf(end, cut) + right - left);
  for (const each of obstacles) {
    if (each.what === 'level') {
      const crossed = each.left < x && each.right > x && each.top > top + SAME && each.top < bottom - SAME;
      if (crossed) cost += WEIGHT.crossing;
    } else if (each.what === 'upright') {
      const along = each.top < bottom - SAME && each.bottom > top + SAME;
      if (along && Math.abs(each.left - x) < BESIDE_LEG) return Infinity;
      const crossed = each.left > left && each.left < right && each.top < far && each.bottom > far;
      if (fixed && crossed) cost += WEIGHT.crossing;
    } else if (each.what !== 'part' || each.id !== end.node) {
      const beside = x > each.left - LEG_AIR && x < each.right + LEG_AIR;
      if (beside && each.top < bottom && each.bottom > top) return Infinity;
      const onStub = each.left < right && each.right > left && each.top < far && each.bottom > far;
      if (onStub && fixed) return Infinity;
    }
  }
  return cost;
}

const nearest = (list: readonly number[], y: number): number =>
  list.reduce((best, each) => (Math.abs(each - y) < Math.abs(best - y) ? each : best), list[0] ?? y);

const riseOf = (end: RowEnd, y: number): number =>
  end.type === 'bar' ? outOf(end.span, y) + 1 : Math.abs(y - end.y);
