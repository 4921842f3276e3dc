/** Current of other circuits that passes the negative which a charger's input and output share. */
import type { Basis, Check, Id, Judgement, Operation, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import type { Charger } from './support/charger.ts';
import { chargerById, chargers } from './support/charger.ts';
import { borrowedNegativeExample } from './support/examples-negative.ts';
import { settledExample } from './support/examples.ts';
import { atMost, judgement, present, step } from './support/judgement.ts';
import { A, capital, inState, whereWords } from './support/words.ts';
import { whole, worstOf } from './support/worst.ts';

export const chargerNegative: Check = {
  id: 'charger-negative',
  title: "A charger's negative carries only its own current",
  family: 'negative network',
  danger: false,
  statements: TOPICS.negativeNetwork,
  subjects: (op) =>
    chargers(op)
      .filter((c) => c.does.negative === 'common' && c.does.current !== null)
      .map((c) => ({ id: c.part.id, label: c.part.label })),
  judge: (subject, op) => judge(chargerById(op, subject.id), op),
  failing: borrowedNegativeExample,
  passing: settledExample,
};

/** What a unit's negative terminals are built for: the greater of its rated currents. */
function rated(c: Charger): Basis | null {
  const { current, greatestInput } = c.does;
  if (current === null) return null;
  return greatestInput !== null && greatestInput.sourced.value > current.sourced.value
    ? greatestInput
    : current;
}

/** Current that crosses from one port's negative to the other's: what enters the input port and does not leave it. */
const crossing = (s: Solved, c: Charger): number =>
  Math.abs(s.terminalAmps(c.part.id, c.does.inPlus) + s.terminalAmps(c.part.id, c.does.inMinus));

function judge(charger: Charger, op: Operation): Judgement {
  const most = rated(charger);
  const label = capital(charger.part.label);
  const about = [charger.part.id];
  if (most === null) return judgement({ holds: true, says: `${label} has no rated current.`, about });
  const limit = most.sourced.value;
  const worst = worstOf(whole(op), (s) => ({
    margin: limit - crossing(s, charger),
    of: crossing(s, charger),
  }));
  const loose = worstOf(whatIfs(op), (s) => ({
    margin: limit - crossing(s, charger),
    of: crossing(s, charger),
  }));
  const inService = worst !== null && !atMost(worst.of, limit);
  const shown = inService ? worst : (loose ?? worst);
  if (shown === null) return judgement({ holds: true, says: `${label} is in no circuit.`, about });
  const opened = shown.solved.condition.open;
  const holds = atMost(shown.of, limit);
  const when = opened === null ? inState(shown.solved.condition.state) : `once ${opened} is open or loose`;
  return judgement({
    holds,
    ...(inService ? {} : { severity: 'advice' as const }),
    says: () =>
      `Up to ${A(shown.of)} of other circuits passes through ${charger.part.label} from one negative to the other ${when}; its own current is ${A(limit)}.`,
    value: { value: shown.of, unit: 'A' },
    limit: { value: limit, unit: 'A' },
    margin: limit - shown.of,
    worst: shown.solved.id,
    others: shown.others,
    working: () => [
      step('current from negative to negative inside it', whereWords(shown.solved), shown.of, 'A', {
        about: [charger.part.id, ...(opened === null ? [] : [opened])],
      }),
      step('its own greatest current', most.sourced.source, limit, 'A'),
    ],
    restsOn: present([most, charger.does.efficiency]),
    about: [...about, ...(opened === null ? [] : [opened])],
  });
}

/** The house negative opened at its shunt, all loads on, parked and running. */
function whatIfs(op: Operation): readonly Solved[] {
  const shunts: readonly Id[] = [...op.parts.values()]
    .filter((p) => p.ability.measures !== undefined)
    .map((p) => p.id);
  const states = op.states.filter((s) => s.id === 'parked' || s.id === 'driving' || s.id === 'ready');
  return shunts.flatMap((id) =>
    states.flatMap((s) => op.solve(op.condition(s.id, 'typical-busy', op.normalHands, id))),
  );
}
