/** Volts on the enable terminal against the most it bears. */
import type { Check, Judgement, Operation, Remedy } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import type { Charger } from './support/charger.ts';
import { chargerById, chargers } from './support/charger.ts';
import { highSignalExample, settledExample } from './support/examples.ts';
import { judgement, present, step } from './support/judgement.ts';
import { capital, inState, V, whereWords } from './support/words.ts';
import { whole, worstOf } from './support/worst.ts';

export const enableVolts: Check = {
  id: 'enable-volts',
  title: 'Enable input is not given more than it bears',
  family: 'enable',
  danger: false,
  statements: TOPICS.enableVolts,
  subjects: (op) => wiredOnes(op).map((c) => ({ id: c.part.id, label: c.part.label })),
  judge: (subject, op) => judge(chargerById(op, subject.id), op),
  remedies: (subject, op) => remedies(chargerById(op, subject.id)),
  failing: highSignalExample,
  passing: settledExample,
};

const wiredOnes = (op: Operation): readonly Charger[] =>
  chargers(op).filter((c) => {
    const { enable } = c.does;
    return enable !== null && op.wiresAt(`${c.part.id}.${enable.plus}`).length > 0;
  });

function judge(charger: Charger, op: Operation): Judgement {
  const { enable } = charger.does;
  const label = capital(charger.part.label);
  if (enable === null) return judgement({ holds: true, says: `${label} has no enable input.` });
  const most = enable.most.sourced.value;
  const worst = worstOf(whole(op), (s) => {
    const range = s.voltsRange(`${charger.part.id}.${enable.plus}`, `${charger.part.id}.${enable.minus}`);
    if (range === null) return null;
    const volts = Math.max(Math.abs(range[0]), Math.abs(range[1]));
    return { margin: most - volts, of: volts };
  });
  const shared = { restsOn: present([enable.most]), about: [charger.part.id] };
  if (worst === null)
    return judgement({
      holds: true,
      says: `The enable input of ${charger.part.label} floats in every condition.`,
      ...shared,
    });
  const holds = worst.margin >= -1e-9 * most;
  return judgement({
    holds,
    says: () =>
      `The enable input of ${charger.part.label} sees up to ${V(worst.of)}, ${inState(worst.solved.condition.state)}; it bears ${V(most)}.`,
    value: { value: worst.of, unit: 'V' },
    limit: { value: most, unit: 'V' },
    margin: worst.margin,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step('greatest volts at the enable terminal', whereWords(worst.solved), worst.of, 'V'),
      step('most it bears', enable.most.sourced.source, most, 'V'),
    ],
    ...shared,
  });
}

/** Nothing in the wiring of a signal can be guessed; the unit itself can be another one. */
function remedies(charger: Charger): readonly Remedy[] {
  return [
    {
      title: `a charger whose enable input bears 32 V, in place of ${charger.part.label}`,
      changes: [{ set: ['parts', charger.part.id, 'enable-max'], to: '32 V' }],
    },
  ];
}
