/** What is drawn from a terminal of the vehicle against what may be drawn from it. */
import type { Check, Judgement, Operation, Placed } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { settledExample } from './support/examples.ts';
import { overdrawnExample } from './support/examples-energy.ts';
import { absent, atMost, judgement, missing, step } from './support/judgement.ts';
import { A, capital, inState, whereWords } from './support/words.ts';
import { whole, worstOf } from './support/worst.ts';

export const supplyPointLimit: Check = {
  id: 'supply-point-limit',
  title: 'No terminal of the vehicle gives more than it may',
  family: 'supply point',
  danger: true,
  statements: TOPICS.supplyPoint,
  subjects: (op) => points(op).map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const point = points(op).find((p) => p.id === subject.id);
    if (point === undefined) throw new Error(`no supply point ${subject.id}`);
    return judge(point, op);
  },
  failing: overdrawnExample,
  passing: settledExample,
};

const points = (op: Operation): readonly Placed[] =>
  [...op.parts.values()].filter((p) => {
    const { signals } = p.ability;
    return signals !== undefined && op.wiresAt(`${p.id}.${signals.out}`).length > 0;
  });

function judge(point: Placed, op: Operation): Judgement {
  const { signals } = point.ability;
  if (signals === undefined) throw new Error(`${point.id} is no supply point`);
  const label = capital(point.label);
  const worst = worstOf(whole(op), (s) => {
    const amps = -s.terminalAmps(point.id, signals.out);
    return { margin: -amps, of: amps };
  });
  const drawn = Math.max(worst?.of ?? 0, 0);
  const where = worst === null ? null : worst.solved;
  const steps = where === null ? [] : [step(`drawn from ${point.id}`, whereWords(where), drawn, 'A')];
  const { limit } = signals;
  if (limit === null) {
    const basis = absent(
      `parts.${point.id}.limit`,
      `what may be drawn from ${point.label}`,
      "read it in the vehicle maker's body-builder manual",
      'A',
    );
    return missing(
      `${A(drawn)} is drawn from ${point.label}; what may be drawn is not given.`,
      [{ basis, why: `${A(drawn)} is drawn from it` }],
      { value: { value: drawn, unit: 'A' }, worst: where?.id ?? null, working: steps, about: [point.id] },
    );
  }
  const most = limit.sourced.value;
  // A source that limits itself gives no more than its limit; at it its voltage gives way.
  const collapsed = signals.selfLimiting && drawn >= most * (1 - 1e-6) && drawn > 0;
  const holds = atMost(drawn, most) && !collapsed;
  const state = where === null ? '' : ` ${inState(where.condition.state)}`;
  return judgement({
    holds,
    says: () =>
      collapsed
        ? `${label} is at its limit of ${A(most)}${state}: its voltage gives way, and what hangs on it may not work.`
        : `Up to ${A(drawn)} is drawn from ${point.label}${drawn > 0 ? state : ''}; ${A(most)} may be.`,
    value: { value: drawn, unit: 'A' },
    limit: { value: most, unit: 'A' },
    margin: most - drawn,
    worst: where?.id ?? null,
    others: 0,
    working: () => [...steps, step('may be drawn', limit.sourced.source, most, 'A')],
    limits: [limit],
    about: [point.id],
  });
}
