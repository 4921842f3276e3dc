/** How far what stood in a picture has moved in another one. */
import { coreOf, type Picture } from '../../packages/engine/src/drawing/sheet/picture.ts';

/** Summed over pictures: own shifts of parts, mm, and turned pairs. */
export interface Shift {
  own: number;
  parts: number;
  swapped: number;
  pairs: number;
}

const middle = (list: readonly number[]): number => list.toSorted((a, b) => a - b)[list.length >> 1] ?? 0;

export const noShift = (): Shift => ({ own: 0, parts: 0, swapped: 0, pairs: 0 });

/** Own shifts of parts after the common shift of their place, and turned pairs within a place. */
export function compare(before: Picture, after: Picture, sum: Shift): void {
  const old = new Map(before.nodes.map((placed) => [placed.node.id, placed]));
  const byPlace = new Map<number, { dx: number; dy: number; was: number; is: number }[]>();
  for (const placed of after.nodes) {
    const was = old.get(placed.node.id);
    if (was === undefined) continue;
    const [a, b] = [coreOf(was), coreOf(placed)];
    const entry = { dx: b.left - a.left, dy: b.top - a.top, was: was.y, is: placed.y };
    byPlace.set(placed.node.place, [...(byPlace.get(placed.node.place) ?? []), entry]);
  }
  for (const list of byPlace.values()) {
    const [x, y] = [middle(list.map((e) => e.dx)), middle(list.map((e) => e.dy))];
    list.forEach((e, i) => {
      sum.own += Math.hypot(e.dx - x, e.dy - y);
      sum.parts += 1;
      for (const other of list.slice(i + 1)) {
        sum.pairs += 1;
        if ((e.was - other.was) * (e.is - other.is) < 0) sum.swapped += 1;
      }
    });
  }
}
