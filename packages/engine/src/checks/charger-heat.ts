/** A charger in hot air gives less, and what it turns into heat has to leave its place. */
import type { Check, Judgement, Operation, Step } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import type { Charger } from './support/charger.ts';
import { chargerById, chargers, runningStates } from './support/charger.ts';
import { settledExample, van } from './support/examples.ts';
import { judgement, present, step } from './support/judgement.ts';
import { A, capital, degrees, factor, percent, V, W } from './support/words.ts';

export const chargerHeat: Check = {
  id: 'charger-heat',
  title: 'Chargers give their current in the heat of their place',
  family: 'charge',
  danger: false,
  statements: TOPICS.chargerHeat,
  subjects: (op) =>
    chargers(op)
      .filter((c) => (c.does.derates ?? null) !== null)
      .map((c) => ({ id: c.part.id, label: c.part.label })),
  judge: (subject, op) => judge(chargerById(op, subject.id), op),
  failing: van('A charger in a locker that the sun heats', {
    places: { locker: '{ label: Locker under the roof, hottest: 60 °C, coldest: 5 °C }' },
  }),
  passing: settledExample,
};

function judge(charger: Charger, op: Operation): Judgement {
  const { part, does } = charger;
  const corner = op.corners.find((c) => c.air === 'hottest');
  const derates = does.derates ?? null;
  if (corner === undefined || derates === null)
    return judgement({ holds: true, says: `${capital(part.label)} gives its current in any heat.` });
  const air = op.air(part.at, corner);
  const hottest = air.sourced.value;
  const share = derates.share(hottest);
  const gives = givesAt(charger, share);
  const state = runningStates(op)[0];
  const holds = share >= 1;
  return judgement({
    holds,
    severity: 'advice',
    says: () =>
      holds
        ? `${capital(part.label)} gives its full current at ${degrees(hottest)}, the hottest air of its place.`
        : `${capital(part.label)} gives ${gives.words} in the heat: its place gets ${degrees(hottest)}, and it gives less from ${degrees(derates.from.sourced.value)} on${gives.heat === null ? '' : `; ${W(gives.heat)} to be carried away`}.`,
    ...gives.measures,
    worst: state === undefined ? null : op.conditionId(op.condition(state.id, corner.id)),
    working: () => [
      step(`hottest air at ${part.at ?? 'its place'}`, air.sourced.source, hottest, '°C'),
      step('gives less from', derates.from.sourced.source, derates.from.sourced.value, '°C', {
        about: [part.id],
      }),
      step('share of its output left', 'from 1 to a half over 20 K', share * 100, '%', { about: [part.id] }),
      ...gives.steps,
    ],
    restsOn: present([air, derates.from, does.current, does.efficiency]),
    about: [part.id, ...(part.at === null ? [] : [part.at])],
  });
}

interface Gives {
  readonly words: string;
  /** W; null without a rated current. */
  readonly heat: number | null;
  readonly measures: Pick<Judgement, 'value' | 'limit' | 'margin'>;
  readonly steps: readonly Step[];
}

/** What is left of its current, and the share (1 - efficiency) of the power that it then takes in. */
function givesAt({ part, does }: Charger, share: number): Gives {
  if (does.current === null) {
    return {
      words: `${percent(share)} of its current`,
      heat: null,
      measures: {
        value: { value: share * 100, unit: '%' },
        limit: { value: 100, unit: '%' },
        margin: share * 100 - 100,
      },
      steps: [],
    };
  }
  const rated = does.current.sourced.value;
  const amps = share * rated;
  const [volts, eta] = [does.setVolts.sourced.value, does.efficiency.sourced.value];
  const power = (volts * amps) / eta;
  const heat = (1 - eta) * power;
  const about = [part.id];
  return {
    words: `${A(amps)} of ${A(rated)}`,
    heat,
    measures: {
      value: { value: amps, unit: 'A' },
      limit: { value: rated, unit: 'A' },
      margin: amps - rated,
    },
    steps: [
      step('current that it gives', `${percent(share)} of ${A(rated)}`, amps, 'A', { about }),
      step('power that it takes in', `${V(volts)} × ${A(amps)} / ${factor(eta)}`, power, 'W', { about }),
      step('heat', `(1 − ${factor(eta)}) × ${W(power)}`, heat, 'W', { about }),
    ],
  };
}
