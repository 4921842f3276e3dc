/** The supply converter of a hybrid or electric vehicle against its maker's limits. */
import type { Basis, Check, Judgement, Operation, Placed, StateFacts } from '../contracts/index.ts';
import { vehicleLoadOf } from './support/no-start.ts';
import { TOPICS } from '../practices/index.ts';
import { vehicleFed } from './support/charger.ts';
import { smallerOutput } from './support/charger-remedies.ts';
import { converterHeldExample, converterOverExample } from './support/examples-energy.ts';
import { absent, atMost, judgement, missing, present, step } from './support/judgement.ts';
import { chargerDraws, loadDraws, suppliesIn } from './support/surplus.ts';
import { A, capital, inState } from './support/words.ts';

export const converterLimit: Check = {
  id: 'converter-limit',
  title: "The vehicle's supply converter stays within its maker's limit",
  family: 'surplus',
  danger: true,
  statements: TOPICS.supplySurplus,
  subjects: (op) => (fed(op).length === 0 ? [] : converters(op).map((p) => ({ id: p.id, label: p.label }))),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no converter ${subject.id}`);
    return judge(part, op);
  },
  remedies: (_subject, op) => vehicleFed(op).flatMap((c) => smallerOutput(c)),
  failing: converterOverExample,
  passing: converterHeldExample,
};

/** Running states that a converter feeds. */
const fed = (op: Operation): readonly StateFacts[] => op.states.filter((s) => s.supply === 'converter');

/** The supplies that work in those states; where one has a limit, that one. */
function converters(op: Operation): readonly Placed[] {
  const all = [...new Set(fed(op).flatMap((s) => suppliesIn(op, s)))];
  const limited = all.filter((p) => fed(op).some((s) => casesOf(p, s, op).length > 0));
  return limited.length > 0 ? limited : all;
}

/** One of the two limits in one state. */
interface Case {
  readonly facts: StateFacts;
  readonly what: 'added loads' | 'everything';
  readonly amps: number;
  readonly limit: Basis;
  readonly how: string;
}

function judge(part: Placed, op: Operation): Judgement {
  const cases = fed(op).flatMap((facts) => casesOf(part, facts, op));
  const worst = cases.toSorted(
    (a, b) => a.limit.sourced.value - a.amps - (b.limit.sourced.value - b.amps),
  )[0];
  const about = [part.id];
  if (worst === undefined) {
    const basis = absent(
      `parts.${part.id}.added-limit`,
      `what may be added to ${part.label}`,
      "the vehicle maker's stated limit for added loads",
      'A',
    );
    return missing(
      `Nothing can be said of ${part.label} without its maker's limit for added loads: no feed until then.`,
      [{ basis, why: 'above it the vehicle may stop' }],
      { about },
    );
  }
  const most = worst.limit.sourced.value;
  const holds = cases.every((c) => atMost(c.amps, c.limit.sourced.value));
  const above = part.ability.generates?.above;
  const then =
    above === 'shuts-down'
      ? '; above it the vehicle loses its supply'
      : above === 'folds-back'
        ? '; above it its voltage sinks'
        : '';
  return judgement({
    holds,
    says: () =>
      `${capital(part.label)} gives ${A(worst.amps)} to ${worst.what} ${inState(worst.facts.id)}; its maker allows ${A(most)}${holds ? '' : then}.`,
    value: { value: worst.amps, unit: 'A' },
    limit: { value: most, unit: 'A' },
    margin: most - worst.amps,
    worst: op.conditionId(op.condition(worst.facts.id, 'weak')),
    others: Math.max(0, cases.filter((c) => !atMost(c.amps, c.limit.sourced.value)).length - 1),
    working: cases.flatMap((c) => [
      step(`${c.what}, ${c.facts.label}`, c.how, c.amps, 'A'),
      step('allowed', c.limit.sourced.source, c.limit.sourced.value, 'A'),
    ]),
    restsOn: present([
      ...(worst.what === 'everything' ? [vehicleLoadOf(op, worst.facts)] : []),
      ...chargerDraws(op, worst.facts).flatMap((d) => d.bases),
    ]),
    limits: cases.map((c) => c.limit),
    about,
  });
}

function casesOf(part: Placed, facts: StateFacts, op: Operation): readonly Case[] {
  const corner = op.corners.find((c) => c.id === 'weak');
  const { generates } = part.ability;
  if (generates === undefined || corner === undefined) return [];
  const draws = [...chargerDraws(op, facts), ...loadDraws(op)];
  const added = draws.reduce((sum, d) => sum + d.amps, 0);
  const own = vehicleLoadOf(op, facts);
  const list = draws.map((d) => `${d.part.id} ${A(d.amps)}`).join(' + ');
  const total = generates.limit(facts, corner);
  return [
    ...(generates.addedLimit === null
      ? []
      : [{ facts, what: 'added loads' as const, amps: added, limit: generates.addedLimit, how: list }]),
    ...(total === null
      ? []
      : [
          {
            facts,
            what: 'everything' as const,
            amps: added + own.sourced.value,
            limit: total,
            how: `vehicle ${A(own.sourced.value)} + ${list}`,
          },
        ]),
  ];
}
