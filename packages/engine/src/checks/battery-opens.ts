/** A battery whose own protection opens on over-voltage: what drives it there loses its load at once. */
import type { Basis, Check, Judgement, Operation, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { joinedLowExample, overrunExample } from './support/examples-energy.ts';
import { judgement, present, step } from './support/judgement.ts';
import { netOf, reach, refOf } from './support/net.ts';
import type { Battery } from './support/no-start.ts';
import { batteries, batteryById } from './support/no-start.ts';
import { capital, inState, listed, V, whereWords } from './support/words.ts';
import { whole, worstOf } from './support/worst.ts';

export const batteryOpens: Check = {
  id: 'battery-opens',
  title: 'No state drives a battery into opening itself',
  family: 'charge',
  danger: false,
  statements: TOPICS.chargingVoltage,
  subjects: (op) =>
    batteries(op)
      .filter((b) => limitOf(b) !== null)
      .map((b) => ({ id: b.part.id, label: b.part.label })),
  judge: (subject, op) => judge(batteryById(op, subject.id), op),
  failing: overrunExample,
  passing: joinedLowExample,
};

const limitOf = (b: Battery): Basis | null => b.stores.opens?.bothAbove ?? null;

function judge(battery: Battery, op: Operation): Judgement {
  const limit = limitOf(battery);
  const label = capital(battery.part.label);
  const about = [battery.part.id];
  if (limit === null)
    return judgement({ holds: true, says: `${label} does not open on over-voltage.`, about });
  const most = limit.sourced.value;
  const worst = worstOf(whole(op), (s) => {
    // The weak corner holds the bank at the charger's set voltage: no solved voltage.
    if (op.corners.find((c) => c.id === s.condition.corner)?.ratedOutput !== false) return null;
    const own = s.voltsRange(battery.plus, battery.minus)?.[1];
    if (own === undefined) return null;
    const volts = Math.max(own, whenFull(battery, op, s));
    return { margin: most - volts, of: volts };
  });
  if (worst === null) return judgement({ holds: true, says: `${label} is in no circuit.`, about });
  const sources = sourcesOn(battery, op);
  const holds = worst.margin >= -1e-9 * most;
  const state = inState(worst.solved.condition.state);
  return judgement({
    holds,
    says: holds
      ? `${label} sees up to ${V(worst.of)} ${state}; it opens above ${V(most)}.`
      : `${label} sees up to ${V(worst.of)} ${state} and opens above ${V(most)}: ${sources.length === 0 ? 'what charges it' : listed(sources)} then works on the rest of the net alone, and its voltage jumps.`,
    value: { value: worst.of, unit: 'V' },
    limit: { value: most, unit: 'V' },
    margin: worst.margin,
    worst: worst.solved.id,
    others: worst.others,
    working: [
      step('greatest volts at its posts, once it is full', whereWords(worst.solved), worst.of, 'V'),
      step('its protection opens above', limit.sourced.source, most, 'V', { about }),
    ],
    restsOn: present([limit]),
    about: [...about, ...sources],
  });
}

/** Once it is full it takes nothing more, and stands at what its sources hold: the vehicle's posts, a charger's set voltage. */
function whenFull(battery: Battery, op: Operation, s: Solved): number {
  const closed = reach(
    netOf(op),
    battery.plus,
    (link) => link.type !== 'contact' || Math.abs(s.volts(link.a, link.b) ?? 99) < CLOSED_V,
  );
  let most = 0;
  for (const p of op.parts.values()) {
    const { generates, converts } = p.ability;
    if (generates !== undefined && closed.has(refOf(p.id, generates.plus))) {
      const now = s.voltsRange(refOf(p.id, generates.plus), refOf(p.id, generates.minus))?.[1] ?? 0;
      most = Math.max(most, now, atLimit(s, p.id) ? setPoint(op, s) : 0);
    }
    if (converts !== undefined && s.isOn(p.id) && closed.has(refOf(p.id, converts.outPlus))) {
      most = Math.max(most, converts.setVolts.sourced.value);
    }
  }
  return most;
}

const atLimit = (s: Solved, id: string): boolean => s.regime(id, 0) === 'greatest';

/** What a supply at its limit goes up to once less is taken, V; 0 where nobody measured it. */
const setPoint = (op: Operation, s: Solved): number =>
  op.windows().find((w) => w.state === s.condition.state)?.envelope[1] ??
  op.stateFacts(s.condition.state)?.posts.max?.sourced.value ??
  0;

/** Less than this stands across a closed contact, V. */
const CLOSED_V = 0.5;

/** Supplies joined to its plus by conductors and contacts. */
function sourcesOn(battery: Battery, op: Operation): readonly string[] {
  const reached = reach(netOf(op), battery.plus);
  return [...op.parts.values()]
    .filter((p) => {
      const { generates, converts } = p.ability;
      const at = generates?.plus ?? converts?.outPlus;
      return at !== undefined && reached.has(refOf(p.id, at));
    })
    .map((p) => p.id);
}
