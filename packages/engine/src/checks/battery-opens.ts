/**
 * A battery that opens itself, by its own protection or by one before it: over-voltage (what drives it there loses its load at
 * once), low voltage or too great a current under load (everything goes dark).
 */
import type { Basis, Check, Id, Judgement, Operation, Placed, Solved, Step } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { joinedLowExample, overrunExample } from './support/examples-energy.ts';
import { judgement, present, step } from './support/judgement.ts';
import { netOf, reach, refOf } from './support/net.ts';
import type { Battery } from './support/no-start.ts';
import { batteries, batteryById, netAmps } from './support/no-start.ts';
import { A, capital, inState, listed, V, whereWords } from './support/words.ts';
import { whole, worstOf, type Worst } from './support/worst.ts';

export const batteryOpens: Check = {
  id: 'battery-opens',
  title: 'No state drives a battery into opening itself',
  family: 'charge',
  danger: false,
  statements: TOPICS.chargingVoltage,
  subjects: (op) =>
    batteries(op)
      .filter((b) => limitsOf(b, op).length > 0)
      .map((b) => ({ id: b.part.id, label: b.part.label })),
  judge: (subject, op) => judge(batteryById(op, subject.id), op),
  failing: overrunExample,
  passing: joinedLowExample,
};

interface Limit {
  readonly on: 'above' | 'below' | 'current';
  readonly basis: Basis;
  /** The part before the battery that opens; null: the battery itself. */
  readonly guard: Id | null;
}

/** At what it opens, over-voltage first. A protection whose negative is not wired measures nothing. */
function limitsOf(battery: Battery, op: Operation): readonly Limit[] {
  const { opens, dischargeLimit } = battery.stores;
  const limit = (
    on: Limit['on'],
    basis: Basis | null | undefined,
    guard: Id | null = null,
  ): readonly Limit[] => (basis === null || basis === undefined ? [] : [{ on, basis, guard }]);
  const parts = guardsOf(battery, op);
  return [
    ...limit('above', opens?.above),
    ...parts.flatMap((p) => limit('above', p.ability.guards?.above, p.id)),
    ...limit('below', opens?.below),
    ...parts.flatMap((p) => limit('below', p.ability.guards?.below, p.id)),
    ...limit('current', dischargeLimit),
  ];
}

/** Protections before it, that nothing but conductors parts from its plus. */
function guardsOf(battery: Battery, op: Operation): readonly Placed[] {
  const guards = [...op.parts.values()].filter(
    ({ id, ability: { guards: g } }) => g !== undefined && op.wiresAt(refOf(id, g.reference)).length > 0,
  );
  if (guards.length === 0) return [];
  const ids = new Set(guards.map((p) => p.id));
  const reached = reach(netOf(op), battery.plus, (link) => !ids.has(link.id));
  return guards.filter((p) => reached.has(refOf(p.id, p.ability.guards?.battery ?? '')));
}

interface Found {
  readonly limit: Limit;
  readonly worst: Worst<number>;
  readonly holds: boolean;
}

function judge(battery: Battery, op: Operation): Judgement {
  const label = capital(battery.part.label);
  const limits = limitsOf(battery, op);
  const found = limits.flatMap((limit): readonly Found[] => {
    const worst = worstAgainst(limit, battery, op);
    return worst === null ? [] : [{ limit, worst, holds: worst.margin >= -1e-9 * limit.basis.sourced.value }];
  });
  const shown = found.find((f) => !f.holds) ?? found[0];
  const about = [battery.part.id, ...limits.flatMap((l) => (l.guard === null ? [] : [l.guard]))];
  if (shown === undefined)
    return judgement({ holds: true, says: `${label} is neither charged nor discharged.`, about });
  const sources = shown.limit.on === 'above' ? sourcesOn(battery, op) : [];
  return judgement({
    holds: shown.holds,
    says: sentence(shown, battery, sources),
    value: { value: shown.worst.of, unit: unitOf(shown.limit) },
    limit: { value: shown.limit.basis.sourced.value, unit: unitOf(shown.limit) },
    margin: shown.worst.margin,
    worst: shown.worst.solved.id,
    others: shown.worst.others,
    working: found.flatMap(stepsOf),
    restsOn: present(limits.map((l) => l.basis)),
    about: [...new Set([...about, ...sources])],
  });
}

const unitOf = (limit: Limit): string => (limit.on === 'current' ? 'A' : 'V');

function sentence({ limit, worst, holds }: Found, battery: Battery, sources: readonly string[]): string {
  const label = capital(battery.part.label);
  const state = inState(worst.solved.condition.state);
  const most = limit.basis.sourced.value;
  const opener = limit.guard ?? 'it';
  if (limit.on === 'current')
    return holds
      ? `${label} gives up to ${A(worst.of)} ${state}; it may give ${A(most)}.`
      : `${label} gives up to ${A(worst.of)} ${state} and may give ${A(most)}: its protection opens, and all that hangs on it goes dark.`;
  if (limit.on === 'below')
    return holds
      ? `${label} falls to ${V(worst.of)} ${state}; ${opener} opens below ${V(most)}.`
      : `${label} falls to ${V(worst.of)} ${state}, and ${opener} opens below ${V(most)}: all that hangs on it goes dark.`;
  const driven = sources.length === 0 ? 'what charges it' : listed(sources);
  return holds
    ? `${label} sees up to ${V(worst.of)} ${state}; ${opener} opens above ${V(most)}.`
    : `${label} sees up to ${V(worst.of)} ${state}, and ${opener} opens above ${V(most)}: ${driven} then works on the rest of the net alone, and its voltage jumps.`;
}

function stepsOf({ limit, worst }: Found): readonly Step[] {
  const { basis, guard } = limit;
  const opener = guard ?? 'its protection';
  const how = whereWords(worst.solved);
  const about = guard === null ? [] : [guard];
  const most = basis.sourced.value;
  if (limit.on === 'current')
    return [
      step('greatest current out of it', how, worst.of, 'A'),
      step('may give', basis.sourced.source, most, 'A'),
    ];
  if (limit.on === 'below')
    return [
      step('least volts at its posts', how, worst.of, 'V'),
      step(`volts below which ${opener} opens`, basis.sourced.source, most, 'V', { about }),
    ];
  return [
    step('greatest volts at its posts, once it is full', how, worst.of, 'V'),
    step(`volts above which ${opener} opens`, basis.sourced.source, most, 'V', { about }),
  ];
}

/** The condition that comes nearest to the limit, or passes it by most. */
function worstAgainst({ on, basis }: Limit, battery: Battery, op: Operation): Worst<number> | null {
  const limit = basis.sourced.value;
  return worstOf(whole(op), (s) => {
    if (on === 'current') {
      const out = Math.max(0, -netAmps(s, battery));
      return { margin: limit - out, of: out };
    }
    const range = s.voltsRange(battery.plus, battery.minus);
    if (range === null) return null;
    if (on === 'below') return { margin: range[0] - limit, of: range[0] };
    // The weak corner holds the bank at the charger's set voltage: no solved voltage.
    if (op.corners.find((c) => c.id === s.condition.corner)?.ratedOutput !== false) return null;
    const volts = Math.max(range[1], whenFull(battery, op, s));
    return { margin: limit - volts, of: volts };
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
