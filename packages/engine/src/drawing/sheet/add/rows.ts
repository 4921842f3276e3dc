/**
 * Level rows in which a wire with its label can run through a picture: which height, how far the picture must move apart for it,
 * where its upright legs and its label stand. What is found is an estimate; the picture made of it is judged.
 */
import type { Id } from '../../../contracts/index.ts';
import { LEAST_LUG } from '../frame.ts';
import type { Label } from '../model.ts';
import { channels, FARTHEST_LEG, waysOf, type Way } from './legs.ts';
import { needAt, type Item, type Need, type Obstacle } from './obstacles.ts';
import { outOf, type RowEnd } from './row-end.ts';
import { WEIGHT } from './weight.ts';

export interface Row {
  /** All from here on goes down by `apart`. */
  readonly cut: number;
  readonly apart: number;
  /** Axis of the row once it has. */
  readonly y: number;
  /** A fixed end stands on the row: below it the picture moves apart by this, too. */
  readonly under: number;
  /** Upright legs at the two ends; null: the row goes straight to that end. */
  readonly legs: readonly [number | null, number | null];
  readonly labelX: number;
  readonly cost: number;
}

/** A bar gets no longer than by this for one tap, mm. */
const FARTHEST = 45;
const SAME = 1e-6;
/** From the end of a run to the label on it. */
const LABEL_AIR = 1.2;

export interface RowSearch {
  readonly source: RowEnd;
  readonly target: RowEnd;
  readonly label: Label;
  readonly obstacles: readonly Obstacle[];
  readonly air: number;
  /** Heights that are looked at, most. */
  readonly most: number;
}

/** Rows found, best first: `many` at most. */
export function rowsFor(search: RowSearch, many: number): readonly Row[] {
  const { source, target, obstacles } = search;
  const found: Row[] = [];
  const take = (row: Row): void => {
    found.push(row);
    found.sort((a, b) => a.cost - b.cost);
    found.length = Math.min(found.length, many);
  };
  const legs = [channels(source, 1, obstacles), channels(target, -1, obstacles)] as const;
  const between = inReach(search);
  const beside = [source, target].map((end) =>
    obstacles.filter((each) => each.right > end.x - FARTHEST_LEG && each.left < end.x + FARTHEST_LEG),
  );
  for (const cut of cutsFor(search)) {
    const near = {
      ...search,
      obstacles: between.filter((each) => each.bottom > cut - WINDOW && each.top < cut + WINDOW),
    };
    const starts = waysOf(source, legs[0], cut, beside[0] ?? []);
    const ends = waysOf(target, legs[1], cut, beside[1] ?? []);
    for (const a of starts) {
      for (const b of ends) {
        const most = found[many - 1]?.cost ?? Infinity;
        const row = rowAt(near, cut, a, b, most);
        if (row !== null) take(row);
      }
    }
  }
  return found;
}

/** What may stand in the way of a row between the ends, or of what belongs to it. */
function inReach({ source, target, obstacles }: RowSearch): readonly Obstacle[] {
  const xs = [source, target].flatMap((end) => [
    end.x,
    ...end.own.flatMap((item) => [item.left, item.right]),
    ...(end.type === 'bar' ? [end.beyond.left, end.beyond.right] : []),
  ]);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  return obstacles.filter((each) => each.right > left - 1 && each.left < right + 1);
}

/** What is further than this from a cut leaves it all the room it may need, mm. */
const WINDOW = 60;

function cutsFor({ source, target, obstacles, most }: RowSearch): readonly number[] {
  const ends = [source, target].filter((end) => end.type !== 'floating');
  const heights = ends.flatMap((end) => [end.y, ...end.taps]);
  for (const { first, last } of obstacles) heights.push(first, last);
  heights.sort((a, b) => a - b);
  heights.push((heights.at(-1) ?? 0) + 1);
  const distinct = heights.filter((y, i) => i === 0 || y - (heights[i - 1] ?? y) > 1e-3);
  const spans = ends.map((end) => end.span);
  const near = distinct.map((y) => ({ y, away: Math.min(...spans.map((span) => outOf(span, y))) }));
  near.sort((a, b) => a.away - b.away);
  return [...near.slice(0, most).map((each) => each.y), ...aroundTall(source, target, obstacles)];
}

/** Over and under what reaches across many rows between the two ends. */
function aroundTall(source: RowEnd, target: RowEnd, obstacles: readonly Obstacle[]): readonly number[] {
  const [left, right] = [source.x, target.x];
  const tall = obstacles.filter(
    (each) => each.what === 'part' && each.last - each.first > TALL && each.left < right && each.right > left,
  );
  return tall.flatMap((each) => [each.first, each.last + 0.01]);
}

const TALL = 30;

function rowAt(search: RowSearch, cut: number, a: Way, b: Way, most: number): Row | null {
  const { source, target, label } = search;
  const [left, right] = [a.leg ?? source.x, b.leg ?? target.x];
  // A wire that would run back is left to the library, which turns the parts round.
  if (right - left < label.width + 2 * LABEL_AIR - SAME) return null;
  const least = a.cost + b.cost + WEIGHT.length * (right - left);
  if (least >= most) return null;
  let best: Row | null = null;
  for (const labelX of labelPlaces(left, right, label)) {
    const row = rowWith(search, { cut, a: a.leg, b: b.leg, left, right, labelX, least });
    if (row !== null && row.cost < (best?.cost ?? most)) best = row;
  }
  return best;
}

function labelPlaces(left: number, right: number, { width }: Label): readonly number[] {
  const middle = (left + right) / 2;
  const [first, last] = [left + LABEL_AIR + width / 2, right - LABEL_AIR - width / 2];
  return last - first < 4 ? [middle] : [middle, first, last];
}

interface Tried {
  readonly cut: number;
  readonly a: number | null;
  readonly b: number | null;
  readonly left: number;
  readonly right: number;
  readonly labelX: number;
  /** Of its legs and its length. */
  readonly least: number;
}

function rowWith(search: RowSearch, tried: Tried): Row | null {
  const { source, target, label, obstacles, air } = search;
  const { cut, a, b, left, right, labelX } = tried;
  const straight = [...(a === null ? [source] : []), ...(b === null ? [target] : [])];
  const half = label.width / 2;
  const items: Item[] = [
    { what: 'wire', left, right, up: 0, down: 0 },
    { what: 'label', left: labelX - half, right: labelX + half, up: label.up, down: label.down },
    ...[source, target].flatMap((end) => end.own),
    ...straight.flatMap((end) => beyondItem(end, cut)),
  ];
  const fixed = straight.some((end) => end.type === 'fixed');
  const [one, two] = straight.map((end) => end.node);
  const others = one === undefined ? obstacles : without(obstacles, one, two ?? one);
  const need = fixed ? onAxis(cut, items, others, air) : needAt(cut, items, others, air);
  if (need === null || straight.some((end) => isBlocked(end, cut, others))) return null;
  const settled = fixed ? settledFixed(cut, need) : settledFree(cut, withTaps(need, straight, cut), search);
  const cost =
    tried.least +
    WEIGHT.crossing * need.crossed +
    WEIGHT.apart * (settled.apart + settled.under) +
    WEIGHT.beyond * sum(straight, (end) => (end.type === 'bar' ? outOf(end.span, settled.y) : 0)) +
    WEIGHT.away * sum([source, target], (end) => (end.stood === null ? 0 : Math.abs(settled.y - end.stood)));
  return { cut, ...settled, legs: [a, b], labelX, cost };
}

const sum = (ends: readonly RowEnd[], by: (end: RowEnd) => number): number =>
  ends.reduce((all, end) => all + by(end), 0);

const without = (obstacles: readonly Obstacle[], one: Id, two: Id): readonly Obstacle[] =>
  obstacles.filter((each) => each.what !== 'part' || (each.id !== one && each.id !== two));

/** What stands on the axis of a fixed end must not be in the row; all else is above it or below. */
function onAxis(y: number, items: readonly Item[], obstacles: readonly Obstacle[], air: number): Need | null {
  const near = obstacles.filter(
    (each) => each.what !== 'upright' && Math.abs(each.first - y) < 0.5 && Math.abs(each.last - y) < 0.5,
  );
  if (
    near.some((each) => items.some((item) => each.left < item.right - 0.01 && each.right > item.left + 0.01))
  )
    return null;
  return needAt(y, items, obstacles, air);
}

const settledFixed = (y: number, { above, below }: Need): Pick<Row, 'apart' | 'y' | 'under'> => {
  const apart = Math.max(0, above);
  return { apart, y: y + apart, under: Math.max(0, below) };
};

function settledFree(
  cut: number,
  { above, below }: Need,
  { source, target }: RowSearch,
): Pick<Row, 'apart' | 'y' | 'under'> {
  const apart = Math.max(0, above + below);
  const [from, to] = [cut + above, cut + apart - below];
  const fixed = [source, target].find((end) => end.type !== 'floating');
  const wanted = fixed?.y ?? cut;
  return { apart, y: Math.min(Math.max(wanted, from), to), under: 0 };
}

/** A tap keeps its distance from the next ones of its bar. */
function withTaps(need: Need, straight: readonly RowEnd[], cut: number): Need {
  let { above, below } = need;
  for (const end of straight) {
    for (const tap of end.type === 'bar' ? end.taps : []) {
      if (tap < cut - SAME) above = Math.max(above, tap + LEAST_LUG - cut);
      else below = Math.max(below, cut - tap + LEAST_LUG);
    }
    // A row that nothing holds stays near the bar.
    if (above === -Infinity) above = -LEAST_LUG;
    if (below === -Infinity) below = -LEAST_LUG;
  }
  if (above === -Infinity) above = 0;
  if (below === -Infinity) below = 0;
  return { ...need, above, below };
}

/** A bar gets longer for a tap over its first one, and its heading moves with it. */
function beyondItem(end: RowEnd, cut: number): readonly Item[] {
  if (end.type !== 'bar') return [];
  const over = end.span.first >= cut - SAME;
  const under = end.span.last < cut - SAME;
  if (!over && !under) return [];
  const { left, right, up, down } = end.beyond;
  return [{ what: 'part', left, right, up: over ? up : 0, down: under ? down : 0 }];
}

/** What it would be stretched over, or too far. */
function isBlocked(end: RowEnd, cut: number, obstacles: readonly Obstacle[]): boolean {
  if (end.type !== 'bar') return false;
  const { first, last } = end.span;
  if (cut > first + SAME && cut < last + SAME) return false;
  const [top, bottom] = cut <= first + SAME ? [cut, first] : [last, cut];
  if (bottom - top > FARTHEST) return true;
  const { left, right } = end.beyond;
  return obstacles.some(
    (each) => each.left < right && each.right > left && each.first > top + SAME && each.last < bottom - SAME,
  );
}
