/** Charging voltages: what a charger is set to against what the battery's sheet asks for. */
import type { Basis, Check, Id, Judgement, Operation, Remedy, Step } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chargers, sensesOutput, type Charger } from './support/charger.ts';
import { van } from './support/examples.ts';
import { nominalOf } from './support/feed.ts';
import { judgement, present, step } from './support/judgement.ts';
import { forwardVolts } from './support/low-loss.ts';
import { netOf, reachPast, valvesOn } from './support/net.ts';
import type { Battery } from './support/no-start.ts';
import { batteries, batteryById } from './support/no-start.ts';
import { listed, V } from './support/words.ts';
import { leastBy } from './support/worst.ts';

export const chargeVolts: Check = {
  id: 'charge-volts',
  title: 'Chargers are set as the battery asks',
  family: 'charge',
  danger: false,
  statements: TOPICS.chargingVoltage,
  subjects: (op) =>
    batteries(op)
      .filter((b) => pairsOf(b, op).length > 0)
      .map((b) => ({ id: b.part.id, label: b.part.label })),
  judge: (subject, op) => judge(batteryById(op, subject.id), op),
  remedies: (subject, op) => remedies(batteryById(op, subject.id), op),
  failing: example('14.1 V'),
  passing: example('14.4 V'),
};

function example(absorption: string): string {
  return van('A battery with charging voltages on its sheet', {
    parts: {
      charger:
        '{ kind: dc-charger, at: locker, current: 30 A, voltage: { absorption: 14.4 V, float: 13.6 V }, enable: signal, starts: 12.3 V after 15 s, stops: 12.0 V after 5 s, low-input: stops, negative: common, efficiency: 0.88 }',
      'house-battery': `{ kind: battery, at: locker, role: house, chemistry: gel, capacity: 200 Ah, charge-limit: 100 A, absorption: ${absorption} }`,
    },
  });
}

/** A setting that is off by no more is the same, V for 12 V. */
const SAME = 0.1;
/** By so much too low a battery never gets full, V for 12 V. */
const STARVES = 0.4;

interface Pair {
  readonly what: 'absorption' | 'float';
  readonly charger: Charger;
  readonly set: Basis;
  readonly asked: Basis;
  /** Diodes before the battery and before the sense wires, and what arrives less for them, V; less than 0: more. */
  readonly diodes: readonly Id[];
  readonly lost: number;
  /** V above what is asked, for 12 V. */
  readonly over: number;
}

/** Each charger whose output reaches the battery, with each of the two voltages that both state. */
function pairsOf(battery: Battery, op: Operation): readonly Pair[] {
  const { absorption, float } = battery.stores;
  if ((absorption ?? null) === null && (float ?? null) === null) return [];
  return chargers(op).flatMap((charger) => {
    const ways = reachPast(netOf(op), charger.outPlus, 'with');
    const way = ways.get(battery.plus);
    if (way === undefined) return [];
    const before = valvesOn(way);
    const sense = sensesOutput(charger, op) ? ways.get(`${charger.part.id}.${charger.does.sensePlus}`) : [];
    const sensed = valvesOn(sense ?? []);
    const lost = forwardVolts(op, before) - forwardVolts(op, sensed);
    const diodes = lost === 0 ? [] : [...before, ...sensed];
    const blocks = nominalOf(op, charger.does.outputSystem ?? 'house') / 12;
    const pair = (
      what: Pair['what'],
      set: Basis | null | undefined,
      asked: Basis | null | undefined,
    ): readonly Pair[] =>
      set === null || set === undefined || asked === null || asked === undefined
        ? []
        : [
            {
              what,
              charger,
              set,
              asked,
              diodes,
              lost,
              over: (set.sourced.value - lost - asked.sourced.value) / blocks,
            },
          ];
    return [
      ...pair('absorption', charger.does.setVolts, absorption),
      ...pair('float', charger.does.floatVolts, float),
    ];
  });
}

function judge(battery: Battery, op: Operation): Judgement {
  const pairs = pairsOf(battery, op);
  const worst = leastBy(pairs, (p) => -p.over);
  const low = leastBy(pairs, (p) => p.over);
  if (worst === null || low === null)
    return judgement({ holds: true, says: `${battery.part.label} states no charging voltage.` });
  const high = worst.over > SAME + 1e-9;
  const starved = !high && low.over < -STARVES - 1e-9;
  const shown = starved ? low : worst;
  return judgement({
    holds: !high,
    ...(starved ? { note: 'advice' as const } : {}),
    says: sentence(shown, battery, high, starved),
    value: { value: arriving(shown), unit: 'V' },
    limit: { value: shown.asked.sourced.value, unit: 'V' },
    // What is too little is short of it, not to spare.
    margin: (starved ? 1 : -1) * (arriving(shown) - shown.asked.sourced.value),
    working: pairs.flatMap(steps),
    restsOn: pairs.flatMap((p) => [p.set, p.asked, ...lossBases(p, op)]),
    about: [battery.part.id, ...new Set(pairs.flatMap((p) => [p.charger.part.id, ...p.diodes]))],
  });
}

const arriving = ({ set, lost }: Pair): number => set.sourced.value - lost;

const lossBases = ({ diodes }: Pair, op: Operation): readonly Basis[] =>
  present(diodes.map((id) => op.parts.get(id)?.ability.forward));

function sentence(pair: Pair, battery: Battery, high: boolean, starved: boolean): string {
  const { what, charger, set, asked, diodes, lost } = pair;
  const less =
    lost === 0 ? '' : `, which is ${V(arriving(pair))} at the battery with what is lost in ${listed(diodes)}`;
  const is = `${charger.part.label} is set to ${V(set.sourced.value)} (${what})${less}`;
  const sheet = `the sheet of ${battery.part.label} asks for ${V(asked.sourced.value)}`;
  if (high) return `${is}; ${sheet}: it is overcharged.`;
  return starved ? `${is}; ${sheet}: it never gets full.` : `${is}, and ${sheet}.`;
}

const steps = (p: Pair): readonly Step[] => [
  step(`${p.what} of ${p.charger.part.id}`, p.set.sourced.source, p.set.sourced.value, 'V', {
    about: [p.charger.part.id],
  }),
  ...(p.lost === 0
    ? []
    : [
        step(
          `${p.what} that arrives`,
          `${V(p.set.sourced.value)} − ${V(p.lost)} in ${listed(p.diodes)}`,
          arriving(p),
          'V',
          {
            about: p.diodes,
          },
        ),
      ]),
  step(`${p.what} on the battery's sheet`, p.asked.sourced.source, p.asked.sourced.value, 'V'),
];

/** What is asked, and what is lost before the battery, V. */
const wanted = (p: Pair): number => Math.round((p.asked.sourced.value + p.lost) * 1000) / 1000;

function remedies(battery: Battery, op: Operation): readonly Remedy[] {
  return pairsOf(battery, op)
    .filter((p) => p.over > SAME)
    .map((p) => ({
      title: `set the ${p.what} of ${p.charger.part.label} to ${V(wanted(p))}`,
      changes: [{ set: ['parts', p.charger.part.id, 'voltage', p.what], to: `${wanted(p)} V` }],
    }));
}
