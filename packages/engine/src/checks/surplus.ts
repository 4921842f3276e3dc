/** Whether the vehicle's supply carries the vehicle and the charger in every running state. */
import type { Basis, Check, Judgement, Operation, Placed, StateFacts } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { smallerOutput } from './support/charger-remedies.ts';
import { idleOverloadExample, settledExample } from './support/examples.ts';
import { absent, judgement, missing, present, step, type Said } from './support/judgement.ts';
import type { Discharge } from './support/no-start.ts';
import { batteries, dischargeSteps, shortest, vehicleLoadOf } from './support/no-start.ts';
import type { Draw } from './support/surplus.ts';
import { chargerDraws, loadDraws, supplies, suppliesIn } from './support/surplus.ts';
import { runningStates, vehicleFed } from './support/charger.ts';
import { chargerNeeds } from './support/needs.ts';
import { A, Ah, capital, inState, listed, percent, time, until } from './support/words.ts';
import { leastBy } from './support/worst.ts';

export const surplus: Check = {
  id: 'surplus',
  title: 'The vehicle supply carries vehicle and charger',
  family: 'surplus',
  danger: false,
  statements: TOPICS.supplySurplus,
  subjects: (op) =>
    supplies(op).length === 0 ? [] : runningStates(op).map((s) => ({ id: s.id, label: s.label })),
  judge(subject, op) {
    const facts = op.states.find((s) => s.id === subject.id);
    if (facts === undefined) throw new Error(`no state ${subject.id}`);
    return judge(facts, op);
  },
  remedies: (_subject, op) => vehicleFed(op).flatMap((c) => smallerOutput(c)),
  failing: idleOverloadExample,
  passing: settledExample,
};

/** Longer than this a supply may not stand at its limit, s. */
const LONG_S = 15 * 60;
/** Share of the hot output that a supply gives for long without harm (common practice). */
const HIGH_SHARE = 0.8;

function judge(facts: StateFacts, op: Operation): Judgement {
  const found = working(facts, op);
  if (found === null) return unlimited(suppliesIn(op, facts)[0] ?? supplies(op)[0], facts);
  const { supply, limit } = found;
  const needs = vehicleFed(op).flatMap(chargerNeeds);
  if (needs.length > 0) {
    return missing(
      `What the supply has left ${inState(facts.id)} cannot be said: ${listed(needs.map((n) => n.basis.label))} not given.`,
      needs,
      { about: [supply.id] },
    );
  }
  const draws = [...chargerDraws(op, facts), ...loadDraws(op)];
  const own = vehicleLoadOf(op, facts);
  const added = draws.reduce((sum, d) => sum + d.amps, 0);
  const total = own.sourced.value + added;
  const left = limit.sourced.value - total;
  const share = total / limit.sourced.value;
  const deficit = left < 0 ? worstDischarge(op, facts) : null;
  const shared = {
    value: { value: left, unit: 'A' },
    limit: { value: 0, unit: 'A' },
    margin: left,
    worst: deficit?.solved.id ?? op.conditionId(op.condition(facts.id, 'weak')),
    working: () => [...steps(supply, limit, own, draws, left), ...(deficit === null ? [] : deficit.steps)],
    restsOn: () =>
      present([limit, own, facts.lasts, ...draws.flatMap((d) => d.bases), ...chargerValues(draws)]),
    about: [supply.id, ...draws.map((d) => d.part.id)],
  };
  const sum = (): string =>
    `${A(limit.sourced.value)} hot, ${A(own.sourced.value)} for the vehicle, ${A(added)} for what was added`;
  if (left < 0) return short(facts, left, sum, deficit?.discharge ?? null, shared);
  if (added > 0 && share > HIGH_SHARE && facts.lasts.sourced.value > LONG_S) {
    return judgement({
      ...shared,
      holds: true,
      note: 'advice',
      says: () =>
        `The supply works at ${percent(share)} of its hot output ${inState(facts.id)}, which lasts ${time(facts.lasts.sourced.value)} (${sum()}); over ${percent(HIGH_SHARE)} for long ages it.`,
    });
  }
  return judgement({ ...shared, holds: true, says: () => `${A(left)} left ${inState(facts.id)}: ${sum()}.` });
}

/** The supply that works in this state, with what it can give hot. */
function working(
  facts: StateFacts,
  op: Operation,
): { readonly supply: Placed; readonly limit: Basis } | null {
  const corner = op.corners.find((c) => c.id === 'weak');
  for (const supply of supplies(op)) {
    const limit = corner === undefined ? null : (supply.ability.generates?.limit(facts, corner) ?? null);
    if (limit !== null) return { supply, limit };
  }
  return null;
}

function short(
  facts: StateFacts,
  left: number,
  sum: () => string,
  discharge: Discharge | null,
  shared: Omit<Said, 'holds' | 'says' | 'limits' | 'missing' | 'others'>,
): Judgement {
  const lasts = facts.lasts.sourced.value;
  const driving = facts.speed === 'road';
  const flat = discharge !== null && discharge.seconds < lasts;
  const start = (): string =>
    discharge === null
      ? ''
      : `; the battery gives ${Ah(discharge.amps)} per hour, ${until(discharge.seconds)} to no-start`;
  return judgement({
    ...shared,
    holds: false,
    severity: flat ? 'danger' : driving ? 'fault' : 'advice',
    says: () => `${A(-left)} short ${inState(facts.id)}: ${sum()}${start()}; the state lasts ${time(lasts)}.`,
  });
}

function worstDischarge(
  op: Operation,
  facts: StateFacts,
): {
  readonly solved: { readonly id: string };
  readonly discharge: Discharge;
  readonly steps: ReturnType<typeof dischargeSteps>;
} | null {
  const drained = batteries(op, 'vehicle').flatMap((battery) => {
    const discharge = shortest(op, battery, facts.id);
    return discharge === null ? [] : [{ battery, discharge }];
  });
  const found = leastBy(drained, (d) => d.discharge.seconds);
  if (found === null) return null;
  return {
    solved: found.discharge.solved,
    discharge: found.discharge,
    steps: dischargeSteps(found.discharge, found.battery),
  };
}

function steps(
  supply: Placed,
  limit: Basis,
  own: Basis,
  draws: readonly Draw[],
  left: number,
): Judgement['working'] {
  return [
    step('supply can give, hot', limit.sourced.source, limit.sourced.value, 'A', { about: [supply.id] }),
    step('vehicle takes', own.sourced.source, own.sourced.value, 'A'),
    ...draws.map((d) => step(`taken by ${d.part.id}`, d.how, d.amps, 'A', { about: [d.part.id] })),
    step(
      'left',
      [A(limit.sourced.value), A(own.sourced.value), ...draws.map((d) => A(d.amps))].join(' − '),
      left,
      'A',
    ),
  ];
}

const chargerValues = (draws: readonly Draw[]): readonly (Basis | null | undefined)[] =>
  draws.flatMap((d) => [
    d.part.ability.converts?.current,
    d.part.ability.converts?.efficiency,
    d.part.ability.converts?.setVolts,
  ]);

/** No figure: nothing can be added to a supply that nobody knows. */
function unlimited(supply: Placed | undefined, facts: StateFacts): Judgement {
  const id = supply?.id ?? 'vehicle';
  const basis = absent(
    `parts.${id}.limit`,
    `what ${supply?.label ?? 'the supply'} can give`,
    "the maker's stated limit for added loads",
    'A',
  );
  return missing(
    `What the supply has left ${inState(facts.id)} cannot be said: no limit is given.`,
    [{ basis, why: `${capital(facts.label)}: no feed without the maker's figure` }],
    { about: [id], worst: null },
  );
}
