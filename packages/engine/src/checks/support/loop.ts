/** The loop between a charger and what feeds it. */
import type { Basis, Id, Operation, Solved, Step } from '../../contracts/index.ts';
import type { Charger } from './charger.ts';
import { loopHops, loopSteps, lostPast, wayBases, wayOhms, wiresOf } from './feed.ts';

export const feedOhms = (s: Solved, c: Charger): number =>
  c.feed === null ? 0 : wayOhms(s, loopHops(c.feed));

/** Volts lost in diodes on the way, besides its resistance. */
export const feedLost = (s: Solved, c: Charger): number =>
  c.feed === null ? 0 : lostPast(s, loopHops(c.feed));

export const feedSteps = (s: Solved, c: Charger): readonly Step[] =>
  c.feed === null ? [] : loopSteps(s, c.feed);

export const loopWires = (c: Charger): readonly Id[] => (c.feed === null ? [] : wiresOf(loopHops(c.feed)));

export const feedBases = (op: Operation, c: Charger): readonly Basis[] =>
  c.feed === null ? [] : wayBases(op, loopHops(c.feed));
