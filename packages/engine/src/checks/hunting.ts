/** A charger that starts and stops without end because its own current pulls its input under the stop threshold. */
import type {
  Basis,
  Check,
  Id,
  Judgement,
  Operation,
  Remedy,
  Solved,
  StateId,
  Step,
  Window,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import type { Charger } from './support/charger.ts';
import { chargerBases, chargerById, chargers, greatestPower } from './support/charger.ts';
import { feedBases, feedLost, feedOhms, feedSteps, loopWires } from './support/loop.ts';
import { signalMode, smallerOutput } from './support/charger-remedies.ts';
import { huntingExample, settledExample } from './support/examples.ts';
import { loopHops } from './support/feed.ts';
import { judgement, missing, present, step } from './support/judgement.ts';
import { chargerNeeds, wayNeeds } from './support/needs.ts';
import { supplyBases } from './support/surplus.ts';
import { thicker } from './support/sizes.ts';
import { eventSteps } from './support/event-steps.ts';
import { A, capital, inState, listed, ohm, percent, time, V } from './support/words.ts';
import { isCycling, whole } from './support/worst.ts';

export const hunting: Check = {
  id: 'hunting',
  title: 'Charger settles: it neither hunts nor pulses',
  family: 'hunting',
  danger: false,
  statements: TOPICS.hunting,
  subjects: (op) => chargers(op).map((c) => ({ id: c.part.id, label: c.part.label })),
  judge: (subject, op) => judge(chargerById(op, subject.id), op),
  remedies: (subject, op) => remedies(chargerById(op, subject.id), op),
  failing: huntingExample,
  passing: settledExample,
};

/** A cycling span of a window, and how far it lies from the envelope (V; < 0: how far it reaches into it). */
interface Hunt {
  readonly window: Window;
  readonly from: number;
  readonly to: number;
  readonly distance: number;
}

function judge(charger: Charger, op: Operation): Judgement {
  const needs = [
    ...chargerNeeds(charger),
    ...(charger.feed === null ? [] : wayNeeds(op, loopHops(charger.feed))),
  ];
  if (needs.length > 0) {
    const says = `Whether ${charger.part.label} hunts cannot be said: ${listed(needs.map((n) => n.basis.label))} not given.`;
    return missing(says, needs, { about: [charger.part.id, ...loopWires(charger)] });
  }
  const windows = op
    .windows()
    .filter((w) => w.part === charger.part.id && op.stateFacts(w.state)?.running === true);
  const hunts = windows.flatMap(huntsOf).toSorted((a, b) => a.distance - b.distance);
  const inside = hunts.filter((h) => h.distance < 0);
  const cycles = whole(op).filter(
    (s) => op.stateFacts(s.condition.state)?.running === true && pulses(s, charger.part.id),
  );
  const near = hunts[0] ?? null;
  if (inside.length === 0 && cycles.length === 0) return steady(charger, op, windows, near);
  return hunted(charger, op, windows, inside, cycles);
}

function huntsOf(window: Window): readonly Hunt[] {
  const [least, greatest] = window.envelope;
  return window.spans
    .filter((span) => span.outcome === 'cycle')
    .map(({ from, to }) => ({ window, from, to, distance: Math.max(from - greatest, least - to) }));
}

function pulses(s: Solved, id: Id): boolean {
  if (!isCycling(s)) return false;
  const duty = s.cycle?.duty.get(id) ?? 0;
  return duty > 0 && duty < 1;
}

function steady(charger: Charger, op: Operation, windows: readonly Window[], near: Hunt | null): Judgement {
  const { label } = charger.part;
  const least = Math.min(...windows.map((w) => w.envelope[0]));
  const greatest = Math.max(...windows.map((w) => w.envelope[1]));
  const range = windows.length === 0 ? '' : ` between ${V(least)} and ${V(greatest)} at the battery posts`;
  const margin = near === null ? null : near.distance;
  const elsewhere =
    near === null
      ? 'nor within 1 V on either side'
      : `it would hunt from ${V(near.from)} to ${V(near.to)} (${inState(near.window.state)})`;
  const at = near?.window.sample ?? settledOn(charger, op);
  return judgement({
    holds: true,
    says: () => `${capital(label)} does not hunt anywhere${range}; ${elsewhere}${pauseWords(charger)}.`,
    value: {
      value: margin,
      unit: 'V',
      words: near === null ? 'nowhere within 1 V' : `${V(margin ?? 0)} away`,
    },
    limit: { value: null, unit: '', words: 'nowhere' },
    margin,
    working:
      at === null
        ? []
        : [
            ...powerSteps(charger),
            ...feedSteps(at, charger),
            ...typicalSteps(charger, op, windows),
            ...widestLoop(charger, at),
            ...eitherSteps(windows),
            ...pauseSteps(charger),
          ],
    restsOn: bases(
      charger,
      op,
      windows.map((w) => w.state),
    ),
    about: [charger.part.id, ...loopWires(charger)],
  });
}

/** A unit that stops now and then to look at its input unloaded: a pause on purpose, which nobody should take for hunting. */
function pauseWords({ does: { samples } }: Charger): string {
  return samples === null || samples === undefined
    ? ''
    : `; its pauses of ${time(samples.pause)} every ${time(samples.every)} are on purpose`;
}

function pauseSteps({ does: { samples } }: Charger): readonly Step[] {
  if (samples === null || samples === undefined) return [];
  const on = 1 - samples.pause / samples.every;
  return [
    step(
      'share of the time beside its pauses',
      `1 − ${time(samples.pause)} / ${time(samples.every)}`,
      on * 100,
      '%',
    ),
  ];
}

/** Set points inside the envelope at which what came before decides whether it is on. */
function eitherSteps(windows: readonly Window[]): readonly Step[] {
  return windows.flatMap((w) =>
    w.spans
      .filter((p) => p.outcome === 'depends' && p.to > w.envelope[0] && p.from < w.envelope[1])
      .map((p) => {
        const [from, to] = [Math.max(p.from, w.envelope[0]), Math.min(p.to, w.envelope[1])];
        return step(
          'on and off are both stable',
          `${inState(w.state)}, from ${V(from)} to ${V(to)}`,
          to - from,
          'V',
        );
      }),
  );
}

/** A point at which the loop carries the charger's current. */
function settledOn(charger: Charger, op: Operation): Solved | null {
  const on = whole(op).filter((s) => s.isOn(charger.part.id) && inputMost(op, charger, s) > LEAST_AMPS);
  return on.find((s) => s.condition.corner === 'weak') ?? on[0] ?? null;
}

/** Less current than this tells nothing of the loop, A. */
const LEAST_AMPS = 0.1;

/** Greatest current into the charger, A. */
const inputMost = (op: Operation, charger: Charger, s: Solved): number =>
  op.wiresAt(charger.inPlus).reduce((most, wire) => Math.max(most, s.wireMost(wire)), 0);

/** With the charger on at the greatest power and the typical set point of each running state: what a meter shows there. */
function typicalSteps(charger: Charger, op: Operation, windows: readonly Window[]): readonly Step[] {
  const { feed, part } = charger;
  if (feed === null) return [];
  const normal = JSON.stringify(op.normalHands);
  return windows
    .filter((w) => JSON.stringify(w.hands) === normal)
    .flatMap((w) => {
      const s = op
        .solve({ ...op.condition(w.state, 'weak'), setPoint: w.typical })
        .find((one) => one.everOn(part.id) && inputMost(op, charger, one) > LEAST_AMPS);
      const source = s?.voltsRange(feed.plus, feed.minus);
      const input = s?.voltsRange(charger.inPlus, charger.inMinus)?.[0];
      if (s === undefined || source === null || source === undefined || input === undefined) return [];
      const lost = source[0] - input;
      const pulsing = isCycling(s) ? ', while it is on' : '';
      return [
        step(
          `input ${inState(w.state)} at ${V(w.typical)}`,
          `drawing ${A(inputMost(op, charger, s))}, ${V(lost)} lost, ${percent(lost / source[0])} of ${V(source[0])}${pulsing}`,
          input,
          'V',
        ),
      ];
    });
}

function hunted(
  charger: Charger,
  op: Operation,
  windows: readonly Window[],
  inside: readonly Hunt[],
  cycles: readonly Solved[],
): Judgement {
  const worst = inside[0] ?? null;
  const sample = worst?.window.sample ?? cycles[0] ?? null;
  const state = worst?.window.state ?? cycles[0]?.condition.state ?? 'driving';
  const overlap = worst === null ? null : -worst.distance;
  const conditions = new Set([
    ...inside.map((h) => `${h.window.state}/${JSON.stringify(h.window.hands)}`),
    ...cycles.map((s) => s.id),
  ]);
  return judgement({
    holds: false,
    says: () =>
      `${capital(charger.part.label)} hunts ${inState(state)}: ${[where(op, worst, cycles), pace(sample, charger), stuck(sample, charger, worst)].filter((t) => t !== '').join('; ')}.`,
    value: { value: null, unit: '', words: where(op, worst, cycles) },
    limit: { value: null, unit: '', words: 'nowhere' },
    margin: overlap === null ? null : -overlap,
    worst: sample?.id ?? null,
    others: Math.max(0, conditions.size - 1),
    working:
      sample === null
        ? []
        : [
            ...steps(charger, sample, worst),
            ...typicalSteps(charger, op, windows),
            ...cycleSteps(charger, sample),
          ],
    restsOn: bases(charger, op, [state]),
    about: [charger.part.id, ...loopWires(charger)],
  });
}

function where(op: Operation, worst: Hunt | null, cycles: readonly Solved[]): string {
  if (worst !== null) return `from ${V(worst.from)} to ${V(worst.to)} at the battery posts`;
  const first = cycles[0];
  const range =
    op.posts === null || first === undefined ? null : first.voltsRange(op.posts.plus, op.posts.minus);
  return range === null ? '' : `the battery posts themselves swing between ${V(range[0])} and ${V(range[1])}`;
}

function pace(sample: Solved | null, charger: Charger): string {
  if (sample?.cycle === null || sample === null) return '';
  const duty = sample.cycle.duty.get(charger.part.id) ?? 0;
  const rated = charger.does.current?.sourced.value;
  const of = rated === undefined ? '' : ` of ${A(rated)}`;
  return `every ${time(sample.cycle.periodMs / 1000)}, on ${percent(duty)} of the time, mean ${A(sample.outAmps(charger.part.id))}${of}`;
}

/** Set point at which a window was sampled, V. */
const sampledAt = (sample: Solved, worst: Hunt): number =>
  sample.condition.setPoint ?? (worst.from + worst.to) / 2;

/** The reason when the loop cannot carry the power at all. */
function stuck(sample: Solved | null, charger: Charger, worst: Hunt | null): string {
  const watts = greatestPower(charger);
  if (sample === null || watts === null || worst === null || charger.does.lowInput !== 'stops') return '';
  const source = sampledAt(sample, worst) - feedLost(sample, charger);
  const ohms = feedOhms(sample, charger);
  return ohms > source ** 2 / (4 * watts) ? 'there is no operating point at full output (R > Vs²/4P)' : '';
}

function powerSteps(charger: Charger): readonly Step[] {
  const { current, setVolts, efficiency, greatestPower: watts } = charger.does;
  if (current === null || watts === null) return [];
  return [
    step(
      'greatest power at the input',
      `${A(current.sourced.value)} × ${V(setVolts.sourced.value)} / ${efficiency.sourced.value}`,
      watts.sourced.value,
      'W',
      { about: [charger.part.id] },
    ),
  ];
}

function steps(charger: Charger, sample: Solved, worst: Hunt | null): readonly Step[] {
  const { starts, stops } = charger.does;
  return [
    ...powerSteps(charger),
    ...feedSteps(sample, charger),
    ...(worst === null
      ? []
      : inputSteps(charger, sample, sampledAt(sample, worst) - feedLost(sample, charger))),
    step('starts at', 'threshold at its input', starts.sourced.value, 'V'),
    step('stops below', 'threshold at its input', stops.sourced.value, 'V'),
    ...(worst === null
      ? []
      : [
          step(
            'hunting window, as solved',
            `from ${V(worst.from)} to ${V(worst.to)}`,
            worst.to - worst.from,
            'V',
          ),
        ]),
    ...widestLoop(charger, sample),
  ];
}

/** Input with the charger on: V = (Vs + sqrt(Vs² - 4PR)) / 2. */
function inputSteps(charger: Charger, sample: Solved, source: number): readonly Step[] {
  const watts = greatestPower(charger);
  if (watts === null || charger.does.lowInput !== 'stops') return [];
  const ohms = feedOhms(sample, charger);
  const inside = source ** 2 - 4 * watts * ohms;
  if (inside < 0) {
    const most = source ** 2 / (4 * watts);
    return [
      step(
        'no operating point at full output',
        `R > Vs²/4P: ${ohm(ohms)} > ${V(source)}² / (4 × ${Math.round(watts)} W)`,
        most,
        'Ω',
      ),
    ];
  }
  const how = `(${V(source)} + √(${V(source)}² − 4 × ${Math.round(watts)} W × ${ohm(ohms)})) / 2`;
  const input = (source + Math.sqrt(inside)) / 2;
  const lost = source - input;
  return [
    step('input with the charger on', how, input, 'V'),
    step('input current then', `${Math.round(watts)} W / ${V(input)}`, watts / input, 'A'),
    step(
      'lost in the loop then',
      `${V(source)} − ${V(input)}; ${percent(lost / source)} of ${V(source)}`,
      lost,
      'V',
    ),
  ];
}

/** The loop with which it hunts at no source voltage: R <= Voff (Von - Voff) / P, valid while Voff² >= P·R. */
function widestLoop(charger: Charger, sample: Solved): readonly Step[] {
  const most = loopLimit(charger);
  const watts = greatestPower(charger);
  if (most === null || watts === null) return [];
  const [on, off] = [charger.does.starts.sourced.value, charger.does.stops.sourced.value];
  const ohms = feedOhms(sample, charger);
  return [
    step(
      'largest loop that hunts at no source voltage',
      `${V(off)} × (${V(on)} − ${V(off)}) / ${Math.round(watts)} W; this loop has ${ohm(ohms)}`,
      most,
      'Ω',
    ),
  ];
}

function loopLimit(charger: Charger): number | null {
  const watts = greatestPower(charger);
  if (watts === null || charger.does.lowInput !== 'stops') return null;
  const [on, off] = [charger.does.starts.sourced.value, charger.does.stops.sourced.value];
  return on > off ? (off * (on - off)) / watts : null;
}

function cycleSteps(charger: Charger, sample: Solved): readonly Step[] {
  if (sample.cycle === null) return [];
  const { periodMs, duty, order } = sample.cycle;
  const share = duty.get(charger.part.id) ?? 0;
  const range = sample.voltsRange(charger.inPlus, charger.inMinus);
  const swing =
    range === null
      ? []
      : [step('input swings', `between ${V(range[0])} and ${V(range[1])}`, range[1] - range[0], 'V')];
  const events = eventSteps(order, MOST_EVENTS);
  return [
    ...swing,
    step('period', 'one cycle', periodMs / 1000, 's'),
    step(
      'share of the time on',
      `${time((share * periodMs) / 1000)} of ${time(periodMs / 1000)}`,
      share * 100,
      '%',
    ),
    step('mean output', 'over a cycle', sample.outAmps(charger.part.id), 'A'),
    ...events,
  ];
}

const MOST_EVENTS = 6;

function bases(charger: Charger, op: Operation, states: readonly StateId[]): readonly Basis[] {
  const facts = [...new Set(states)].flatMap((id) => op.stateFacts(id) ?? []);
  return present([
    ...chargerBases(charger),
    ...facts.flatMap((f) => [f.posts.min, f.posts.max, ...supplyBases(op, f)]),
    ...feedBases(op, charger),
  ]);
}

function remedies(charger: Charger, op: Operation): readonly Remedy[] {
  return [
    ...thicker(op, loopWires(charger)),
    ...smaller(charger, op),
    ...signalMode(charger, op),
    ...gentler(charger),
  ];
}

/** Less output: what the loop carries without hunting, and less. */
function smaller(charger: Charger, op: Operation): readonly Remedy[] {
  const { current, setVolts, efficiency } = charger.does;
  const at = settledOn(charger, op) ?? whole(op).find((s) => pulses(s, charger.part.id)) ?? null;
  const limit = loopLimit(charger);
  const watts = greatestPower(charger);
  if (current === null || at === null || limit === null || watts === null) return [];
  const carried =
    ((watts * limit) / feedOhms(at, charger)) * (efficiency.sourced.value / setVolts.sourced.value);
  return smallerOutput(charger, [carried]);
}

/** A charger that gives less when its input falls, in place of one that stops. */
function gentler(charger: Charger): readonly Remedy[] {
  if (charger.does.lowInput !== 'stops') return [];
  const hold = Math.round((charger.does.stops.sourced.value + 0.1) * 10) / 10;
  return [
    {
      title: `a charger that holds its input at ${hold} V by giving less, in place of one that stops`,
      changes: [{ set: ['parts', charger.part.id, 'low-input'], to: `holds ${hold} V` }],
    },
  ];
}
