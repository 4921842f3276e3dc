/**
 * Nuisance: a device carries its greatest continuous current in heat, and neither an inrush nor what flows while the engine is
 * cranked reaches its fast edge.
 */
import type {
  Basis,
  Check,
  Id,
  Judgement,
  Operation,
  Placed,
  Remedy,
  Solved,
  Step,
} from '../contracts/index.ts';
import { fastSeconds, slowSeconds } from '../devices/index.ts';
import { TOPICS } from '../practices/index.ts';
import { devicesOf, fedSides, loadsOn } from './support/downstream.ts';
import { partNeed } from './support/figures-needed.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { briefOf, continuousInDevice, greatestOver, type Continuous } from './support/loading.ts';
import { chargersIn, chargerSteps } from './support/loading-steps.ts';
import { rate, ratingsWithin } from './support/remedies.ts';
import { hottestAt } from './support/surroundings.ts';
import { amps, atMost, celsius, factor, number, seconds } from './support/short-text.ts';
import { clearlyLess } from './support/worst.ts';
import { inState, whereWords } from './support/words.ts';

export const nuisance: Check = {
  id: 'nuisance',
  title: 'Nuisance opening',
  family: 'protection',
  danger: false,
  statements: TOPICS.nuisance,
  subjects: (op) =>
    devicesOf(op)
      .filter((p) => continuousInDevice(op, p.id).amps > IDLE || surges(op, p).length > 0)
      .map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no device ${subject.id}`);
    return judge(part, op);
  },
  remedies(subject, op): readonly Remedy[] {
    const part = op.parts.get(subject.id);
    const needed = part === undefined ? null : thermal(part, op);
    if (part === undefined || needed === null) return [];
    const carries = ratingsWithin(needed.needs, needed.needs * 2);
    const bears = ratingsWithin(needed.needs, MOST).filter((r) => worstSurge(part, op, r) === null);
    return (bears.length > 0 ? bears : carries).slice(0, 2).map((r) => rate(subject.id, r));
  },
  failing: example('25 A'),
  passing: example('40 A'),
};

/** Below this nothing is carried, A. */
const IDLE = 1e-6;

/** The greatest standard rating, A. */
const MOST = 300;

function example(rating: string): string {
  return `loomwright: 1
title: A cooler behind a fuse
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 45 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 200 Ah }
  cooler-fuse: { kind: fuse, at: locker, family: blade-e, rating: ${rating}, interrupts: 5 kA }
  cooler: { kind: load, at: locker, current: 25 A, on: always }
wires:
  lead: { from: bank.+, to: cooler-fuse.line, size: 16 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: cooler-fuse.load, to: cooler.+, size: 16 mm2, insulation: pvc-105, length: 2 m }
  back: { from: cooler.-, to: bank.-, size: 16 mm2, insulation: pvc-105, length: 2 m }
`;
}

interface Thermal {
  readonly load: Continuous;
  readonly factor: Basis;
  readonly air: Basis | null;
  /** Rating that carries the load in heat, A. */
  readonly needs: number;
}

function thermal(part: Placed, op: Operation): Thermal | null {
  const protects = part.ability.protects;
  if (protects === undefined) return null;
  const air = hottestAt(op, part);
  const share = protects.factor(air?.sourced.value ?? 40);
  const load = continuousInDevice(op, part.id);
  return { load, factor: share, air, needs: load.amps / Math.max(share.sourced.value, 1e-3) };
}

interface Surge {
  readonly amps: number;
  readonly seconds: number;
  /** "when cooler starts" */
  readonly when: string;
  readonly step: string;
  readonly about: readonly Id[];
  /** Where it was solved; null: the inrush of a load, alone on top of nothing. */
  readonly solved: Solved | null;
}

const surges = (op: Operation, part: Placed): readonly Surge[] => [
  ...inrushes(op, part),
  ...briefFlows(op, part),
];

/** Inrush of each load behind the device, alone on top of nothing. */
function inrushes(op: Operation, part: Placed): readonly Surge[] {
  const behind = fedSides(op, part.id).flatMap((side) => loadsOn(op, side.onward));
  return [...new Set(behind)].flatMap((load) => {
    const c = load.ability.consumes;
    if (c === undefined || c.amps === null || c.inrush <= 1) return [];
    return [
      {
        amps: c.amps.sourced.value * c.inrush,
        seconds: c.inrushSeconds,
        when: `when ${load.label} starts`,
        step: `Inrush of ${load.id}`,
        about: [load.id],
        solved: null,
      },
    ];
  });
}

/** The greatest current in each state that is over before anything warms up: the starter's, above all. */
function briefFlows(op: Operation, part: Placed): readonly Surge[] {
  const brief = briefOf(op);
  return op.states.flatMap((state) => {
    const here = brief.filter((s) => s.condition.state === state.id);
    const { amps: most, solved } = greatestOver(here, (s) => s.partMost(part.id, 0));
    if (solved === null || most <= IDLE) return [];
    return [
      {
        amps: most,
        seconds: state.lasts.sourced.value,
        when: state.cranking ? 'while the engine is cranked' : inState(state.id),
        step: `Greatest current ${inState(state.id)}`,
        about: [],
        solved,
      },
    ];
  });
}

function judge(part: Placed, op: Operation): Judgement {
  const protects = part.ability.protects;
  const heat = thermal(part, op);
  if (protects === undefined || heat === null) throw new Error(`${part.id} protects nothing`);
  if (protects.rating === null)
    return missing(`Whether ${part.label} opens for nothing cannot be said: its rating is not known.`, [
      partNeed(part.id, 'rating', `it carries ${amps(heat.load.amps)} for long`),
    ]);
  const rating = protects.rating.sourced.value;
  const surge = atMost(heat.needs, rating) ? worstSurge(part, op, rating) : null;
  return surge === null ? byHeat(part, heat, protects.rating) : bySurge(part, surge, rating, heat);
}

function byHeat(part: Placed, heat: Thermal, rating: Basis): Judgement {
  const value = rating.sourced.value;
  const holds = atMost(heat.needs, value);
  const where = heat.air === null ? 'in heat' : `at ${celsius(heat.air.sourced.value)}`;
  return judgement({
    holds,
    says: () =>
      holds
        ? `${part.label} (${amps(value)}) carries ${amps(heat.load.amps)} for long ${where}.`
        : `${part.label} (${amps(value)}) will open by itself: ${amps(heat.load.amps)} for long ${where} ask for ${amps(heat.needs)}.`,
    value: { value: heat.needs, unit: 'A' },
    limit: { value, unit: 'A' },
    margin: value - heat.needs,
    worst: heat.load.amps > heat.load.solved.amps ? null : (heat.load.solved.solved?.id ?? null),
    working: () => heatSteps(part, heat),
    restsOn: [...heat.load.bases, ...(heat.air === null ? [] : [heat.air]), rating],
    limits: [heat.factor],
    about: [part.id, ...chargersIn(heat.load)],
  });
}

function heatSteps(part: Placed, heat: Thermal): readonly Step[] {
  const { load } = heat;
  const lines: Step[] = [];
  if (load.solved.solved !== null)
    lines.push(
      step(
        `Greatest current solved through ${part.id}`,
        whereWords(load.solved.solved),
        load.solved.amps,
        'A',
      ),
    );
  lines.push(...chargerSteps(load));
  lines.push(
    step(
      'Rating needed',
      `${amps(load.amps)} / ${factor(heat.factor.sourced.value)} (device factor)`,
      heat.needs,
      'A',
      {
        source: heat.factor.sourced.source,
        about: [part.id],
      },
    ),
  );
  return lines;
}

interface Reached {
  readonly surge: Surge;
  readonly fast: number;
}

/** The inrush that lasts longest beyond the time before which the device has surely not opened; null: none does. */
function worstSurge(part: Placed, op: Operation, rating: number): Reached | null {
  const curve = part.ability.protects?.curve ?? null;
  if (curve === null) return null;
  let worst: Reached | null = null;
  for (const surge of surges(op, part)) {
    const fast = fastSeconds(curve, surge.amps / rating);
    if (fast === null || fast >= surge.seconds) continue;
    if (worst === null || clearlyLess(fast / surge.seconds, worst.fast / worst.surge.seconds))
      worst = { surge, fast };
  }
  return worst;
}

function bySurge(part: Placed, reached: Reached, rating: number, heat: Thermal): Judgement {
  const { surge, fast } = reached;
  const curve = part.ability.protects?.curve ?? null;
  const slow = curve === null ? null : slowSeconds(curve, surge.amps / rating, rating);
  const surely = slow !== null && slow <= surge.seconds;
  // Between the edges it may open: of an inrush it mostly does not; what comes back at every start is past the middle a fault.
  const likely = surely || (surge.solved !== null && slow !== null && fast * slow <= surge.seconds ** 2);
  return judgement({
    holds: false,
    severity: likely ? 'fault' : 'advice',
    says: () =>
      `${part.label} (${amps(rating)}) ${surely ? 'opens' : 'may open'} ${surge.when}: ${amps(surge.amps)} for ${seconds(surge.seconds)}, and it may open from ${seconds(fast)} on.`,
    value: { value: surge.seconds, unit: 's' },
    limit: { value: fast, unit: 's' },
    margin: fast - surge.seconds,
    worst: surge.solved?.id ?? null,
    working: () => [
      ...heatSteps(part, heat),
      step(
        surge.step,
        `${surge.solved === null ? '' : `${whereWords(surge.solved)}, `}for ${seconds(surge.seconds)}`,
        surge.amps,
        'A',
        { about: surge.about },
      ),
      step('Fast edge', `at ${number(surge.amps / rating)} times the rating`, fast, 's', {
        about: [part.id],
      }),
    ],
    limits: curve === null ? [] : [curve.basis],
    about: [part.id, ...surge.about],
  });
}
