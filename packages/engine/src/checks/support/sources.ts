/** Everything that can feed a fault: batteries, generators, converter outputs, supply points. */
import type { Basis, Id, Need, Operation, Placed, TerminalRef } from '../../contracts/index.ts';
import { perOperation } from './memo.ts';
import { partNeed } from './figures-needed.ts';
import { sitsAtPosts } from './conductors.ts';
import { refOf } from './refs.ts';

export interface Source {
  readonly part: Id;
  readonly label: string;
  readonly terminal: TerminalRef;
  /** Nothing in it limits the current: a battery. */
  readonly stiff: boolean;
  /** The most that it gives by itself, A; null: no limit of its own is known. */
  readonly limit: Basis | null;
  /** Rating of a fuse that already stands before its terminal, A. */
  readonly upstreamFuse: Basis | null;
  /** What would have to be known to say how it is limited. */
  readonly missing: Need | null;
  /** It has no wire of its own: the vehicle battery's posts speak for it. */
  readonly atPosts: boolean;
}

/** All source terminals in the order of the parts. */
export const sourcesOf: (op: Operation) => readonly Source[] = perOperation((op) =>
  [...op.parts.values()].flatMap((part) => [
    ...battery(part),
    ...generator(op, part),
    ...converter(part),
    ...supplyPoint(part),
  ]),
);

function source(part: Placed, terminal: string, rest: Partial<Source>): Source {
  return {
    part: part.id,
    label: part.label,
    terminal: refOf(part.id, terminal),
    stiff: false,
    limit: null,
    upstreamFuse: null,
    missing: null,
    atPosts: false,
    ...rest,
  };
}

function battery(part: Placed): readonly Source[] {
  const s = part.ability.stores;
  return s === undefined ? [] : [source(part, s.plus, { stiff: true })];
}

/** An alternator, panel or mains charger never gives more than its greatest output. */
function generator(op: Operation, part: Placed): readonly Source[] {
  const g = part.ability.generates;
  if (g === undefined) return [];
  const limit = greatestLimit(op, part);
  return [
    source(part, g.plus, {
      limit,
      missing:
        limit === null
          ? partNeed(part.id, 'output', 'what the source can give into a fault is not known')
          : null,
      atPosts: sitsAtPosts(op, part),
    }),
  ];
}

function greatestLimit(op: Operation, part: Placed): Basis | null {
  let most: Basis | null = null;
  for (const state of op.states) {
    for (const corner of op.corners) {
      const limit = part.ability.generates?.limit(state, corner) ?? null;
      if (limit !== null && (most === null || limit.sourced.value > most.sourced.value)) most = limit;
    }
  }
  return most;
}

/** A converter's output gives its rated current at most; the input only when the unit works both ways. */
function converter(part: Placed): readonly Source[] {
  const c = part.ability.converts;
  if (c === undefined) return [];
  const why = 'the current that its output can give into a fault is not known';
  const out = source(part, c.outPlus, {
    limit: c.current,
    missing: c.current === null ? partNeed(part.id, 'current', why) : null,
  });
  if (!c.twoWay) return [out];
  const back = c.inputLimit ?? c.greatestInput;
  const back2 = source(part, c.inPlus, {
    limit: back,
    missing:
      back === null ? partNeed(part.id, 'input-limit', 'a two-way unit feeds its input side too') : null,
  });
  return [out, back2];
}

function supplyPoint(part: Placed): readonly Source[] {
  const s = part.ability.signals;
  if (s === undefined) return [];
  const limited = s.selfLimiting && s.limit !== null;
  const known = limited || s.upstreamFuse !== null;
  return [
    source(part, s.out, {
      limit: limited ? s.limit : null,
      upstreamFuse: limited ? null : s.upstreamFuse,
      missing: known
        ? null
        : partNeed(
            part.id,
            'upstream-fuse',
            'whether the vehicle fuses or limits this supply point is not known',
          ),
    }),
  ];
}

/** What the source can give at its terminal at the most, A: Infinity for a battery or an unknown. */
export const mostFrom = (s: Source): number =>
  s.limit?.sourced.value ?? s.upstreamFuse?.sourced.value ?? Number.POSITIVE_INFINITY;
