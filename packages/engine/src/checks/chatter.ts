/** A relay that opens and closes without end because what it switches takes away what holds it. */
import type { Check, Judgement, Operation, Placed, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chatteringExample, steadyRelayExample } from './support/examples-control.ts';
import { judgement, step } from './support/judgement.ts';
import { eventSteps } from './support/event-steps.ts';
import { capital, inState, time } from './support/words.ts';
import { isCycling, whole } from './support/worst.ts';

export const chatter: Check = {
  id: 'chatter',
  title: 'No relay chatters',
  family: 'hunting',
  danger: false,
  statements: TOPICS.hunting,
  subjects: (op) => moved(op).map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no relay ${subject.id}`);
    return judge(part, op);
  },
  failing: chatteringExample,
  passing: steadyRelayExample,
};

/** Contacts that a voltage or a signal moves. */
const moved = (op: Operation): readonly Placed[] =>
  [...op.parts.values()].filter((p) => p.ability.switches?.operatedBy === 'signal');

const MOST_EVENTS = 6;

function judge(part: Placed, op: Operation): Judgement {
  const cycles = whole(op).filter((s) => pulses(s, part.id));
  const label = capital(part.label);
  const first = cycles[0];
  const cycle = first?.cycle ?? null;
  if (first === undefined || cycle === null) {
    return judgement({ holds: true, says: `${label} does not chatter in any condition.`, about: [part.id] });
  }
  return judgement({
    holds: false,
    says: () =>
      `${label} opens and closes without end ${inState(first.condition.state)}, every ${time(cycle.periodMs / 1000)}.`,
    value: { value: cycle.periodMs / 1000, unit: 's' },
    worst: first.id,
    others: new Set(cycles.map((s) => s.id)).size - 1,
    working: () => [
      step('period', 'one cycle', cycle.periodMs / 1000, 's'),
      ...eventSteps(cycle.order, MOST_EVENTS),
    ],
    about: [part.id, ...new Set(cycle.order.map((e) => e.part))],
  });
}

function pulses(s: Solved, id: string): boolean {
  const duty = s.cycle?.duty.get(id) ?? 0;
  return isCycling(s) && duty > 0 && duty < 1;
}
