/** Charging voltages: what a charger is set to against what the battery's sheet asks for. */
import type { Basis, Check, Id, Judgement, Operation, Remedy, Step } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chargers, sensesOutput, type Charger } from './support/charger.ts';
import { van } from './support/examples.ts';
import { stacksOf } from './support/conductors.ts';
import { nominalOf } from './support/feed.ts';
import { judgement, present, step } from './support/judgement.ts';
import { forwardVolts } from './support/low-loss.ts';
import { netOf, reachPast, valvesOn, type Hop } from './support/net.ts';
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
  /** Batteries in series that share what arrives. */
  readonly sharers: number;
  /** V above what is asked, for 12 V. */
  readonly over: number;
}

/** Each charger whose output reaches the battery, with each of the two voltages that both state. */
function pairsOf(battery: Battery, op: Operation): readonly Pair[] {
  const { absorption, float } = battery.stores;
  if ((absorption ?? null) === null && (float ?? null) === null) return [];
  return chargers(op).flatMap((charger) => {
    const ways = reachPast(netOf(op), charger.outPlus, 'with');
    const stack = stackOf(battery, charger, ways, op);
    if (stack === null) return [];
    const { way, sharers } = stack;
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
              sharers,
              over: (set.sourced.value - lost - sharers * asked.sourced.value) / blocks,
            },
          ];
    return [
      ...pair('absorption', charger.does.setVolts, absorption),
      ...pair('float', charger.does.floatVolts, float),
    ];
  });
}

/**
 * How a charger's plus reaches a battery, and how many batteries stand in series between its poles there: it charges the
 * stack, of which each has its share. null: it does not charge the battery.
 */
function stackOf(
  battery: Battery,
  charger: Charger,
  ways: ReadonlyMap<string, readonly Hop[]>,
  op: Operation,
): { readonly way: readonly Hop[]; readonly sharers: number } | null {
  const own = ways.get(battery.plus);
  const back = reachPast(netOf(op), charger.outMinus, 'against');
  if (own !== undefined && back.has(battery.minus)) return { way: own, sharers: 1 };
  const mates = (stacksOf(op).find((group) => group.includes(battery.part.id)) ?? []).map((id) =>
    batteryById(op, id),
  );
  const top = mates.find((b) => ways.has(b.plus));
  const way = own ?? (top === undefined ? undefined : ways.get(top.plus));
  if (way === undefined) return null;
  // Without a way back it is no stack either: then it counts as charged alone.
  if (!mates.some((b) => back.has(b.minus))) return own === undefined ? null : { way, sharers: 1 };
  const { system, role, nominal } = battery.stores;
  return { way, sharers: Math.max(1, Math.round(nominalOf(op, system ?? role) / nominal)) };
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

/** At the battery itself, V. */
const arriving = ({ set, lost, sharers }: Pair): number => (set.sourced.value - lost) / sharers;

const lossBases = ({ diodes }: Pair, op: Operation): readonly Basis[] =>
  present(diodes.map((id) => op.parts.get(id)?.ability.forward));

function sentence(pair: Pair, battery: Battery, high: boolean, starved: boolean): string {
  const { what, charger, set, asked, diodes, lost, sharers } = pair;
  const each = sharers === 1 ? 'the battery' : `each of ${sharers} in series`;
  const with_ = lost === 0 ? '' : ` with what is lost in ${listed(diodes)}`;
  const less = lost === 0 && sharers === 1 ? '' : `, which is ${V(arriving(pair))} at ${each}${with_}`;
  const is = `${charger.part.label} is set to ${V(set.sourced.value)} (${what})${less}`;
  const sheet = `the sheet of ${battery.part.label} asks for ${V(asked.sourced.value)}`;
  if (high) return `${is}; ${sheet}: it is overcharged.`;
  return starved ? `${is}; ${sheet}: it never gets full.` : `${is}, and ${sheet}.`;
}

const steps = (p: Pair): readonly Step[] => [
  step(`${p.what} of ${p.charger.part.id}`, p.set.sourced.source, p.set.sourced.value, 'V', {
    about: [p.charger.part.id],
  }),
  ...(p.lost === 0 && p.sharers === 1
    ? []
    : [step(`${p.what} that arrives`, arrivingHow(p), arriving(p), 'V', { about: p.diodes })]),
  step(`${p.what} on the battery's sheet`, p.asked.sourced.source, p.asked.sourced.value, 'V'),
];

function arrivingHow({ set, lost, diodes, sharers }: Pair): string {
  const left =
    lost === 0 ? V(set.sourced.value) : `${V(set.sourced.value)} − ${V(lost)} in ${listed(diodes)}`;
  if (sharers === 1) return left;
  return lost === 0 ? `${left} / ${sharers} in series` : `(${left}) / ${sharers} in series`;
}

/** What is asked by all in series, and what is lost before them, V. */
const wanted = (p: Pair): number => Math.round((p.sharers * p.asked.sourced.value + p.lost) * 1000) / 1000;

function remedies(battery: Battery, op: Operation): readonly Remedy[] {
  return pairsOf(battery, op)
    .filter((p) => p.over > SAME)
    .map((p) => ({
      title: `set the ${p.what} of ${p.charger.part.label} to ${V(wanted(p))}`,
      changes: [{ set: ['parts', p.charger.part.id, 'voltage', p.what], to: `${wanted(p)} V` }],
    }));
}
