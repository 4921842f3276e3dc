/** Changes to a charger that several checks offer. */
import type { Operation, Remedy } from '../../contracts/index.ts';
import type { Charger } from './charger.ts';
import { nominalOf } from './feed.ts';

/** Thresholds of a unit with a run signal, per 12 V (one maker's manual). */
const SIGNAL_STARTS = 12.3;
const SIGNAL_STOPS = 12;

/** Started by its run signal in place of its input voltage; only where a wire for the signal is there. */
export function signalMode(c: Charger, op: Operation): readonly Remedy[] {
  const { enable, mode } = c.does;
  if (mode !== 'voltage' || enable === null || op.wiresAt(`${c.part.id}.${enable.plus}`).length === 0)
    return [];
  const blocks = nominalOf(op, c.does.inputSystem) / 12;
  const at = (volts: number, seconds: number): string => `${volts * blocks} V after ${seconds} s`;
  return [
    {
      title: `start ${c.part.label} by its run signal, at ${SIGNAL_STARTS * blocks} V, instead of by voltage`,
      changes: [
        { set: ['parts', c.part.id, 'enable'], to: 'signal' },
        { set: ['parts', c.part.id, 'starts'], to: at(SIGNAL_STARTS, 15) },
        { set: ['parts', c.part.id, 'stops'], to: at(SIGNAL_STOPS, 5) },
      ],
    },
  ];
}

/** Less output: three quarters, half, a third, in steps of 5 A. */
export function smallerOutput(c: Charger, more: readonly number[] = []): readonly Remedy[] {
  const rated = c.does.current?.sourced.value ?? 0;
  const offers = [...more, rated * 0.75, rated * 0.5, rated * 0.34].map((a) => Math.floor(a / 5) * 5);
  return [...new Set(offers.filter((a) => a >= 5 && a < rated))]
    .toSorted((a, b) => b - a)
    .map((amps) => ({
      title: `limit ${c.part.label} to ${amps} A`,
      changes: [{ set: ['parts', c.part.id, 'current'], to: `${amps} A` }],
    }));
}
