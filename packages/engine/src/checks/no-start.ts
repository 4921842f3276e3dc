/** How long each state may last before the vehicle battery no longer starts the engine. */
import type { Check, Judgement, Operation, StateFacts, Subject } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { keyOnExample, settledExample } from './support/examples.ts';
import { judgement, missing, absent } from './support/judgement.ts';
import type { Battery } from './support/no-start.ts';
import {
  batteries,
  batteryById,
  dischargeBases,
  dischargeSteps,
  netAmps,
  shortest,
  vehicleLoadOf,
} from './support/no-start.ts';
import { A, Ah, capital, inState, time, until } from './support/words.ts';
import { whole } from './support/worst.ts';

export const noStart: Check = {
  id: 'no-start',
  title: 'The vehicle still starts after each state',
  family: 'time to no-start',
  danger: true,
  statements: TOPICS.noStart,
  subjects,
  judge(subject, op) {
    const [id = '', state] = subject.id.split('/');
    const battery = batteryById(op, id);
    if (battery.stores.noStartReserve === null) return withoutReserve(battery);
    const facts = op.states.find((s) => s.id === state);
    if (facts === undefined) throw new Error(`no state ${state ?? ''}`);
    return judge(battery, facts, op);
  },
  failing: keyOnExample,
  passing: settledExample,
};

/**
 * One finding per state; one for all of them where the reserve is not known: the same figure is missing in each. Parked and
 * stored are the standing drain's.
 */
function subjects(op: Operation): readonly Subject[] {
  const states = op.states.filter((s) => s.id !== 'parked' && s.id !== 'stored');
  return batteries(op, 'vehicle').flatMap(({ part, stores }) =>
    stores.noStartReserve === null
      ? [{ id: part.id, label: part.label }].slice(0, states.length)
      : states.map((s) => ({ id: `${part.id}/${s.id}`, label: `${part.label}, ${s.label}` })),
  );
}

function withoutReserve({ part }: Battery): Judgement {
  const basis = absent(
    `parts.${part.id}.capacity`,
    `capacity of ${part.label}`,
    'read it on the battery',
    'Ah',
  );
  return missing(
    `How long ${part.label} lasts cannot be said in any state without its capacity.`,
    [{ basis, why: 'the reserve for a start is a share of it' }],
    { about: [part.id] },
  );
}

function judge(battery: Battery, facts: StateFacts, op: Operation): Judgement {
  const label = capital(battery.part.label);
  const about = [battery.part.id];
  const found = shortest(op, battery, facts.id);
  const lasts = facts.lasts.sourced.value;
  const limit = { value: lasts, unit: 's' };
  if (found === null) return judgement({ holds: true, ...undrawn(battery, facts, op), limit, about });
  const holds = found.seconds >= lasts;
  const amps = `${A(found.amps)} drawn from ${battery.part.label}`;
  return judgement({
    holds,
    says: () =>
      holds
        ? `${label} starts the engine for ${until(found.seconds)} ${inState(facts.id)} (${amps}); the state lasts ${time(lasts)}.`
        : `${label} no longer starts the engine after ${until(found.seconds)} ${inState(facts.id)}: ${amps}, ${Ah(found.reserve.sourced.value)} to spare; the state lasts ${time(lasts)}.`,
    value: { value: found.seconds, unit: 's' },
    limit,
    margin: found.seconds - lasts,
    worst: found.solved.id,
    others: 0,
    working: () => [
      ...dischargeSteps(found, battery),
      { what: 'the state lasts', how: facts.lasts.sourced.source, value: lasts, unit: 's' },
    ],
    restsOn: [...dischargeBases(op, found), facts.lasts],
    about: [...about],
  });
}

function undrawn(
  battery: Battery,
  facts: StateFacts,
  op: Operation,
): Pick<Judgement, 'says' | 'value' | 'restsOn'> {
  const amps = whole(op)
    .filter((s) => s.condition.state === facts.id)
    .map((s) => netAmps(s, battery));
  const least = Math.min(...amps, Number.POSITIVE_INFINITY);
  const supply = facts.supply === 'off' ? '' : '; the supply is not at its limit';
  const says =
    Number.isFinite(least) && least >= 0
      ? `${capital(battery.part.label)} is not drawn on ${inState(facts.id)}${supply}.`
      : `${capital(battery.part.label)} only settles to the set point ${inState(facts.id)}${supply}.`;
  return {
    says,
    value: { value: null, unit: 's', words: 'not drawn on' },
    restsOn: [vehicleLoadOf(op, facts)],
  };
}
