/** Vehicle batteries in series: each 12 V block against the voltage at which it gasses. */
import type { Check, Id, Judgement, Operation, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { halfLoadedExample, pairExample } from './support/examples-energy.ts';
import { judgement, present, step } from './support/judgement.ts';
import { stacksOf } from './support/conductors.ts';
import { nominalOf } from './support/feed.ts';
import type { Battery } from './support/no-start.ts';
import { batteries, batteryById, netAmps } from './support/no-start.ts';
import { A, capital, inState, V, whereWords } from './support/words.ts';
import { whole, worstOf } from './support/worst.ts';

export const batteryOverVolts: Check = {
  id: 'battery-over-volts',
  title: 'No battery of a series stack is overcharged',
  family: 'charge',
  danger: false,
  statements: TOPICS.chargingVoltage,
  subjects: (op) => stacked(op).map((b) => ({ id: b.part.id, label: b.part.label })),
  judge: (subject, op) => judge(batteryById(op, subject.id), op),
  failing: halfLoadedExample,
  passing: pairExample,
};

/** A 12 V lead block gasses above it, V (bulletins of battery makers). */
const MOST_PER_BLOCK = 15;

function stacked(op: Operation): readonly Battery[] {
  const inSeries = new Set<Id>(
    stacksOf(op)
      .filter((group) => group.length > 1)
      .flat(),
  );
  return batteries(op, 'vehicle').filter((b) => inSeries.has(b.part.id));
}

/**
 * While one current passes all of the stack and all take all they can, how they share the volts follows from nothing that is
 * known: like batteries share alike. null: something is fed from the middle.
 */
function shared(op: Operation, s: Solved, mates: readonly Id[], battery: Battery): number | null {
  const stack = mates.map((id) => batteryById(op, id));
  const amps = stack.map((b) => netAmps(s, b));
  const own = netAmps(s, battery);
  if (amps.some((a) => Math.abs(a - own) > 0.01 * Math.max(Math.abs(own), 0.1))) return null;
  return stack.reduce((sum, b) => sum + (s.voltsRange(b.plus, b.minus)?.[1] ?? 0), 0) / stack.length;
}

function judge(battery: Battery, op: Operation): Judgement {
  const { part } = battery;
  const mates = stacksOf(op).find((group) => group.includes(part.id)) ?? [part.id];
  const blocks = Math.max(1, Math.round(nominalOf(op, 'vehicle') / mates.length / 12));
  const most = MOST_PER_BLOCK * blocks;
  const worst = worstOf(whole(op), (s) => {
    const volts = shared(op, s, mates, battery) ?? s.voltsRange(battery.plus, battery.minus)?.[1];
    // Only what charges it harms it.
    return volts === undefined || netAmps(s, battery) < 0
      ? null
      : { margin: most - volts, of: { volts, amps: netAmps(s, battery) } };
  });
  const about = [...mates];
  const label = capital(part.label);
  if (worst === null)
    return judgement({ holds: true, says: `${label} is not charged in any condition.`, about });
  const holds = worst.margin >= -1e-9;
  return judgement({
    holds,
    says: () =>
      `${label}, one of ${mates.length} in series, is charged at up to ${V(worst.of.volts)} ${inState(worst.solved.condition.state)}; ${V(most)} is the most.`,
    value: { value: worst.of.volts, unit: 'V' },
    limit: { value: most, unit: 'V' },
    margin: worst.margin,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step(
        `volts across ${part.id}`,
        `${whereWords(worst.solved)}, charged with ${A(worst.of.amps)}`,
        worst.of.volts,
        'V',
      ),
      step('most', `${blocks} × ${V(MOST_PER_BLOCK)}`, most, 'V'),
    ],
    restsOn: present([battery.stores.capacity]),
    about,
  });
}
