/** A charger's input: high enough to run when it runs, never too high, and high enough to start. */
import type {
  Basis,
  Check,
  Judgement,
  Need,
  Operation,
  Solved,
  StateId,
  Step,
  Subject,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import type { Charger } from './support/charger.ts';
import {
  chargerBases,
  chargerById,
  chargers,
  enabled,
  comparedAt,
  inputVolts,
  runningStates,
} from './support/charger.ts';
import { signalMode, smallerOutput } from './support/charger-remedies.ts';
import { neverStartsExample, settledExample } from './support/examples.ts';
import { loopHops, nominalOf } from './support/feed.ts';
import { judgement, missing, present, step } from './support/judgement.ts';
import { usualMost } from './support/limits.ts';
import { feedBases, feedSteps, loopWires } from './support/loop.ts';
import { chargerNeeds, modeNeeds, wayNeeds } from './support/needs.ts';
import { supplyBases } from './support/surplus.ts';
import { thicker } from './support/sizes.ts';
import { capital, inState, listed, V, whereWords } from './support/words.ts';
import { isSettled, whole, worstOf } from './support/worst.ts';

export const inputWindow: Check = {
  id: 'input-window',
  title: 'Charger input stays inside its window',
  family: 'input window',
  danger: false,
  statements: TOPICS.inputWindow,
  subjects,
  judge(subject, op) {
    const [id = '', against] = subject.id.split('/');
    const charger = chargerById(op, id);
    if (against === undefined) return levels(charger, op);
    const other = chargers(op).find((c) => c.part.id === against);
    return other === undefined ? starting(charger, op, against as StateId) : beside(charger, other, op);
  },
  remedies(subject, op) {
    const charger = chargerById(op, subject.id.split('/')[0] ?? '');
    return [...signalMode(charger, op), ...thicker(op, loopWires(charger)), ...smallerOutput(charger)];
  },
  failing: neverStartsExample,
  passing: settledExample,
};

/** The levels themselves; starting in each running state (overrun is too short to count); each other charger on the same source. */
function subjects(op: Operation): readonly Subject[] {
  return chargers(op).flatMap((c) => [
    { id: c.part.id, label: c.part.label },
    ...runningStates(op)
      .filter((s) => !s.recovering)
      .map((s) => ({ id: `${c.part.id}/${s.id}`, label: `${c.part.label}, ${s.label}` })),
    ...chargers(op)
      .filter((o) => o !== c && o.feed !== null && o.feed.plus === c.feed?.plus)
      .map((o) => ({ id: `${c.part.id}/${o.part.id}`, label: `${c.part.label} beside ${o.part.label}` })),
  ]);
}

const loopNeeds = (charger: Charger, op: Operation): readonly Need[] =>
  charger.feed === null ? [] : wayNeeds(op, loopHops(charger.feed));

function unsaid(charger: Charger, op: Operation, needs: readonly Need[]): Judgement | null {
  if (needs.length === 0) return null;
  const what = listed(needs.map((n) => n.basis.label));
  return missing(`The input of ${charger.part.label} cannot be judged: ${what} not given.`, needs, {
    about: [charger.part.id],
  });
}

interface Level {
  readonly volts: number;
  readonly limit: number;
  readonly which: 'least' | 'sensed' | 'greatest';
}

const LEVELS = {
  least: 'least volts at the input when on',
  sensed: 'least volts at the sense wires when on',
  greatest: 'greatest volts at the input',
} as const;

function levels(charger: Charger, op: Operation): Judgement {
  const unknown = unsaid(charger, op, [...chargerNeeds(charger), ...loopNeeds(charger, op)]);
  if (unknown !== null) return unknown;
  const [stops, minimum] = [charger.does.stops.sourced.value, charger.does.minimum.sourced.value];
  const compared = comparedAt(charger, op);
  const sensed = compared[0] !== charger.inPlus;
  // Behind sense wires only its least working voltage is asked of the input itself.
  const floor = sensed ? minimum : Math.max(stops, minimum);
  const rating = charger.part.ability.dcRating?.stated ?? null;
  const most = rating?.sourced.value ?? usualMost(nominalOf(op, charger.does.inputSystem));
  const worst = worstOf<Level>(whole(op), (s) => {
    const range = s.voltsRange(charger.inPlus, charger.inMinus);
    if (range === null) return null;
    const over = {
      margin: most - range[1],
      of: { volts: range[1], limit: most, which: 'greatest' as const },
    };
    // In a state that ends before the stop delay it may run below its threshold.
    if (!s.isOn(charger.part.id) || s.outcome !== 'settled') return over;
    const under = {
      margin: range[0] - floor,
      of: { volts: range[0], limit: floor, which: 'least' as const },
    };
    const lowest = sensed ? s.voltsRange(...compared) : null;
    const atSense =
      lowest === null || under.margin < lowest[0] - stops
        ? under
        : { margin: lowest[0] - stops, of: { volts: lowest[0], limit: stops, which: 'sensed' as const } };
    return atSense.margin < over.margin ? atSense : over;
  });
  const label = capital(charger.part.label);
  const shared = {
    restsOn: present([...chargerBases(charger), rating, ...feedBases(op, charger)]),
    about: [charger.part.id, ...loopWires(charger)],
  };
  if (worst === null) {
    return judgement({
      holds: true,
      says: `${label} has no voltage at its input in any condition.`,
      ...shared,
    });
  }
  const { volts, limit, which } = worst.of;
  const ok = worst.margin >= -1e-9 * limit;
  const says = (): string =>
    which === 'least'
      ? `${label} has at least ${V(volts)} at its input when it runs, ${inState(worst.solved.condition.state)}; it needs ${V(limit)}.`
      : which === 'sensed'
        ? `${label} sees at least ${V(volts)} where its sense wires end when it runs, ${inState(worst.solved.condition.state)}; it stops under ${V(limit)}.`
        : `${label} has up to ${V(volts)} at its input, ${inState(worst.solved.condition.state)}; ${V(limit)} is the most it bears.`;
  return judgement({
    holds: ok,
    says,
    value: { value: volts, unit: 'V' },
    limit: { value: limit, unit: 'V' },
    margin: worst.margin,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step(LEVELS[which], whereWords(worst.solved), volts, 'V'),
      ...(sensed
        ? [
            step('stop threshold', 'where its sense wires end', stops, 'V'),
            step('the least it works at', 'at its input', minimum, 'V'),
          ]
        : [step('stop threshold, or the least it works at', 'the higher of both', floor, 'V')]),
      step(
        'greatest input',
        rating === null ? `usual for ${nominalOf(op, charger.does.inputSystem)} V` : 'its dc rating',
        most,
        'V',
      ),
      ...(which === 'least' ? feedSteps(worst.solved, charger) : []),
    ],
    ...shared,
  });
}

/** Outcomes of a state in which the charger is told to run and its feed is closed, one by one. */
function wanted(charger: Charger, op: Operation, state: StateId): readonly Solved[] {
  return whole(op).filter(
    (s) => s.condition.state === state && enabled(s, charger) === true && supplied(s, charger),
  );
}

/** A switch in the feed that stands open is no want of volts. */
function supplied(s: Solved, charger: Charger): boolean {
  const { feed } = charger;
  const source = feed === null ? null : s.volts(feed.plus, feed.minus);
  return source === null || (inputVolts(s, charger) ?? 0) > source / 2;
}

function starting(charger: Charger, op: Operation, state: StateId): Judgement {
  const unknown = unsaid(charger, op, modeNeeds(charger));
  if (unknown !== null) return unknown;
  const points = wanted(charger, op, state);
  const off = points.filter((s) => !s.everOn(charger.part.id) && short(s, charger));
  const on = points.filter((s) => s.everOn(charger.part.id));
  const { starts } = charger.does;
  const label = capital(charger.part.label);
  const highest = worstOf(off, (s) => {
    const volts = inputVolts(s, charger);
    return volts === null ? null : { margin: volts - starts.sourced.value, of: volts };
  });
  const shared = {
    value: { value: highest?.of ?? null, unit: 'V' },
    limit: { value: starts.sourced.value, unit: 'V' },
    margin: highest?.margin ?? null,
    worst: highest?.solved.id ?? null,
    others: highest?.others ?? 0,
    restsOn: bases(charger, op, state),
    about: [charger.part.id],
  };
  if (points.length === 0) {
    return judgement({
      holds: true,
      says: () => `${label} is not told to run while ${op.stateFacts(state)?.label ?? state}.`,
      about: [charger.part.id],
    });
  }
  if (off.length === 0 || highest === null) {
    const says = `${label} reaches its start threshold of ${V(starts.sourced.value)} ${inState(state)}.`;
    return judgement({ holds: true, says, restsOn: shared.restsOn, about: shared.about });
  }
  const working = startSteps(charger, off, highest.solved, highest.of);
  if (on.length === 0) {
    const says = `${label} never starts ${inState(state)}: ${V(highest.of)} at its input, it starts at ${V(starts.sourced.value)}.`;
    return judgement({ ...shared, holds: false, severity: 'fault', says, working });
  }
  const from = listed([...new Set(off.map((s) => s.cameFrom.at(-1)).filter((p) => p !== undefined))]);
  const after = from === '' ? '' : `, coming from ${from}`;
  const says = `${label} does not always start ${inState(state)}: with ${V(highest.of)} at its input it stays off${after}; it starts at ${V(starts.sourced.value)}.`;
  return judgement({ ...shared, holds: true, note: 'advice', says, working });
}

/** Off because the voltage is not there. */
function short(s: Solved, charger: Charger): boolean {
  const volts = inputVolts(s, charger);
  return volts !== null && volts < charger.does.starts.sourced.value;
}

function startSteps(charger: Charger, off: readonly Solved[], worst: Solved, volts: number): readonly Step[] {
  return [
    step('input with the charger off', whereWords(worst), volts, 'V'),
    step('starts at', 'threshold at its input', charger.does.starts.sourced.value, 'V'),
    step(
      'conditions in which it stays off',
      listed([...new Set(off.map((s) => s.id))].slice(0, 6)),
      off.length,
      '',
    ),
  ];
}

/** Off in a running state although the source alone is high enough, because another charger is on. */
function beside(charger: Charger, other: Charger, op: Operation): Judgement {
  const { feed } = charger;
  const { starts } = charger.does;
  const label = capital(charger.part.label);
  const unknown = unsaid(charger, op, [
    ...chargerNeeds(charger),
    ...chargerNeeds(other),
    ...loopNeeds(charger, op),
  ]);
  if (unknown !== null) return unknown;
  const running = new Set(runningStates(op).map((s) => s.id));
  const kept = worstOf<{ readonly input: number; readonly source: number }>(whole(op), (s) => {
    if (feed === null || !running.has(s.condition.state) || !isSettled(s)) return null;
    if (enabled(s, charger) !== true || s.isOn(charger.part.id) || !s.isOn(other.part.id)) return null;
    const [input, source] = [inputVolts(s, charger), s.volts(feed.plus, feed.minus)];
    if (input === null || source === null || source < starts.sourced.value || input >= starts.sourced.value)
      return null;
    return { margin: input - starts.sourced.value, of: { input, source } };
  });
  const shared = {
    restsOn: present([...chargerBases(charger), ...chargerBases(other), ...feedBases(op, charger)]),
    about: [charger.part.id, other.part.id, ...loopWires(charger)],
  };
  if (kept === null) {
    return judgement({
      holds: true,
      says: `${label} is not kept from starting by ${other.part.label}.`,
      ...shared,
    });
  }
  return judgement({
    holds: false,
    says: () =>
      `${label} never starts beside ${other.part.label}, ${inState(kept.solved.condition.state)}: with ${other.part.label} on its input has ${V(kept.of.input)}, it starts at ${V(starts.sourced.value)}.`,
    value: { value: kept.of.input, unit: 'V' },
    limit: { value: starts.sourced.value, unit: 'V' },
    margin: kept.margin,
    worst: kept.solved.id,
    others: kept.others,
    working: () => [
      step('volts at the source', whereWords(kept.solved), kept.of.source, 'V'),
      step(
        `input of ${charger.part.id} with ${other.part.id} on`,
        whereWords(kept.solved),
        kept.of.input,
        'V',
      ),
      step('starts at', 'threshold at its input', starts.sourced.value, 'V'),
    ],
    ...shared,
  });
}

function bases(charger: Charger, op: Operation, state: StateId): readonly Basis[] {
  const facts = op.stateFacts(state);
  return present([
    ...chargerBases(charger),
    facts?.posts.min,
    facts?.posts.max,
    ...(facts === null ? [] : supplyBases(op, facts)),
    ...feedBases(op, charger),
  ]);
}
