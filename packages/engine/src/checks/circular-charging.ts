/** Energy that goes round: a charger that cycles, or runs, from a battery which its own house lifts. */
import type { Check, Judgement, Operation, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import type { Charger } from './support/charger.ts';
import { chargerBases, chargerById, charges, chargers } from './support/charger.ts';
import { settledExample } from './support/examples.ts';
import { circularExample } from './support/examples-energy.ts';
import { feedOf } from './support/feed.ts';
import { judgement, step } from './support/judgement.ts';
import { netAmps, batteries } from './support/no-start.ts';
import { eventSteps } from './support/event-steps.ts';
import { A, capital, inState, listed, time, V } from './support/words.ts';
import { isCycling, whole } from './support/worst.ts';

export const circularCharging: Check = {
  id: 'circular-charging',
  title: 'Energy does not go round in a circle',
  family: 'enable',
  danger: false,
  statements: TOPICS.energyCycle,
  subjects: (op) => chargers(op).map((c) => ({ id: c.part.id, label: c.part.label })),
  judge: (subject, op) => judge(chargerById(op, subject.id), op),
  failing: circularExample,
  passing: settledExample,
};

const MOST_EVENTS = 6;

function judge(charger: Charger, op: Operation): Judgement {
  const label = capital(charger.part.label);
  const round = op.states
    .filter((s) => !s.running)
    .flatMap((facts) => whole(op).filter((s) => s.condition.state === facts.id && goesRound(s, charger, op)));
  const rings = ringOf(charger, op);
  const about = [charger.part.id, ...rings];
  const first = round.find(isCycling) ?? round[0];
  if (first === undefined) {
    return judgement({
      holds: true,
      says: `${label} does not send energy round in a circle.`,
      about: [charger.part.id],
    });
  }
  const input = first.voltsRange(charger.inPlus, charger.inMinus);
  const swing = input === null ? '' : `, its input between ${V(input[0])} and ${V(input[1])}`;
  const pace = first.cycle === null ? 'all the time' : `every ${time(first.cycle.periodMs / 1000)}`;
  return judgement({
    holds: false,
    says: () =>
      `${label} takes back what another source puts into its feed ${inState(first.condition.state)}: it runs ${pace}${swing}${rings.length === 0 ? '' : `; round through ${listed(rings)}`}.`,
    value: { value: first.outAmps(charger.part.id), unit: 'A' },
    limit: { value: 0, unit: 'A' },
    margin: -first.outAmps(charger.part.id),
    worst: first.id,
    others: new Set(round.map((s) => s.id)).size - 1,
    working: () => [
      step('mean output with the engine off', first.id, first.outAmps(charger.part.id), 'A'),
      ...eventSteps(first.cycle?.order ?? [], MOST_EVENTS),
      ...batteries(op).map((b) =>
        step(`mean current of ${b.part.id}`, `${A(netAmps(first, b))} into it`, netAmps(first, b), 'A'),
      ),
    ],
    restsOn: chargerBases(charger),
    about,
  });
}

/** With the engine off: it cycles, or it runs while some other source carries its feed. */
function goesRound(s: Solved, charger: Charger, op: Operation): boolean {
  if (!charges(s, charger)) return false;
  const duty = s.cycle?.duty.get(charger.part.id) ?? 0;
  if (isCycling(s) && duty > 0 && duty < 1 && lifted(s, charger, op)) return true;
  return ringOf(charger, op).some((id) => s.everOn(id)) || lifted(s, charger, op);
}

/** Some house source gives current into the battery that feeds the charger. */
function lifted(s: Solved, charger: Charger, op: Operation): boolean {
  const { feed } = charger;
  if (feed === null) return false;
  return [...op.parts.values()].some((p) => {
    const g = p.ability.generates;
    if (g === undefined || g.role !== 'house-source') return false;
    const at = feedOf(op, `${p.id}.${g.plus}`, `${p.id}.${g.minus}`, 'with');
    return at?.plus === feed.plus && -s.terminalAmps(p.id, g.plus) > 0.1;
  });
}

/** Other converters that lead from what this one charges back to what feeds it. */
function ringOf(charger: Charger, op: Operation): readonly string[] {
  const bank = feedOf(op, charger.outPlus, charger.outMinus, 'with');
  return chargers(op)
    .filter((o) => o !== charger && o.feed !== null && o.feed.plus === bank?.plus)
    .filter((o) => feedOf(op, o.outPlus, o.outMinus, 'with')?.plus === charger.feed?.plus)
    .map((o) => o.part.id);
}
