/** Drop of consumers and converters: volts at the posts of the source that feeds them less volts at their terminals. */
import type {
  Basis,
  Check,
  Id,
  Judgement,
  Need,
  Operation,
  Placed,
  Practice,
  Solved,
  Subject,
  VoltsOver,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { thinLoadExample, thickLoadExample } from './support/examples.ts';
import type { Feed } from './support/feed.ts';
import { feedsOf, loadTerminals, loopHops, loopSteps, wayBases, wiresOf } from './support/feed.ts';
import { partNeed } from './support/figures-needed.ts';
import { judgement, missing, present, step } from './support/judgement.ts';
import { conduct, diodesOf, lostWords, lowLoss } from './support/low-loss.ts';
import { perOperation } from './support/memo.ts';
import { wayNeeds } from './support/needs.ts';
import { thicker } from './support/sizes.ts';
import { A, capital, inState, listed, percent, V, whereWords } from './support/words.ts';
import { clearlyLess, isCycling, whole, wholePlaces, worstOf } from './support/worst.ts';

export const drop: Check = {
  id: 'drop',
  title: 'Voltage drop around the whole loop',
  family: 'drop',
  danger: false,
  statements: [...TOPICS.dropCritical, ...TOPICS.dropOther],
  subjects: (op) => users(op).map((u) => ({ id: u.part.id, label: u.part.label })),
  judge: (subject, op, practice) => judge(userOf(op, subject), op, practice),
  remedies(subject, op) {
    const { feeds } = userOf(op, subject);
    return [...thicker(op, feeds.flatMap(wiresIn)), ...lowLoss(op, feeds.flatMap(diodesOf))];
  },
  failing: thinLoadExample,
  passing: thickLoadExample,
};

/** Something that draws current: a load, or a converter at its input. */
interface User {
  readonly part: Placed;
  readonly plus: string;
  readonly minus: string | null;
  /** What feeds it; several where each stands behind a diode. */
  readonly feeds: readonly Feed[];
  /** null: converters have no statement. */
  readonly class: 'critical' | 'other' | null;
  amps(s: Solved): number;
}

const users: (op: Operation) => readonly User[] = perOperation((op) =>
  [...op.parts.values()].flatMap((part) => [...loadOf(part, op), ...converterOf(part, op)]),
);

const userOf = (op: Operation, subject: Subject): User => {
  const found = users(op).find((u) => u.part.id === subject.id);
  if (found === undefined) throw new Error(`nothing draws current at ${subject.id}`);
  return found;
};

function loadOf(part: Placed, op: Operation): readonly User[] {
  const consumes = part.ability.consumes;
  const at = loadTerminals(part);
  if (consumes === undefined || at === null || consumes.ofVehicle || consumes.class === 'none') return [];
  const amps = (s: Solved): number => s.terminalAmps(part.id, consumes.plus);
  return [{ part, ...at, feeds: feedsOf(op, at.plus, at.minus), class: consumes.class, amps }];
}

function converterOf(part: Placed, op: Operation): readonly User[] {
  const converts = part.ability.converts;
  if (converts === undefined) return [];
  const plus = `${part.id}.${converts.inPlus}`;
  const minus = `${part.id}.${converts.inMinus}`;
  const amps = (s: Solved): number => s.terminalAmps(part.id, converts.inPlus);
  return [{ part, plus, minus, feeds: feedsOf(op, plus, minus), class: null, amps }];
}

/** Below this a drop says nothing about the conductors, A. */
const LEAST_AMPS = 0.01;

/** Converter inputs and battery charging: 3 % of nominal is worth knowing (common practice). */
const CONVERTER_SHARE = 0.03;

function judge(user: User, op: Operation, practice: Practice): Judgement {
  const { feeds, part } = user;
  const label = capital(part.label);
  const [nearest] = feeds;
  if (nearest === undefined) {
    return judgement({ holds: true, says: `${label} is not connected to a source.`, about: [part.id] });
  }
  const needs = [...amountNeeds(part), ...wayNeeds(op, feeds.flatMap(loopHops))];
  if (needs.length > 0) {
    const says = `The drop of ${part.label} cannot be said: ${listed(needs.map((n) => n.basis.label))} not given.`;
    return missing(says, needs, {
      about: [part.id, ...feeds.flatMap(wiresIn)],
      ...(user.class === null ? { severity: 'advice' as const } : {}),
    });
  }
  const limit = user.class === null ? null : practice.dropLimits[user.class];
  const share = limit?.sourced.value ?? CONVERTER_SHARE;
  const own = op.voltsOver(user.plus, user.minus ?? nearest.minus);
  const seen = (feed: Feed): Fed => ({
    feed,
    posts: op.voltsOver(feed.plus, feed.minus),
    diodes: diodesOf(feed),
  });
  const sources: readonly [Fed, ...Fed[]] = [seen(nearest), ...feeds.slice(1).map(seen)];
  const places = wholePlaces(op);
  let least = Infinity;
  const worst = worstOf(whole(op), (s, i) => {
    const place = places[i] ?? 0;
    const at = lowestOf(s, own, place);
    if (Number.isNaN(at)) return null;
    const from = highest(sources, s, place);
    const source = sourceVolts(from, s, place);
    const { feed } = from;
    if (Number.isNaN(source)) return null;
    const margin = share * feed.nominal - (source - at);
    // What neither fails nor is the worst yet need not be asked for its current.
    const isWorst = clearlyLess(margin, least);
    if (!isWorst && !(margin < 0)) return null;
    const amps = isCycling(s) ? mostInto(op, user, s) : user.amps(s);
    if (!(amps > LEAST_AMPS)) return null;
    if (isWorst) least = margin;
    return { margin, of: { amps, at, source, feed } };
  });
  if (worst === null)
    return judgement({ holds: true, says: `${label} draws no current in any condition.`, about: [part.id] });
  const starved = lowest(user, op);
  if (starved !== null) return starved;
  const { amps, at, source, feed } = worst.of;
  const volts = source - at;
  const holds = worst.margin >= -1e-9 * share * feed.nominal;
  return judgement({
    holds,
    ...(user.class === null ? { severity: 'advice' as const } : {}),
    says: () =>
      `${label} loses ${V(volts)} between ${feed.part.label} and its terminals${lostWords(worst.solved, feed)}: ${percent(volts / feed.nominal)} of ${feed.nominal} V, ${percent(share)} is ${user.class === null ? 'usual for a charger' : 'allowed'}.`,
    value: { value: (volts / feed.nominal) * 100, unit: '%' },
    limit: { value: share * 100, unit: '%' },
    margin: (worst.margin / feed.nominal) * 100,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step(`volts at the posts of ${feed.part.id}`, whereWords(worst.solved), source, 'V'),
      step(`volts at ${part.id}`, `drawing ${A(amps)}`, at, 'V'),
      ...loopSteps(worst.solved, feed),
      step('drop around the loop', `${V(source)} − ${V(at)}`, volts, 'V'),
      step('of the source voltage', `${V(volts)} / ${V(source)}`, (volts / source) * 100, '%'),
      step('of nominal', `${V(volts)} / ${feed.nominal} V`, (volts / feed.nominal) * 100, '%'),
    ],
    restsOn: () => present([...amounts(part), ...wayBases(op, loopHops(feed))]),
    limits: present([limit]),
    about: [part.id, ...diodesOf(feed), ...wiresIn(feed)],
  });
}

const wiresIn = (feed: Feed): readonly Id[] => wiresOf(loopHops(feed));

interface Fed {
  readonly feed: Feed;
  readonly posts: VoltsOver;
  readonly diodes: readonly Id[];
}

/** Volts at the posts of a source, NaN where it does not feed past its diodes. */
const sourceVolts = ({ posts, diodes }: Fed, s: Solved, place: number): number =>
  conduct(s, diodes) ? lowestOf(s, posts, place) : Number.NaN;

/** Of the sources that feed it past their diodes the one with the highest volts, else the first. */
function highest(sources: readonly [Fed, ...Fed[]], s: Solved, place: number): Fed {
  let best = sources[0];
  if (sources.length === 1) return best;
  let volts = sourceVolts(best, s, place);
  for (const other of sources.slice(1)) {
    const source = sourceVolts(other, s, place);
    if (!(Number.isNaN(volts) || source > volts)) continue;
    best = other;
    volts = source;
  }
  return best;
}

/** Volts at rest; in a cycle the least, which both ends have while the current flows: a mean would hide it. */
const lowestOf = (s: Solved, volts: VoltsOver, place: number): number =>
  (isCycling(s) ? volts.least : volts.mean)[place] ?? Number.NaN;

/** Greatest current that a cycle draws through the wires of the user's plus, A. */
const mostInto = (op: Operation, user: User, s: Solved): number =>
  op.wiresAt(user.plus).reduce((most, wire) => Math.max(most, s.wireMost(wire)), 0);

/** A load that gets less than it needs; null where it gets enough or nobody said. */
function lowest(user: User, op: Operation): Judgement | null {
  const need = user.part.ability.consumes?.atLeast ?? null;
  const minus = user.minus ?? user.feeds[0]?.minus ?? null;
  if (need === null || minus === null) return null;
  const least = need.sourced.value;
  const worst = worstOf(whole(op), (s) => {
    const at = s.voltsRange(user.plus, minus)?.[0];
    return at === undefined || !(user.amps(s) > LEAST_AMPS) ? null : { margin: at - least, of: at };
  });
  if (worst === null || worst.margin >= -1e-9 * least) return null;
  return judgement({
    holds: false,
    says: () =>
      `${capital(user.part.label)} gets only ${V(worst.of)} ${inState(worst.solved.condition.state)}; it needs ${V(least)}.`,
    value: { value: worst.of, unit: 'V' },
    limit: { value: least, unit: 'V' },
    margin: worst.margin,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step(`volts at ${user.part.id}`, whereWords(worst.solved), worst.of, 'V'),
      step('it needs', need.sourced.source, least, 'V'),
    ],
    restsOn: present([...amounts(user.part), need]),
    about: [user.part.id],
  });
}

/** A load or charger of which nobody said how much it takes. */
function amountNeeds(part: Placed): readonly Need[] {
  const { consumes, converts } = part.ability;
  const known =
    (consumes === undefined || consumes.amps !== null) &&
    (converts === undefined || converts.current !== null);
  return known ? [] : [partNeed(part.id, 'current', 'the drop follows from it')];
}

const amounts = (part: Placed): readonly (Basis | null | undefined)[] => [
  part.ability.consumes?.amps,
  part.ability.converts?.current,
  part.ability.converts?.efficiency,
];
