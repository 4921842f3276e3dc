/** What is drawn while the vehicle stands: days until it no longer starts, or the house battery is flat. */
import type {
  Basis,
  Check,
  Judgement,
  Operation,
  Placed,
  Remedy,
  Solved,
  StateFacts,
  Step,
  Subject,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chargers, charges } from './support/charger.ts';
import { drainedExample, settledExample } from './support/examples.ts';
import { absent, judgement, missing, present, step } from './support/judgement.ts';
import { netOf, reach, reachPast, refOf } from './support/net.ts';
import type { Battery } from './support/no-start.ts';
import { batteries, batteryById, netAmps, vehicleLoadOf } from './support/no-start.ts';
import { A, Ah, capital, listed, time, until } from './support/words.ts';
import { clearlyLess, whole } from './support/worst.ts';

export const drain: Check = {
  id: 'drain',
  title: 'Standing drain leaves a start',
  family: 'time to no-start',
  danger: true,
  statements: TOPICS.standingDrain,
  subjects: (op) => batteries(op).map((b): Subject => ({ id: b.part.id, label: b.part.label })),
  judge: (subject, op) => judge(batteryById(op, subject.id), op),
  remedies: (subject, op, judgement) => remedies(batteryById(op, subject.id), op, judgement),
  failing: drainedExample,
  passing: settledExample,
};

const MONTH_S = 30 * 86_400;
const STANDING = ['parked', 'stored'] as const;

/** One state in which it stands. */
interface Stand {
  readonly facts: StateFacts;
  readonly solved: Solved | null;
  /** Drawn from the terminals, A. */
  readonly drawn: number;
  /** Lost inside, A. */
  readonly lost: number;
  readonly usable: number;
  readonly seconds: number;
  /** The time is judged: it was given, or a charger draws, which no owner plans for. */
  readonly judged: boolean;
}

function judge(battery: Battery, op: Operation): Judgement {
  const { stores, part } = battery;
  const label = capital(part.label);
  const usable = usableAh(battery);
  if (usable === null) {
    const basis = absent(
      `parts.${part.id}.capacity`,
      `capacity of ${part.label}`,
      'read it on the battery',
      'Ah',
    );
    return missing(
      `How long ${part.label} stands cannot be said without its capacity.`,
      [{ basis, why: 'the time is a share of it' }],
      { about: [part.id] },
    );
  }
  const stands = STANDING.flatMap((id) => {
    const facts = op.stateFacts(id);
    return facts === null ? [] : [stand(battery, facts, usable.sourced.value, op)];
  });
  const failing = stands.filter((s) => s.judged && s.seconds < s.facts.lasts.sourced.value);
  const shown = failing[0] ?? stands.filter((s) => s.judged)[0] ?? stands[0];
  if (shown === undefined)
    return judgement({ holds: true, says: `${label} is never left standing.`, about: [part.id] });
  const does = stores.role === 'vehicle' ? 'starts the engine for' : 'is half empty after';
  const drawnOn = stands.filter((s) => Number.isFinite(s.seconds));
  const each =
    drawnOn.length === 0
      ? 'is not drawn on while it stands'
      : `${does} ${listed(drawnOn.map((s) => `${until(s.seconds)} ${s.facts.label}`))}`;
  const says =
    failing.length > 0
      ? `${label} ${does} ${until(shown.seconds)} ${shown.facts.label} (${A(shown.drawn + shown.lost)}); it is meant to stand ${time(shown.facts.lasts.sourced.value)}.`
      : `${label} ${each}.`;
  return judgement({
    holds: failing.length === 0,
    ...(stores.role === 'vehicle' ? {} : { severity: 'fault' as const }),
    says,
    value: {
      value: Number.isFinite(shown.seconds) ? shown.seconds : null,
      unit: 's',
      ...(Number.isFinite(shown.seconds) ? {} : { words: 'no end' }),
    },
    limit: shown.judged ? { value: shown.facts.lasts.sourced.value, unit: 's' } : { value: null, unit: 's' },
    margin:
      shown.judged && Number.isFinite(shown.seconds) ? shown.seconds - shown.facts.lasts.sourced.value : null,
    worst: shown.solved?.id ?? null,
    others: Math.max(0, failing.length - 1),
    working: stands.flatMap((s) => steps(s, battery, usable, op)),
    restsOn: bases(battery, usable, stands, op),
    about: [part.id, ...drawers(battery, op).map((p) => p.id)],
  });
}

/** Vehicle: the reserve for a start. House: half of the capacity, the state the judged set begins with. */
function usableAh(battery: Battery): Basis | null {
  const { noStartReserve, capacity, role } = battery.stores;
  if (role === 'vehicle') return noStartReserve;
  if (capacity === null) return null;
  return {
    ...capacity,
    sourced: { ...capacity.sourced, value: capacity.sourced.value / 2 },
    label: `half of the ${capacity.label}`,
  };
}

function stand(battery: Battery, facts: StateFacts, usable: number, op: Operation): Stand {
  let worst: Solved | null = null;
  let drawn = 0;
  let charging = false;
  for (const s of whole(op)) {
    if (s.condition.state !== facts.id) continue;
    const amps = quiet(s) ? -netAmps(s, battery) : Number.NEGATIVE_INFINITY;
    if (worst === null || clearlyLess(drawn, amps)) [worst, drawn] = [s, Math.max(amps, 0)];
    charging ||= battery.stores.role === 'vehicle' && chargers(op).some((c) => charges(s, c));
  }
  // Rounding of the solver is no drain.
  drawn = drawn < NOTHING_A ? 0 : drawn;
  drawn += unwiredStandby(battery, op).reduce(
    (sum, p) => sum + (p.ability.standby?.amps.sourced.value ?? 0),
    0,
  );
  const lost = selfDischargeAmps(battery);
  const all = drawn + lost;
  return {
    facts,
    solved: worst,
    drawn,
    lost,
    usable,
    seconds: all > NOTHING_A ? (usable / all) * 3600 : Number.POSITIVE_INFINITY,
    judged: facts.lastsGiven || charging,
  };
}

/** Less is nothing, A. */
const NOTHING_A = 1e-9;

/** Monitors whose own supply nobody drew: they hang on the battery in whose negative they sit. */
function unwiredStandby(battery: Battery, op: Operation): readonly Placed[] {
  const reached = reach(netOf(op), battery.minus);
  return [...op.parts.values()].filter((p) => {
    const { standby, measures } = p.ability;
    return (
      standby !== undefined &&
      measures !== undefined &&
      standby.amps.sourced.value > 0 &&
      op.wiresAt(refOf(p.id, standby.plus)).length === 0 &&
      reached.get(refOf(p.id, measures.battery))?.every((hop) => hop.link.type === 'wire') === true
    );
  });
}

/** Loads that somebody uses are no standing drain, nor does the sun count for it: only what is always on. */
const quiet = (s: Solved): boolean =>
  s.condition.corner === 'typical-quiet' || s.condition.corner === 'strong';

function selfDischargeAmps(battery: Battery): number {
  const { selfDischarge, capacity } = battery.stores;
  if (selfDischarge === null || capacity === null) return 0;
  return (selfDischarge.sourced.value * capacity.sourced.value * 3600) / MONTH_S;
}

/** Chargers that run while it stands. */
const charging = (s: Stand, op: Operation): readonly string[] =>
  chargers(op).flatMap((c) => (s.solved !== null && charges(s.solved, c) ? [c.part.id] : []));

function steps(s: Stand, battery: Battery, usable: Basis, op: Operation): readonly Step[] {
  const { facts, drawn, lost } = s;
  const who = [
    ...drawers(battery, op)
      .filter((p) => drawsIn(s, p))
      .map((p) => p.id),
    ...charging(s, op),
  ];
  const { selfDischarge, capacity } = battery.stores;
  const share =
    selfDischarge === null || capacity === null
      ? 'not counted'
      : `${selfDischarge.sourced.value * 100} % of ${Ah(capacity.sourced.value)} a month`;
  return [
    step(`drawn while ${facts.label}`, who.length === 0 ? 'nothing' : listed(who), drawn, 'A', {
      about: who,
    }),
    step('self-discharge', share, lost, 'A'),
    step(
      `stands ${facts.label}`,
      drawn + lost > NOTHING_A ? `${Ah(usable.sourced.value)} / ${A(drawn + lost)}` : 'nothing is drawn',
      Number.isFinite(s.seconds) ? s.seconds : null,
      's',
    ),
  ];
}

/** True unless the part stands with nothing through it: the starter is no drain while nobody turns the key. */
function drawsIn({ solved }: Stand, { id, ability }: Placed): boolean {
  const plus = ability.consumes?.plus;
  return solved === null || plus === undefined || Math.abs(solved.terminalAmps(id, plus)) > NOTHING_A;
}

/** Parts that draw something while they do nothing, at this battery's plus; of the vehicle its own load. */
function drawers(battery: Battery, op: Operation): readonly Placed[] {
  const reached = reachPast(netOf(op), battery.plus, 'with');
  const unwired = unwiredStandby(battery, op);
  return [...op.parts.values()].filter((p) => {
    const { standby, consumes } = p.ability;
    if (unwired.includes(p)) return true;
    if (consumes !== undefined && (consumes.ofVehicle || consumes.schedule === 'always'))
      return reached.has(refOf(p.id, consumes.plus));
    return standby !== undefined && standby.amps.sourced.value > 0 && reached.has(refOf(p.id, standby.plus));
  });
}

function bases(battery: Battery, usable: Basis, stands: readonly Stand[], op: Operation): readonly Basis[] {
  const vehicle = battery.stores.role === 'vehicle';
  return present([
    usable,
    battery.stores.selfDischarge,
    ...(vehicle ? stands.flatMap((s) => [vehicleLoadOf(op, s.facts), s.facts.lasts]) : []),
    ...drawers(battery, op).map((p) => p.ability.standby?.amps),
  ]);
}

/** What draws can be switched off for storage. */
function remedies(battery: Battery, op: Operation, judged: Judgement): readonly Remedy[] {
  if (judged.holds !== false) return [];
  return [...op.parts.values()]
    .filter((p) => !p.implied && (p.ability.switches?.isolates === true || p.ability.protects !== undefined))
    .filter((p) => p.ability.switches?.storedOpen !== true)
    .slice(0, 4)
    .map((p) => ({
      title: `open ${p.label} for storage`,
      changes: [{ set: ['parts', p.id, 'stored'], to: 'open' }],
    }));
}
