/**
 * What stands in the way of a level row that is to be added to a picture, and how much the picture must move apart along a cut so
 * that the row finds room there.
 */
import type { Id } from '../../../contracts/index.ts';
import { axesOf } from '../room.ts';
import { boxOf, labelBox, type Box, type Picture } from '../picture.ts';

export interface Obstacle extends Box {
  readonly what: 'part' | 'label' | 'level' | 'upright';
  /** The part, or the wire. */
  readonly id: Id;
  /** A cut at a height between its first and its last axis goes through it; else it moves as a whole or stays. */
  readonly first: number;
  readonly last: number;
}

export function obstaclesOf(picture: Picture): readonly Obstacle[] {
  const found: Obstacle[] = [];
  for (const placed of picture.nodes) {
    const axes = axesOf(placed);
    const [first, last] = [Math.min(...axes), Math.max(...axes)];
    found.push({ what: 'part', id: placed.node.id, ...boxOf(placed), first, last });
  }
  for (const wire of picture.wires) {
    const { id } = wire.edge.wire;
    found.push({ what: 'label', id, ...labelBox(wire), first: wire.label.y, last: wire.label.y });
    wire.points.slice(1).forEach((b, i) => {
      const a = wire.points[i] ?? b;
      const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x)];
      const [top, bottom] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
      const what = bottom - top < LEVEL ? 'level' : 'upright';
      found.push({ what, id, left, right, top, bottom, first: top, last: bottom });
    });
  }
  return found;
}

const LEVEL = 0.01;

/** A piece of a row: what it takes above and below the row's axis. */
export interface Item {
  readonly what: 'part' | 'label' | 'wire';
  readonly left: number;
  readonly right: number;
  readonly up: number;
  readonly down: number;
}

/** Room that a row needs around a cut: from the cut up to its axis, and from its axis down to the cut, mm. */
export interface Need {
  readonly above: number;
  readonly below: number;
  /** Upright wires that it crosses. */
  readonly crossed: number;
}

/** null: something that reaches across the cut stands in the way. */
export function needAt(
  cut: number,
  items: readonly Item[],
  obstacles: readonly Obstacle[],
  air: number,
): Need | null {
  let [above, below, crossed] = [-Infinity, -Infinity, 0];
  for (const item of items) {
    for (const each of obstacles) {
      const beside = each.what === 'upright' && item.what !== 'wire' ? BESIDE_UPRIGHT : 0;
      if (each.right <= item.left - beside || each.left >= item.right + beside) continue;
      if (each.first < cut - SAME && each.last >= cut - SAME) {
        if (each.what !== 'upright' || item.what !== 'wire') return null;
        crossed += 1;
        continue;
      }
      const apart = apartOf(item, each, air);
      if (each.last < cut - SAME) above = Math.max(above, each.bottom - cut + item.up + apart);
      else below = Math.max(below, cut - each.top + item.down + apart);
    }
  }
  return { above, below, crossed };
}

const SAME = 1e-6;
const BESIDE_UPRIGHT = 1;

/** Least distances, mm. */
const APART = { wires: 2.5, wire: 1.2, label: 0.6 } as const;

function apartOf(item: Item, { what }: Obstacle, air: number): number {
  const line = what === 'level' || what === 'upright';
  if (item.what === 'wire') return line ? APART.wires : APART.wire;
  if (item.what === 'part' && what === 'part') return air;
  return line && item.what === 'label' ? APART.label : APART.wire;
}
