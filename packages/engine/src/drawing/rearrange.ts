/** A person's wish for the order of a drawing: a part above another one, a wire above another one at a part. Never coordinates. */
import type { Id } from '../contracts/index.ts';
import { withView, type Order } from './order.ts';
import type { Kept } from './sheet/layout.ts';
import type { View } from './subject.ts';

export type Rearrangement =
  /** The part stands before `before`, or behind all others where that is null. */
  | { readonly part: Id; readonly before: Id | null }
  /** At the part, the wire meets it above `before`, or below all others of that side where that is null. */
  | { readonly wire: Id; readonly at: Id; readonly before: Id | null };

/**
 * The order with the wish in it; what the wish speaks of and the order does not know changes nothing. The next layout follows
 * it as far as the columns allow. null: no order is kept of this view.
 */
export function rearranged(order: Order, view: View, wish: Rearrangement): Order | null {
  const kept = order.views[view]?.screen;
  if (kept === undefined) return null;
  const next = 'part' in wish ? partMoved(kept, wish) : wireMoved(kept, wish);
  return withView(order, view, { screen: next === kept ? kept : { ...next, firm: true } });
}

/** Where its wires meet other parts is decided afresh: they follow it. */
function partMoved(kept: Kept, { part, before }: { readonly part: Id; readonly before: Id | null }): Kept {
  if (!kept.nodes.includes(part)) return kept;
  const own = kept.sides[part];
  const wires = new Set([...(own?.west ?? []), ...(own?.east ?? [])]);
  const others = (list: readonly Id[]): readonly Id[] => list.filter((wire) => !wires.has(wire));
  const sides = Object.fromEntries(
    Object.entries(kept.sides).map(([id, { west, east }]) => [
      id,
      id === part ? { west, east } : { west: others(west), east: others(east) },
    ]),
  );
  return { nodes: placed(kept.nodes, part, before), sides };
}

function wireMoved(
  kept: Kept,
  { wire, at, before }: { readonly wire: Id; readonly at: Id; readonly before: Id | null },
): Kept {
  const own = kept.sides[at];
  if (own === undefined || ![...own.west, ...own.east].includes(wire)) return kept;
  const moved = (list: readonly Id[]): readonly Id[] =>
    list.includes(wire) ? placed(list, wire, before) : list;
  return { ...kept, sides: { ...kept.sides, [at]: { west: moved(own.west), east: moved(own.east) } } };
}

function placed(list: readonly Id[], what: Id, before: Id | null): readonly Id[] {
  const rest = list.filter((each) => each !== what);
  const at = before === null || before === what ? -1 : rest.indexOf(before);
  return at < 0 ? [...rest, what] : [...rest.slice(0, at), what, ...rest.slice(at)];
}
