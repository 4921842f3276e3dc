/** What the owner asks of the control: charges only while the engine runs, can be stopped, and charges at all. */
import type {
  Basis,
  Check,
  Judgement,
  Need,
  Operation,
  Placed,
  Requirement,
  Solved,
  StateFacts,
  Subject,
} from '../contracts/index.ts';
import { TURNED_V } from '../devices/turned.ts';
import { TOPICS } from '../practices/index.ts';
import type { Charger } from './support/charger.ts';
import {
  chargerBases,
  chargerById,
  charges,
  enabled,
  gives,
  inputVolts,
  liveness,
  needsSignal,
  runningStates,
  signalsFor,
  vehicleFed,
} from './support/charger.ts';
import { keyOnExample, settledExample } from './support/examples.ts';
import { absent, judgement, missing, present, step } from './support/judgement.ts';
import { modeNeeds, roleNeeds } from './support/needs.ts';
import { batteries, dischargeSteps, shortest } from './support/no-start.ts';
import {
  A,
  capital,
  cornerWords,
  handWords,
  inState,
  listed,
  time,
  until,
  V,
  whereWords,
} from './support/words.ts';
import { clearlyLess, leastBy, whole } from './support/worst.ts';

const ONLY_RUNNING = 'charges-only-while-the-engine-runs';
const CAN_STOP = 'the-owner-can-stop-charging';
const CHARGES = 'charges';

const ASKED: Readonly<Record<string, Requirement>> = {
  [ONLY_RUNNING]: 'charges only while the engine runs',
  [CAN_STOP]: 'the owner can stop charging',
};

export const enable: Check = {
  id: 'enable',
  title: 'Charges when it should, and only then',
  family: 'enable',
  danger: false,
  statements: [...TOPICS.chargesOnlyRunning, ...TOPICS.ownerCanStop, ...TOPICS.charges],
  subjects,
  judge(subject, op) {
    const [what = '', id = ''] = subject.id.split('/');
    const charger = chargerById(op, id);
    const needs = [...modeNeeds(charger), ...roleNeeds(charger)];
    if (needs.length > 0) {
      return missing(
        `When ${charger.part.label} charges cannot be said: ${listed(needs.map((n) => n.basis.label))} not given.`,
        needs,
        { about: [id] },
      );
    }
    if (what === ONLY_RUNNING) return onlyRunning(charger, op);
    return what === CAN_STOP ? canStop(charger, op) : chargesAtAll(charger, op);
  },
  failing: keyOnExample,
  passing: settledExample,
};

function subjects(op: Operation): readonly Subject[] {
  const asked = Object.entries(ASKED).filter(([, sentence]) => op.build.requires.includes(sentence));
  return vehicleFed(op).flatMap((c) => [
    ...asked.map(([slug, sentence]) => ({
      id: `${slug}/${c.part.id}`,
      label: `${c.part.label}: ${sentence}`,
    })),
    { id: `${CHARGES}/${c.part.id}`, label: `${c.part.label} charges while the engine runs` },
  ]);
}

/* ---- charges only while the engine runs ---- */

function onlyRunning(charger: Charger, op: Operation): Judgement {
  const points = signalsFor(op, charger);
  const unknown = statesUnknown(op, points);
  const idle = whole(op).filter((s) => op.stateFacts(s.condition.state)?.running === false);
  const charging = idle.filter((s) => charges(s, charger));
  const certain = charging.filter(
    (s) => !s.condition.unknownLive || !unknown.some((u) => u.state.id === s.condition.state),
  );
  const shared = {
    restsOn: chargerBases(charger),
    limits: present(points.map((p) => p.ability.signals?.liveBasis)),
    about: [charger.part.id, ...points.map((p) => p.id)],
  };
  if (certain.length > 0) return wrongly(charger, op, certain, shared);
  if (charging.length > 0) {
    const needs = unknown.map((u) => need(u.point, u.state));
    return missing(
      `${capital(charger.part.label)} may charge ${listed([...new Set(charging.map((s) => inState(s.condition.state)))])}: nobody has said whether the signal is live then.`,
      needs,
      { ...shared, worst: charging[0]?.id ?? null },
    );
  }
  const states = listed(op.states.filter((s) => !s.running).map((s) => s.label));
  return judgement({
    holds: true,
    says: () =>
      `${capital(charger.part.label)} gives nothing while the engine is off (${states}), at any position of any switch.`,
    value: { value: null, unit: '', words: 'gives nothing while the engine is off' },
    working: () =>
      [...new Set(idle.map((s) => s.condition.state))].map((state) =>
        step(
          `output ${inState(state)}`,
          stateReason(
            charger,
            idle.filter((s) => s.condition.state === state),
          ),
          0,
          'A',
        ),
      ),
    ...shared,
  });
}

/** What keeps it off in a state. */
function stateReason(charger: Charger, points: readonly Solved[]): string {
  if (needsSignal(charger) && points.every((s) => enabled(s, charger) === false))
    return 'no signal at the enable input';
  const volts = points.map((s) => inputVolts(s, charger) ?? 0);
  const { lowVolts, lowInput } = charger.does;
  if (lowVolts !== null && points.some((s) => s.isOn(charger.part.id)))
    return lowInput === 'holds'
      ? `input at most ${V(Math.max(...volts, 0))}: it is on, but holds ${V(lowVolts.sourced.value)} and gives nothing`
      : `input at most ${V(Math.max(...volts, 0))}: it is on, but reduced to nothing`;
  return `input at most ${V(Math.max(...volts, 0))}, starts at ${V(charger.does.starts.sourced.value)}`;
}

type Shared = Pick<Judgement, 'restsOn' | 'limits' | 'about'>;

function wrongly(charger: Charger, op: Operation, charging: readonly Solved[], shared: Shared): Judgement {
  const states = [...new Set(charging.map((s) => s.condition.state))];
  const times = states.flatMap((state) =>
    batteries(op, 'vehicle').flatMap((battery) => {
      const found = shortest(op, battery, state);
      const lasts = op.stateFacts(state)?.lasts.sourced.value ?? 1;
      return found === null ? [] : [{ battery, found, share: found.seconds / lasts }];
    }),
  );
  const soonest = leastBy(times, (t) => t.share);
  const first = charging[0];
  const worst = soonest?.found.solved ?? first;
  const time =
    soonest === null
      ? ''
      : `; ${inState(soonest.found.solved.condition.state)} it is ${until(soonest.found.seconds)} to no-start`;
  return judgement({
    holds: false,
    says: () => `${capital(charger.part.label)} gives output ${listed(states.map(inState))}${time}.`,
    value: { value: worst?.outAmps(charger.part.id) ?? null, unit: 'A' },
    limit: { value: 0, unit: 'A' },
    margin: -(worst?.outAmps(charger.part.id) ?? 0),
    worst: first?.id ?? null,
    others: new Set(charging.map((s) => s.id)).size - 1,
    working: () => [
      ...charging
        .slice(0, 4)
        .map((s) =>
          step(`output ${inState(s.condition.state)}`, why(s, charger), s.outAmps(charger.part.id), 'A'),
        ),
      ...(soonest === null ? [] : dischargeSteps(soonest.found, soonest.battery)),
    ],
    ...shared,
  });
}

function why(s: Solved, charger: Charger): string {
  const signal = needsSignal(charger) ? 'signal live, ' : '';
  const hands = handWords(s.condition.hands);
  return `${signal}${V(inputVolts(s, charger) ?? 0)} at the input (${[hands, cornerWords(s.condition.corner)].filter((t) => t !== '').join('; ')})`;
}

function statesUnknown(
  op: Operation,
  points: readonly Placed[],
): readonly { readonly point: Placed; readonly state: StateFacts }[] {
  return points.flatMap((point) =>
    op.states
      .filter(
        (s) => point.ability.signals !== undefined && liveness(point.ability.signals, s.id) === 'unknown',
      )
      .map((state) => ({ point, state })),
  );
}

const need = (point: Placed, state: StateFacts): Need => ({
  basis: absent(
    `parts.${point.id}.dead`,
    `whether ${point.label} is live ${inState(state.id)}`,
    'load it and read it in this state',
    '',
  ),
  why: `it is in neither list for ${state.label}`,
});

/* ---- the owner can stop charging ---- */

function canStop(charger: Charger, op: Operation): Judgement {
  const charging = whole(op).filter((s) => charges(s, charger));
  const label = capital(charger.part.label);
  const about = [charger.part.id, ...op.ownerSwitches];
  if (charging.length === 0) {
    return judgement({ holds: true, says: `${label} never charges, so there is nothing to stop.`, about });
  }
  const stops = op.ownerSwitches.flatMap((id) =>
    [false, true]
      .filter((closed) => charging.every((s) => s.condition.hands[id] !== closed))
      .map((closed) => ({ id, closed })),
  );
  const first = stops[0];
  if (first !== undefined) {
    return judgement({
      holds: true,
      says: `${label} gives nothing in any state with ${first.id} ${first.closed ? 'on' : 'off'}.`,
      value: { value: null, unit: '', words: `${first.id} ${first.closed ? 'on' : 'off'}` },
      working: () => [
        step(
          'conditions in which it charges',
          `all have ${first.id} ${first.closed ? 'off' : 'on'}`,
          charging.length,
          '',
        ),
      ],
      restsOn: chargerBases(charger),
      about,
    });
  }
  const none = op.ownerSwitches.length === 0;
  const sample = charging[0];
  return judgement({
    holds: false,
    says: () =>
      none
        ? `No switch of the owner stops ${charger.part.label}: there is none.`
        : `No position of ${listed(op.ownerSwitches)} stops ${charger.part.label} in every state.`,
    value: { value: null, unit: '', words: 'no switch stops it' },
    worst: sample?.id ?? null,
    others: new Set(charging.map((s) => s.id)).size - 1,
    working: op.ownerSwitches.flatMap((id) =>
      [false, true].flatMap((closed) => {
        const still = charging.find((s) => s.condition.hands[id] === closed);
        return still === undefined
          ? []
          : [
              step(
                `with ${id} ${closed ? 'on' : 'off'} it still charges`,
                whereWords(still),
                still.outAmps(charger.part.id),
                'A',
              ),
            ];
      }),
    ),
    restsOn: chargerBases(charger),
    about,
  });
}

/* ---- charges at all ---- */

function chargesAtAll(charger: Charger, op: Operation): Judgement {
  const states = new Set(runningStates(op).map((s) => s.id));
  const running = whole(op).filter((s) => states.has(s.condition.state));
  const points = signalsFor(op, charger);
  const shared = { restsOn: bases(charger, op), about: [charger.part.id, ...points.map((p) => p.id)] };
  const label = capital(charger.part.label);
  if (running.length === 0)
    return judgement({ holds: true, says: `There is no state in which the engine runs.`, ...shared });
  const charging = running.filter((s) => charges(s, charger) && gives(s, charger));
  const most = leastBy(charging, (s) => -s.outAmps(charger.part.id));
  if (most !== null) {
    const where = listed([...new Set(charging.map((s) => s.condition.state))].map(inState));
    return judgement({
      holds: true,
      says: () => `${label} charges ${where}, up to ${A(most.outAmps(charger.part.id))}.`,
      value: { value: most.outAmps(charger.part.id), unit: 'A' },
      working: () => [step('greatest output', whereWords(most), most.outAmps(charger.part.id), 'A')],
      ...shared,
    });
  }
  const unsure = points.filter((p) => {
    const { signals } = p.ability;
    return signals !== undefined && [...states].some((id) => liveness(signals, id) === 'unknown');
  });
  const reason = firstFailure(charger, running);
  if (unsure.length > 0 && reason.signal) {
    const needs = statesUnknown(op, unsure)
      .filter((u) => u.state.running)
      .map((u) => need(u.point, u.state));
    return missing(
      `Whether ${charger.part.label} charges cannot be said: its signal is in neither list.`,
      needs,
      shared,
    );
  }
  return judgement({
    holds: false,
    says: `${label} never charges: ${reason.says}.`,
    ...shortOf(reason),
    worst: reason.at?.id ?? running[0]?.id ?? null,
    others: 0,
    working: () => failureSteps(reason),
    ...shared,
  });
}

interface Failure {
  readonly says: string;
  readonly signal: boolean;
  readonly volts: number | null;
  /** null: it is not for want of volts. */
  readonly needed: number | null;
  readonly at: Solved | null;
}

function shortOf({ volts, needed }: Failure): Partial<Judgement> {
  if (needed === null) return { value: { value: null, unit: '', words: 'gives nothing' } };
  return {
    value: { value: volts, unit: 'V' },
    limit: { value: needed, unit: 'V' },
    margin: volts === null ? null : volts - needed,
  };
}

function failureSteps({ signal, at, volts, needed }: Failure): Judgement['working'] {
  if (needed === null) return [];
  const what = signal ? 'greatest volts at the enable input' : 'greatest volts at the input';
  return [step(what, at === null ? 'no condition' : whereWords(at), volts, 'V')];
}

/** The first thing that fails: the signal, then the volts at the input, then what stands at its output. */
function firstFailure(charger: Charger, running: readonly Solved[]): Failure {
  const { enable, starts } = charger.does;
  if (needsSignal(charger) && enable !== null && running.every((s) => enabled(s, charger) === false)) {
    const best = highest(running, (s) =>
      s.volts(`${charger.part.id}.${enable.plus}`, `${charger.part.id}.${enable.minus}`),
    );
    const needed = enable.on.sourced.value;
    return {
      says: `its enable input gets ${best.text}, it needs ${V(needed)}${strayReturn(charger, enable, best.at ?? running[0])}`,
      signal: true,
      volts: best.volts,
      needed,
      at: best.at,
    };
  }
  const told = running.filter((s) => enabled(s, charger) !== false);
  const best = highest(told, (s) => inputVolts(s, charger));
  const needed = starts.sourced.value;
  const empty = told.find((s) => charges(s, charger));
  const failure = { signal: false, volts: best.volts, needed };
  const other = { signal: false, volts: null, needed: null };
  if (empty !== undefined) return { ...other, says: 'it is on, but nothing flows out of it', at: empty };
  const back = told.find((s) => (s.volts(charger.outPlus, charger.outMinus) ?? 0) < TURNED_V);
  if (back !== undefined) return { ...other, says: 'its output stands the wrong way round', at: back };
  if (best.volts !== null && best.volts >= needed && best.at !== null) {
    const seconds = charger.does.startDelayMs / 1000;
    const says = `its input reaches ${V(best.volts)} only ${inState(best.at.condition.state)}, too short for its delay of ${time(seconds)} (it starts at ${V(needed)})`;
    return { ...failure, says, at: best.at };
  }
  return { ...failure, says: `its input gets ${best.text}, it starts at ${V(needed)}`, at: best.at };
}

/** The signal is there, but measured against something that it does not come back to. */
function strayReturn(
  { part, does }: Charger,
  { plus, minus, on }: NonNullable<Charger['does']['enable']>,
  at: Solved | undefined,
): string {
  const [signal, back, inMinus] = [plus, minus, does.inMinus].map((t) => `${part.id}.${t}`);
  if (minus === does.inMinus || signal === undefined || back === undefined || inMinus === undefined)
    return '';
  const toInput = at?.volts(signal, inMinus) ?? null;
  if (toInput === null || toInput < on.sourced.value) return '';
  return ` (${signal} stands at ${V(toInput)} to ${inMinus}, but it is measured to ${back}, which has no way back to there)`;
}

function highest(
  points: readonly Solved[],
  of: (s: Solved) => number | null,
): { readonly volts: number | null; readonly at: Solved | null; readonly text: string } {
  let volts: number | null = null;
  let at: Solved | null = null;
  for (const s of points) {
    const v = of(s);
    if (v !== null && (volts === null || clearlyLess(volts, v))) [volts, at] = [v, s];
  }
  return { volts, at, text: volts === null ? 'no voltage (it floats)' : `at most ${V(volts)}` };
}

const bases = (charger: Charger, op: Operation): readonly Basis[] =>
  present([...chargerBases(charger), ...runningStates(op).flatMap((s) => [s.posts.min, s.posts.max])]);
