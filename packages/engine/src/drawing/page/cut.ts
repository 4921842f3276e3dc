/**
 * Deals the wires of a view to pages: cut at a part, which then stands on both, never at a wire. By guesses only; what was dealt
 * is laid out afterwards.
 */
import type { Id } from '../../contracts/index.ts';
import { byText } from '../sheet/make.ts';
import type { Subject, SubjectWire } from '../subject.ts';

export type Piece = readonly SubjectWire[];

/** What the cut has to know of a view. */
export interface Ground {
  readonly subject: Subject;
  /** Column of a part from the nose. */
  readonly columnOf: (part: Id) => number;
  /** Whether a piece would fit on a page. */
  readonly fits: (piece: Piece) => boolean;
}

const partsIn = (piece: Piece): ReadonlySet<Id> => new Set(piece.flatMap((w) => [w.from.part, w.to.part]));

/** Pieces that each fit, in the order nose to tail. */
export function deal(piece: Piece, ground: Ground): readonly Piece[] {
  return inOrder(packed(split(piece, ground), ground), ground);
}

function split(piece: Piece, ground: Ground): readonly Piece[] {
  if (piece.length <= 1 || ground.fits(piece)) return [piece];
  return cut(piece, ground).flatMap((half) => split(half, ground));
}

/** In two or more, whether or not a piece would fit; one wire stays one piece. */
export function cut(piece: Piece, ground: Ground): readonly Piece[] {
  const joined = inOrder(components(piece, null), ground);
  if (joined.length > 1) return halves(joined).map((each) => each.flat());
  const best = bestPart(piece, ground);
  return best ?? byColumn(piece, ground);
}

/** Wires that hang together, where one part does not count. */
function components(piece: Piece, without: Id | null): readonly Piece[] {
  const at = new Map<Id, SubjectWire[]>();
  for (const wire of piece)
    for (const id of [wire.from.part, wire.to.part]) at.set(id, [...(at.get(id) ?? []), wire]);
  const seen = new Set<Id>();
  const groups: Piece[] = [];
  for (const wire of piece) {
    if (seen.has(wire.id)) continue;
    const group: SubjectWire[] = [];
    const open = [wire];
    for (let here = open.pop(); here !== undefined; here = open.pop()) {
      if (seen.has(here.id)) continue;
      seen.add(here.id);
      group.push(here);
      for (const id of [here.from.part, here.to.part]) if (id !== without) open.push(...(at.get(id) ?? []));
    }
    groups.push(group.toSorted((a, b) => byText(a.id, b.id)));
  }
  return groups;
}

const meanColumn = (piece: Piece, { columnOf }: Ground): number =>
  piece.reduce((sum, w) => sum + columnOf(w.from.part) + columnOf(w.to.part), 0) /
  Math.max(1, 2 * piece.length);

const inOrder = (pieces: readonly Piece[], ground: Ground): readonly Piece[] =>
  pieces.toSorted(
    (a, b) => meanColumn(a, ground) - meanColumn(b, ground) || byText(a[0]?.id ?? '', b[0]?.id ?? ''),
  );

/** Where the first list comes nearest to half of all. */
function halves(groups: readonly Piece[]): readonly [readonly Piece[], readonly Piece[]] {
  const total = groups.reduce((sum, g) => sum + g.length, 0);
  let best = 1;
  let least = Infinity;
  let sum = 0;
  groups.slice(0, -1).forEach((group, i) => {
    sum += group.length;
    const off = Math.abs(2 * sum - total);
    if (off < least) [best, least] = [i + 1, off];
  });
  return [groups.slice(0, best), groups.slice(best)];
}

/** A bar is where a person would cut: sources to it, loads from it. */
const OTHER_THAN_BAR = 0.25;

function bestPart(piece: Piece, ground: Ground): readonly Piece[] | null {
  let best: readonly Piece[] | null = null;
  let least = Infinity;
  for (const part of [...partsIn(piece)].toSorted(byText)) {
    const groups = westFirst(components(piece, part), part, ground);
    if (groups.length < 2) continue;
    const [first, second] = halves(groups);
    const sizes = [first, second].map((list) => list.reduce((sum, g) => sum + g.length, 0));
    const off = Math.abs((sizes[0] ?? 0) - (sizes[1] ?? 0)) / piece.length;
    const bar = ground.subject.parts.get(part)?.symbol.shape === 'bar';
    const score = off + (bar ? 0 : OTHER_THAN_BAR);
    if (score < least) [best, least] = [[first.flat(), second.flat()], score];
  }
  return best;
}

/** What reaches the part from the nose side comes first, then by column. */
function westFirst(groups: readonly Piece[], part: Id, ground: Ground): readonly Piece[] {
  const own = ground.columnOf(part);
  const east = (group: Piece): number => {
    const touching = group.filter((w) => w.from.part === part || w.to.part === part);
    const far = touching.map((w) => ground.columnOf(w.from.part === part ? w.to.part : w.from.part));
    return far.every((column) => column < own) ? 0 : 1;
  };
  return inOrder(groups, ground).toSorted((a, b) => east(a) - east(b));
}

/** No part separates it: wires from nose to tail, parted in the middle third where the fewest parts repeat. */
function byColumn(piece: Piece, ground: Ground): readonly Piece[] {
  const sorted = piece.toSorted(
    (a, b) => meanColumn([a], ground) - meanColumn([b], ground) || byText(a.id, b.id),
  );
  const third = Math.max(1, Math.floor(sorted.length / 3));
  let best = third;
  let least = Infinity;
  for (let i = third; i <= Math.max(third, sorted.length - third); i += 1) {
    const before = partsIn(sorted.slice(0, i));
    const repeated = [...partsIn(sorted.slice(i))].filter((id) => before.has(id)).length;
    if (repeated < least) [best, least] = [i, repeated];
  }
  return [sorted.slice(0, best), sorted.slice(best)];
}

/** Puts pieces together again as long as two of them fit on one page: first those that share the most parts. */
export function packed(pieces: readonly Piece[], ground: Ground): readonly Piece[] {
  const list = [...inOrder(pieces, ground)];
  const refused = new Set<string>();
  const key = (piece: Piece): string => piece.map((w) => w.id).join('\n');
  for (;;) {
    const pair = bestPair(list, ground, (a, b) => refused.has(`${key(a)}\t${key(b)}`));
    if (pair === null) return list;
    const [i, j] = pair;
    const [a = [], b = []] = [list[i], list[j]];
    const union = [...a, ...b].toSorted((x, y) => byText(x.id, y.id));
    if (!ground.fits(union)) {
      refused.add(`${key(a)}\t${key(b)}`);
      continue;
    }
    list.splice(j, 1);
    list[i] = union;
  }
}

function bestPair(
  list: readonly Piece[],
  ground: Ground,
  refused: (a: Piece, b: Piece) => boolean,
): readonly [number, number] | null {
  let best: readonly [number, number] | null = null;
  let most = -Infinity;
  list.forEach((a, i) => {
    const own = partsIn(a);
    list.slice(i + 1).forEach((b, k) => {
      if (refused(a, b)) return;
      const shared = [...partsIn(b)].filter((id) => own.has(id)).length;
      const score = shared - 0.01 * Math.abs(meanColumn(a, ground) - meanColumn(b, ground));
      if (score > most) [best, most] = [[i, i + 1 + k], score];
    });
  });
  return best;
}
