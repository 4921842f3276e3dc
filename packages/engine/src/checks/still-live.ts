/** What stays live behind an opened fuse, breaker or isolator, and what feeds it. */
import type { Check, Id, Judgement, Operation, Placed, Requirement, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { deadBeyondExample, liveBeyondExample } from './support/examples-negative.ts';
import { nominalOf } from './support/feed.ts';
import { judgement, step } from './support/judgement.ts';
import { perName, perOperation } from './support/memo.ts';
import { netOf, partOf, reach, reachPast, refOf } from './support/net.ts';
import { capital, inState, listed, V, whereWords } from './support/words.ts';
import { worstOf } from './support/worst.ts';

const ASKED: Requirement = 'a tripped breaker leaves nothing live beyond it';

export const stillLive: Check = {
  id: 'still-live',
  title: 'Nothing stays live behind an opened device',
  family: 'still live',
  danger: false,
  statements: [...TOPICS.stillLive, ...TOPICS.nothingLiveBeyond],
  subjects: (op) => devices(op).map((d) => ({ id: d.part.id, label: d.part.label })),
  judge(subject, op) {
    const device = devices(op).find((d) => d.part.id === subject.id);
    if (device === undefined) throw new Error(`no device ${subject.id}`);
    return judge(device, op);
  },
  failing: liveBeyondExample,
  passing: deadBeyondExample,
};

/** A device that can be opened, with the terminal pairs that it parts. */
interface Device {
  readonly part: Placed;
  readonly pairs: readonly (readonly [string, string])[];
}

/** What is opened alone in the judged set. */
const devices: (op: Operation) => readonly Device[] = perOperation((op) => {
  const opened = new Set(op.judged.flatMap((c) => (c.open === null ? [] : [c.open])));
  return [...opened].flatMap((id) => {
    const part = op.parts.get(id);
    if (part === undefined) return [];
    const { protects, switches } = part.ability;
    const pairs =
      protects !== undefined
        ? [[refOf(id, protects.from), refOf(id, protects.to)] as const]
        : (switches?.contacts ?? []).map((c) => [refOf(id, c.from), refOf(id, c.to)] as const);
    return pairs.length === 0 ? [] : [{ part, pairs }];
  });
});

/** Outcomes with each device open. */
const openedOf: (op: Operation) => ReadonlyMap<Id, readonly Solved[]> = perOperation((op) => {
  const opened = new Map<Id, Solved[]>();
  for (const solved of op.all()) {
    const { open } = solved.condition;
    if (open === null) continue;
    const known = opened.get(open);
    if (known === undefined) opened.set(open, [solved]);
    else known.push(solved);
  }
  return opened;
});

/** Under this nothing happens when a tool slips, V. */
const DEAD_V = 2;

function judge({ part, pairs }: Device, op: Operation): Judgement {
  const label = capital(part.label);
  const beyond = pairs.flatMap((pair) => beyondOf(op, part, pair));
  const minus = op.posts?.minus ?? null;
  const points = openedOf(op).get(part.id) ?? [];
  const minuses = minus === null ? null : [minus, ...ownNegatives(op)];
  const worst = minuses === null ? null : worstOf<Live>(points, (s) => worstLive(s, beyond, minuses));
  const asked = op.build.requires.includes(ASKED) && part.ability.protects?.type === 'breaker';
  const shared = { limit: { value: DEAD_V, unit: 'V' }, about: [part.id], restsOn: [] };
  if (beyond.length === 0) {
    return judgement({ ...shared, holds: true, says: `${label} parts no live conductor.` });
  }
  if (worst === null)
    return judgement({
      ...shared,
      holds: true,
      says: `Behind ${part.label}, opened, nothing has a path to the battery.`,
    });
  const twoWay = twoWayBehind(op, part, beyond);
  if (worst.of.volts <= DEAD_V && twoWay !== null) return fedBack(part, twoWay, op, asked);
  const { volts, at } = worst.of;
  const holds = volts <= DEAD_V;
  const feeders = holds ? [] : feedersOf(op, part, at, worst.solved);
  const by = feeders.length === 0 ? '' : `, fed by ${listed(feeders)}`;
  return judgement({
    ...shared,
    holds,
    severity: asked ? 'fault' : 'advice',
    says: () =>
      holds
        ? `With ${part.label} open everything behind it is dead after 10 s (${V(volts)}).`
        : `With ${part.label} open, ${at} is still live ${inState(worst.solved.condition.state)}: ${V(volts)}${by}.`,
    value: { value: volts, unit: 'V' },
    margin: DEAD_V - volts,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step(
        `volts from ${at} to ${worst.of.minus}`,
        `${whereWords(worst.solved)}, ${part.id} open; wait 10 s`,
        volts,
        'V',
        {
          about: [part.id, ...feeders],
        },
      ),
    ],
    about: [part.id, ...feeders],
  });
}

/** A two-way unit whose input hangs on the far side, and where: from the house it can hold that side up. */
function twoWayBehind(
  op: Operation,
  part: Placed,
  beyond: readonly string[],
): { readonly unit: Placed; readonly at: string } | null {
  for (const at of beyond) {
    const reached = without(op, part, at);
    for (const unit of op.parts.values()) {
      const c = unit.ability.converts;
      if (c?.twoWay === true && reached.has(refOf(unit.id, c.inPlus))) return { unit, at };
    }
  }
  return null;
}

function fedBack(
  part: Placed,
  { unit, at }: { readonly unit: Placed; readonly at: string },
  op: Operation,
  asked: boolean,
): Judgement {
  const volts = nominalOf(op, unit.ability.converts?.inputSystem ?? null);
  return judgement({
    holds: false,
    severity: asked ? 'fault' : 'advice',
    says: `With ${part.label} open, ${at} can stay live from the house: ${unit.label} works both ways.`,
    value: { value: volts, unit: 'V' },
    limit: { value: DEAD_V, unit: 'V' },
    margin: DEAD_V - volts,
    working: () => [
      step(`volts of ${at}, held by ${unit.id}`, 'nominal volts of its input side', volts, 'V', {
        about: [part.id, unit.id],
      }),
    ],
    about: [part.id, unit.id],
  });
}

interface Live {
  readonly volts: number;
  readonly at: string;
  /** The negative that it was read against. */
  readonly minus: string;
}

/** Negatives of batteries and converter outputs: an isolated side floats against the vehicle and is live against its own. */
const ownNegatives = (op: Operation): readonly string[] =>
  [...op.parts.values()].flatMap(({ id, ability: { stores, converts } }) =>
    [stores?.minus, converts?.outMinus].flatMap((t) => (t === undefined ? [] : [refOf(id, t)])),
  );

/** `minuses`: the first that has a path to the point is read against. */
function worstLive(
  s: Solved,
  beyond: readonly string[],
  minuses: readonly string[],
): { readonly margin: number; readonly of: Live } | null {
  let live: Live | null = null;
  for (const at of beyond) {
    const here = liveAt(s, at, minuses);
    if (live === null || here.volts > live.volts) live = here;
  }
  return live === null ? null : { margin: DEAD_V - live.volts, of: live };
}

function liveAt(s: Solved, at: string, minuses: readonly string[]): Live {
  for (const minus of minuses) {
    const range = s.voltsRange(at, minus);
    if (range !== null) return { at, minus, volts: Math.max(Math.abs(range[0]), Math.abs(range[1])) };
  }
  return { at, minus: minuses[0] ?? '', volts: 0 };
}

/**
 * The side away from the source: the terminal from which no battery's plus is reached without the device. Both sides reach
 * one: both stay live by design, the far one (`to`) is named. A device in a negative parts no live conductor.
 */
function beyondOf(op: Operation, part: Placed, [a, b]: readonly [string, string]): readonly string[] {
  const [fromA, fromB] = [fedAt(op, part, a), fedAt(op, part, b)];
  if (returns(op, part, a) || returns(op, part, b)) return [];
  if (fromA && !fromB) return [b];
  if (fromB && !fromA) return [a];
  return [b];
}

type Reached = ReadonlyMap<string, unknown>;

/** All that a terminal is joined to without the device. */
function without(op: Operation, part: Placed, from: string): Reached {
  const net = netOf(op);
  return withouts(net, `${part.id} ${from}`, () => reach(net, from, (link) => link.id !== part.id));
}

const withouts = perName<Reached>();

function fedAt(op: Operation, part: Placed, terminal: string): boolean {
  const reached = feeding(op, part, terminal);
  return posts(op).some(({ plus }) => reached.has(plus));
}

function returns(op: Operation, part: Placed, terminal: string): boolean {
  const reached = without(op, part, terminal);
  return posts(op).some(({ minus }) => reached.has(minus));
}

/** Posts of all batteries. */
const posts: (op: Operation) => readonly { readonly plus: string; readonly minus: string }[] = perOperation(
  (op) =>
    [...op.parts.values()].flatMap(({ id, ability: { stores } }) =>
      stores === undefined ? [] : [{ plus: refOf(id, stores.plus), minus: refOf(id, stores.minus) }],
    ),
);

/** What a terminal is fed from without the device, past diodes that let through towards it. */
function feeding(op: Operation, part: Placed, terminal: string): Reached {
  const net = netOf(op);
  return feedings(net, `${part.id} ${terminal}`, () =>
    reachPast(net, terminal, 'against', (link) => link.id !== part.id),
  );
}

const feedings = perName<Reached>();

/** Sources that feed a live terminal; contacts count while both their sides stand at one voltage. */
function feedersOf(op: Operation, part: Placed, at: string, s: Solved): readonly string[] {
  const reached = reachPast(
    netOf(op),
    at,
    'against',
    (link) =>
      link.id !== part.id && (link.type !== 'contact' || Math.abs(s.volts(link.a, link.b) ?? 99) < 0.5),
  );
  return [...op.parts.values()]
    .filter(
      (p) =>
        p.id !== part.id &&
        p.id !== partOf(at) &&
        sourceTerminals(p).some((t) => reached.has(refOf(p.id, t))),
    )
    .map((p) => p.id);
}

function sourceTerminals(p: Placed): readonly string[] {
  const { stores, generates, converts, signals } = p.ability;
  return [
    stores?.plus,
    generates?.plus,
    converts?.outPlus,
    converts?.twoWay === true ? converts.inPlus : undefined,
    signals?.out,
  ].filter((t): t is string => t !== undefined);
}
