/** Diodes on a way: how they are named where volts are lost in them, and what loses less. */
import type { Id, Operation, Remedy, Solved } from '../../contracts/index.ts';
import { loopHops, lostPast, type Feed } from './feed.ts';
import { valvesOn } from './net.ts';
import { listed, V } from './words.ts';

/** Across transistors that are switched as a diode, V (common practice 0.02 to 0.1 V). */
const SWITCHED_V = 0.05;

/** Diodes that the current of a loop passes. */
export const diodesOf = (feed: Feed): readonly Id[] => valvesOn(loopHops(feed));

/** Less current than this is none, A. */
const LEAST_AMPS = 1e-3;

/** Whether all diodes conduct: past one that blocks nothing is fed, whatever the volts on its two sides. */
export const conduct = (solved: Solved, diodes: readonly Id[]): boolean =>
  diodes.every((id) => Math.abs(solved.partAmps(id, 0)) > LEAST_AMPS);

/** ", 0.70 V of it in d1"; empty without a diode. */
export function lostWords(solved: Solved, feed: Feed): string {
  const diodes = diodesOf(feed);
  return diodes.length === 0 ? '' : `, ${V(lostPast(solved, loopHops(feed)))} of it in ${listed(diodes)}`;
}

/** Volts that diodes lose where they conduct, as stated. */
export const forwardVolts = (op: Operation, diodes: readonly Id[]): number =>
  diodes.reduce((sum, id) => sum + (op.parts.get(id)?.ability.forward?.sourced.value ?? 0), 0);

/** Transistors in place of the junctions. */
export function lowLoss(op: Operation, diodes: readonly Id[]): readonly Remedy[] {
  const lossy = [...new Set(diodes)].filter(
    (id) => (op.parts.get(id)?.ability.forward?.sourced.value ?? 0) > SWITCHED_V,
  );
  if (lossy.length === 0) return [];
  return [
    {
      title: `switched transistors, which lose ${V(SWITCHED_V)}, or a relay, in place of ${listed(lossy)}`,
      changes: lossy.map((id) => ({ set: ['parts', id, 'drop'], to: `${SWITCHED_V} V` })),
    },
  ];
}
