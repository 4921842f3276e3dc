/** What all sources together can give a battery in one state, by their own limits, against what it may be charged with. */
import type { Basis, Check, Judgement, Operation, Placed, Remedy, StateFacts } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chargers } from './support/charger.ts';
import { settledExample } from './support/examples.ts';
import { tooMuchChargeExample } from './support/examples-energy.ts';
import { absent, atMost, judgement, missing, present, step } from './support/judgement.ts';
import { netOf, reachPast, refOf } from './support/net.ts';
import type { Battery } from './support/no-start.ts';
import { batteries, batteryById } from './support/no-start.ts';
import { A, capital, inState, listed } from './support/words.ts';
import { whole } from './support/worst.ts';

export const chargeSum: Check = {
  id: 'charge-sum',
  title: 'All sources together stay within the charge limit',
  family: 'charge',
  danger: true,
  statements: TOPICS.chargeSum,
  subjects: (op) => limited(op).map((b) => ({ id: b.part.id, label: b.part.label })),
  judge: (subject, op) => judge(batteryById(op, subject.id), op),
  remedies: (subject, op, judged) => remedies(op, judged),
  failing: tooMuchChargeExample,
  passing: settledExample,
};

/** Lead limits its own charge; where a limit is printed, or the cells do not, it is judged. */
const limited = (op: Operation): readonly Battery[] =>
  batteries(op).filter(
    (b) =>
      b.stores.role !== 'vehicle' &&
      (b.stores.chargeLimit !== null || (b.stores.chargeLowest !== null && offers(b, op).length > 0)),
  );

interface Offer {
  readonly part: Placed;
  readonly facts: StateFacts;
  readonly amps: Basis | null;
}

/** What each source on the battery's plus can give in each state. */
function offers(battery: Battery, op: Operation): readonly Offer[] {
  const reached = reachPast(netOf(op), battery.plus, 'against');
  return op.states.flatMap((facts) => {
    const points = whole(op).filter((s) => s.condition.state === facts.id);
    const fromChargers = chargers(op)
      .filter((c) => reached.has(c.outPlus) && points.some((s) => s.everOn(c.part.id)))
      .map((c) => ({ part: c.part, facts, amps: c.does.current }));
    return [
      ...fromChargers,
      ...generators(
        op,
        facts,
        reached,
        points.some((s) => s.condition.shore || s.condition.sun),
      ),
    ];
  });
}

function generators(
  op: Operation,
  facts: StateFacts,
  reached: ReadonlyMap<string, unknown>,
  present: boolean,
): readonly Offer[] {
  const corner = op.corners.find((c) => c.id === 'every-source');
  return [...op.parts.values()].flatMap((part) => {
    const { generates } = part.ability;
    if (generates === undefined || corner === undefined || !reached.has(refOf(part.id, generates.plus)))
      return [];
    const works = generates.role === 'vehicle-supply' ? facts.supply !== 'off' : present;
    return works ? [{ part, facts, amps: generates.limit(facts, corner) }] : [];
  });
}

function judge(battery: Battery, op: Operation): Judgement {
  const { part, stores } = battery;
  const all = offers(battery, op);
  const sums = op.states.map((facts) => {
    const here = all.filter((o) => o.facts === facts);
    return { facts, here, amps: here.reduce((sum, o) => sum + (o.amps?.sourced.value ?? 0), 0) };
  });
  const worst = sums.toSorted((a, b) => b.amps - a.amps)[0];
  const about = [part.id, ...new Set(all.map((o) => o.part.id))];
  const label = capital(part.label);
  if (worst === undefined || worst.here.length === 0) {
    return judgement({ holds: true, says: `Nothing charges ${part.label}.`, about });
  }
  const silent = all.filter((o) => o.amps === null);
  const who = listed(
    worst.here.map((o) => `${o.part.id} ${o.amps === null ? 'not given' : A(o.amps.sourced.value)}`),
  );
  const working = [
    ...worst.here.map((o) =>
      step(
        `what ${o.part.id} can give`,
        o.amps?.sourced.source ?? 'not given',
        o.amps?.sourced.value ?? null,
        'A',
        { about: [o.part.id] },
      ),
    ),
    step(
      `together, ${worst.facts.label}`,
      worst.here.map((o) => (o.amps === null ? '?' : A(o.amps.sourced.value))).join(' + '),
      worst.amps,
      'A',
    ),
  ];
  const shared = {
    value: { value: worst.amps, unit: 'A' },
    worst: op.conditionId(op.condition(worst.facts.id, 'every-source')),
    working,
    restsOn: present(worst.here.map((o) => o.amps)),
    about,
  };
  const first = silent[0];
  const { chargeLimit } = stores;
  if (chargeLimit === null || first !== undefined) {
    const basis =
      chargeLimit === null
        ? absent(
            `parts.${part.id}.charge-limit`,
            `charge limit of ${part.label}`,
            "read it on the battery's sheet",
            'A',
          )
        : absent(
            `parts.${first?.part.id ?? ''}.current`,
            `output of ${first?.part.label ?? ''}`,
            'read the plate',
            'A',
          );
    return missing(
      `${label} is offered ${A(worst.amps)} (${who}); ${chargeLimit === null ? 'what it may be charged with' : 'one output'} is not given.`,
      [{ basis, why: `${A(worst.amps)} is offered` }],
      shared,
    );
  }
  const most = chargeLimit.sourced.value;
  return judgement({
    ...shared,
    holds: atMost(worst.amps, most),
    says: () =>
      `${label} is offered up to ${A(worst.amps)} ${inState(worst.facts.id)} (${who}); it may be charged with ${A(most)}.`,
    limit: { value: most, unit: 'A' },
    margin: most - worst.amps,
    others: Math.max(0, sums.filter((s) => !atMost(s.amps, most)).length - 1),
    working: () => [...working, step('charge limit', chargeLimit.sourced.source, most, 'A')],
    limits: [chargeLimit],
  });
}

/** One source less, or smaller: the largest first. */
function remedies(op: Operation, judged: Judgement): readonly Remedy[] {
  const over = -(judged.margin ?? 0);
  if (!(over > 0)) return [];
  return chargers(op)
    .filter((c) => judged.about.includes(c.part.id))
    .flatMap((c) => {
      const rated = c.does.current?.sourced.value ?? 0;
      const amps = Math.floor((rated - over) / 5) * 5;
      return amps < 5
        ? []
        : [
            {
              title: `limit ${c.part.label} to ${amps} A`,
              changes: [{ set: ['parts', c.part.id, 'current'], to: `${amps} A` }],
            },
          ];
    });
}
