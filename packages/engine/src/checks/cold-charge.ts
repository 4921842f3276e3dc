/** Lithium cells charged in frost. */
import type { Check, Judgement, Operation, Placed, Remedy } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chargers, runningStates } from './support/charger.ts';
import { settledExample } from './support/examples.ts';
import { frostExample } from './support/examples-energy.ts';
import { partNeed } from './support/figures-needed.ts';
import { judgement, missing, present, step } from './support/judgement.ts';
import { netOf, reachPast, refOf, type Passes } from './support/net.ts';
import type { Battery } from './support/no-start.ts';
import { batteries, batteryById } from './support/no-start.ts';
import { capital, degrees } from './support/words.ts';

export const coldCharge: Check = {
  id: 'cold-charge',
  title: 'Lithium cells are not charged in frost',
  family: 'charge',
  danger: true,
  statements: TOPICS.coldCharge,
  subjects: (op) =>
    batteries(op)
      .filter((b) => b.stores.chargeLowest !== null)
      .map((b) => ({ id: b.part.id, label: b.part.label })),
  judge: (subject, op) => judge(batteryById(op, subject.id), op),
  remedies: (subject, op, judged) => remedies(batteryById(op, subject.id), judged),
  failing: frostExample,
  passing: settledExample,
};

function judge(battery: Battery, op: Operation): Judgement {
  const { part, stores } = battery;
  const lowest = stores.chargeLowest;
  const corner = op.corners.find((c) => c.air === 'coldest');
  if (lowest === null || corner === undefined)
    return judgement({ holds: true, says: `${capital(part.label)} may be charged in frost.` });
  const air = op.air(part.at, corner);
  const [coldest, least] = [air.sourced.value, lowest.sourced.value];
  const label = capital(part.label);
  const place = part.at === null ? 'its place' : part.at;
  const shared = {
    value: { value: coldest, unit: '°C' },
    limit: { value: least, unit: '°C' },
    margin: coldest - least,
    working: [
      step(`coldest air at ${place}`, air.sourced.source, coldest, '°C'),
      step('lowest cell temperature for charging', lowest.sourced.source, least, '°C', { about: [part.id] }),
    ],
    restsOn: present([air, lowest]),
    about: [part.id, ...(part.at === null ? [] : [part.at])],
  };
  if (!charged(battery, op, () => true))
    return judgement({
      ...shared,
      holds: true,
      says: `Nothing charges ${part.label} while the engine runs.`,
    });
  if (coldest < least && stores.chemistry === null && !stores.guardedInFrost)
    return missing(
      `${label} may be as cold as ${degrees(coldest)}; whether it may be charged then depends on its chemistry, which is not given.`,
      [partNeed(part.id, 'chemistry', 'lithium cells must not be charged in frost')],
      shared,
    );
  if (coldest >= least) {
    return judgement({
      ...shared,
      holds: true,
      says: () =>
        `${label} is never colder than ${degrees(coldest)}; it may be charged from ${degrees(least)}.`,
    });
  }
  const guards = guardsOf(battery, op, coldest, least);
  if (guards.length > 0) {
    const names = guards.map((guard) => guard.label).join(', ');
    return judgement({
      ...shared,
      holds: true,
      note: 'advice',
      says: () =>
        `${label} may be as cold as ${degrees(coldest)}; ${names} blocks what would charge it: 0 Ah per hour in frost until it is warm.`,
      restsOn: [
        ...shared.restsOn,
        ...present(guards.map((guard) => guard.ability.guards?.chargeBelow ?? null)),
      ],
      about: [...shared.about, ...guards.map((guard) => guard.id)],
    });
  }
  if (stores.guardedInFrost) {
    return judgement({
      ...shared,
      holds: true,
      note: 'advice',
      says: () =>
        `${label} may be as cold as ${degrees(coldest)}; its protection or heater guards it: 0 Ah per hour in frost until the cells are warm.`,
    });
  }
  return judgement({
    ...shared,
    holds: false,
    says: () =>
      `${label} may be as cold as ${degrees(coldest)} and would be charged: it may be charged from ${degrees(least)}, and nothing stated blocks or heats it.`,
  });
}

/** A source of charge on its plus while the engine runs, along links that are let through. */
function charged(battery: Battery, op: Operation, passes: Passes): boolean {
  if (runningStates(op).length === 0) return false;
  const reached = reachPast(netOf(op), battery.plus, 'against', passes);
  const supplied = [...op.parts.values()].some((p) => {
    const { generates } = p.ability;
    return generates !== undefined && reached.has(refOf(p.id, generates.plus));
  });
  return supplied || chargers(op).some((c) => reached.has(c.outPlus));
}

/**
 * The parts that block its charging in frost: none where a source finds a way round them. One counts where it blocks as soon as
 * the cells are too cold, by its own air, which is never warmer than theirs; and where its negative is wired.
 */
function guardsOf(battery: Battery, op: Operation, coldest: number, least: number): readonly Placed[] {
  const corner = op.corners.find((c) => c.air === 'coldest');
  const guards = [...op.parts.values()].filter(({ id, at, ability: { guards: own } }) => {
    if (own === undefined || corner === undefined || own.chargeBelow === null) return false;
    return (
      own.chargeBelow.sourced.value >= least &&
      op.air(at, corner).sourced.value <= coldest &&
      op.wiresAt(`${id}.${own.reference}`).length > 0
    );
  });
  const blocked = new Set(guards.map((guard) => guard.id));
  if (blocked.size === 0 || charged(battery, op, (link) => !blocked.has(link.id))) return [];
  // Those on the way from the battery, each seen without the others.
  return guards.filter((guard) => {
    const reached = reachPast(netOf(op), battery.plus, 'against', (link) => !blocked.has(link.id));
    return reached.has(refOf(guard.id, guard.ability.guards?.battery ?? ''));
  });
}

function remedies(battery: Battery, judged: Judgement): readonly Remedy[] {
  const below = judged.limit.value ?? 0;
  const set = (field: string, to: unknown): Remedy['changes'] => [
    { set: ['parts', battery.part.id, field], to },
  ];
  return [
    {
      title: 'a battery whose own protection stops charging in frost',
      changes: set('opens', { charge: `below ${below} °C` }),
    },
    { title: 'a battery with a cell heater', changes: set('heater', '60 W') },
  ];
}
