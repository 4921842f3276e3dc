/** How much of the house battery's current the monitor's shunt sees. */
import type { Basis, Check, Id, Judgement, Operation, Placed, Remedy, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { settledExample } from './support/examples.ts';
import { bypassedShuntExample } from './support/examples-negative.ts';
import { judgement, present, step } from './support/judgement.ts';
import type { Hop } from './support/net.ts';
import { idsOf, netOf, reach, refOf } from './support/net.ts';
import { wayBases } from './support/feed.ts';
import type { Battery } from './support/no-start.ts';
import { batteries, netAmps } from './support/no-start.ts';
import { A, Ah, capital, inState, listed, percent, time, whereWords } from './support/words.ts';
import { whole, worstOf } from './support/worst.ts';

export const shuntShare: Check = {
  id: 'shunt-share',
  title: 'The shunt sees all of the battery current',
  family: 'negative network',
  danger: false,
  statements: TOPICS.shuntShare,
  subjects: (op) => shunts(op).map((s) => ({ id: s.part.id, label: s.part.label })),
  judge(subject, op) {
    const shunt = shunts(op).find((s) => s.part.id === subject.id);
    if (shunt === undefined) throw new Error(`no shunt ${subject.id}`);
    return judge(shunt, op);
  },
  remedies(subject, op) {
    const shunt = shunts(op).find((s) => s.part.id === subject.id);
    return shunt === undefined ? [] : behindIt(shunt, op);
  },
  failing: bypassedShuntExample,
  passing: settledExample,
};

interface Shunt {
  readonly part: Placed;
  readonly battery: string;
  readonly system: string;
  /** Batteries whose negative it stands in. */
  readonly bank: readonly Battery[];
}

function shunts(op: Operation): readonly Shunt[] {
  return [...op.parts.values()].flatMap((part) => {
    const { measures } = part.ability;
    if (measures === undefined) return [];
    const [battery, system] = [refOf(part.id, measures.battery), refOf(part.id, measures.system)];
    return [{ part, battery, system, bank: bankOf(op, part, battery, system) }];
  });
}

/** The nearest battery, on the battery side if one is there, and those in parallel with it, without the body. */
function bankOf(op: Operation, part: Placed, battery: string, system: string): readonly Battery[] {
  for (const side of [battery, system]) {
    const reached = reach(
      netOf(op),
      side,
      (link) => link.id !== part.id && link.type !== 'body' && !isConverter(op, link.id),
    );
    const near = batteries(op)
      .flatMap((b) => {
        const hops = reached.get(b.minus);
        return hops === undefined ? [] : [{ battery: b, hops: hops.length }];
      })
      .toSorted((a, b) => a.hops - b.hops);
    const first = near[0]?.battery;
    if (first !== undefined)
      return near.map((n) => n.battery).filter((b) => b.stores.role === first.stores.role);
  }
  return [];
}

const isConverter = (op: Operation, id: string): boolean => op.parts.get(id)?.ability.converts !== undefined;

/** Of the conditions in which it errs too much, that with the greatest error over the state counts. */
function byError(
  op: Operation,
  bank: readonly Battery[],
  s: Solved,
  found: { readonly margin: number; readonly of: Share } | null,
): { readonly margin: number; readonly of: Share } | null {
  if (found === null || found.margin >= -1e-9) return null;
  const seconds = countedFor(op, bank, s, found.of);
  return { margin: -Math.abs(found.of.bank - found.of.shunt) * seconds, of: found.of };
}

/** How long the state lasts, but no longer than the bank's capacity does at this current, s. */
function countedFor(op: Operation, bank: readonly Battery[], s: Solved, share: Share): number {
  const lasts = op.stateFacts(s.condition.state)?.lasts.sourced.value ?? HOUR_S;
  const capacity = capacityOf(bank);
  return capacity > 0 ? Math.min(lasts, (capacity * HOUR_S) / Math.abs(share.bank)) : lasts;
}

const HOUR_S = 3600;

const capacityOf = (bank: readonly Battery[]): number =>
  bank.reduce((sum, b) => sum + (b.stores.capacity?.sourced.value ?? 0), 0);

/** The monitor may err by this share (common practice). */
const TOLERATED = 0.02;
/** A shunt that is turned round shows about all of the current, with the wrong sign. */
const TURNED = -0.5;
/** Below this bank current a share says nothing, A. */
const LEAST_AMPS = 1;

interface Share {
  readonly shunt: number;
  readonly bank: number;
}

function judge({ part, battery, system, bank }: Shunt, op: Operation): Judgement {
  const label = capital(part.label);
  const terminal = battery.slice(part.id.length + 1);
  if (bank.length === 0) {
    return judgement({
      holds: false,
      says: `${label} stands in the negative of no battery: the monitor reads nothing.`,
      about: [part.id],
    });
  }
  const measure = (s: Solved): { readonly margin: number; readonly of: Share } | null => {
    const amps = bank.reduce((sum, b) => sum + netAmps(s, b), 0);
    if (Math.abs(amps) <= LEAST_AMPS) return null;
    const through = s.terminalAmps(part.id, terminal);
    return { margin: TOLERATED - Math.abs(1 - through / amps), of: { shunt: through, bank: amps } };
  };
  const seen = worstOf(whole(op), measure);
  const worst =
    seen === null || seen.margin >= -1e-9
      ? seen
      : (worstOf(whole(op), (s) => byError(op, bank, s, measure(s))) ?? seen);
  const names = listed(bank.map((b) => b.part.label));
  const about = [part.id, ...bank.map((b) => b.part.id)];
  if (worst === null)
    return judgement({
      holds: true,
      says: () => `${capital(names)} carries no more than 1 A in any condition.`,
      about,
    });
  const share = worst.of.shunt / worst.of.bank;
  const margin = TOLERATED - Math.abs(1 - share);
  const holds = margin >= -1e-9;
  const shared = {
    value: { value: share * 100, unit: '%' },
    limit: { value: (1 - TOLERATED) * 100, unit: '%' },
    margin: margin * 100,
    worst: worst.solved.id,
    others: worst.others,
  };
  if (holds) {
    return judgement({
      ...shared,
      holds,
      says: () => `${label} sees ${percent(share)} of the current of ${names}.`,
      working: shareSteps(part, worst.solved, worst.of),
      about,
    });
  }
  return bypassed({ part, battery, system, bank }, op, worst.solved, worst.of, shared);
}

function bypassed(
  shunt: Shunt,
  op: Operation,
  solved: Solved,
  share: Share,
  shared: Partial<Judgement>,
): Judgement {
  const { part, bank } = shunt;
  const label = capital(part.label);
  const lasts = op.stateFacts(solved.condition.state)?.lasts ?? null;
  const seconds = countedFor(op, bank, solved, share);
  const lost = ((share.bank - share.shunt) * seconds) / HOUR_S;
  const capacity = capacityOf(bank);
  // A little the other way is what goes round it, not a shunt that was fitted the wrong way.
  const turned = share.shunt / share.bank < TURNED;
  const past = turned ? null : wayAround(shunt, op);
  const by = turned ? [] : past === null ? carrying(shunt, op, solved, share) : idsOf(past);
  const says = turned
    ? `${label} is turned round: it counts charge as discharge.`
    : `${label} sees ${percent(share.shunt / share.bank)} of the battery's current ${inState(solved.condition.state)}: ${A(Math.sign(share.bank) * share.shunt)} of ${A(Math.abs(share.bank))}; the rest goes round it${by.length === 0 ? '' : ` through ${by.join(', ')}`}. ${Ah(Math.abs(lost))} wrong in ${time(seconds)}.`;
  return judgement({
    ...shared,
    holds: false,
    says,
    working: () => [
      ...shareSteps(part, solved, share),
      ...(by.length === 0
        ? []
        : [step('way round it', by.join(', '), share.bank - share.shunt, 'A', { about: by })]),
      step(
        `error over the state`,
        `(${A(share.bank)} − ${A(share.shunt)}) × ${time(seconds)}`,
        Math.abs(lost),
        'Ah',
      ),
      ...(capacity > 0
        ? [
            step(
              'of the capacity',
              `${Ah(Math.abs(lost))} / ${Ah(capacity)}`,
              (Math.abs(lost) / capacity) * 100,
              '%',
            ),
          ]
        : []),
    ],
    restsOn: restsOn(op, lasts, past),
    about: [part.id, ...bank.map((b) => b.part.id), ...by],
  });
}

const restsOn = (op: Operation, lasts: Basis | null, past: readonly Hop[] | null): readonly Basis[] =>
  present([lasts, ...(past === null ? [] : wayBases(op, past))]);

function shareSteps(part: Placed, solved: Solved, share: Share): Judgement['working'] {
  return [
    step('current of the battery', whereWords(solved), share.bank, 'A'),
    step(`through ${part.id}`, whereWords(solved), share.shunt, 'A', { about: [part.id] }),
    step('share', `${A(share.shunt)} / ${A(share.bank)}`, (share.shunt / share.bank) * 100, '%'),
  ];
}

/** Wires at the bank's own negatives that lead past the shunt, each with the end that stands there. */
const straight = (shunt: Shunt, op: Operation): readonly { readonly id: Id; readonly end: 'from' | 'to' }[] =>
  shunt.bank.flatMap(({ minus }) =>
    op.wiresAt(minus).flatMap((id) => {
      const wire = op.wires.get(id);
      if (wire === undefined) return [];
      const [end, far] = wire.from === minus ? (['from', wire.to] as const) : (['to', wire.from] as const);
      return far === shunt.battery || shunt.bank.some((b) => b.minus === far) ? [] : [{ id, end }];
    }),
  );

/** Of these the wires that carry a share that matters. */
const carrying = (shunt: Shunt, op: Operation, solved: Solved, share: Share): readonly Id[] =>
  straight(shunt, op)
    .map(({ id }) => id)
    .filter((id) => Math.abs(solved.wireAmps(id)) > TOLERATED * Math.abs(share.bank));

/** Each wire that ends on the battery's own negative is moved behind the shunt; all of them where there are several. */
function behindIt(shunt: Shunt, op: Operation): readonly Remedy[] {
  const wires = straight(shunt, op);
  const move = (moved: typeof wires): Remedy => ({
    title: `move the end of ${listed(moved.map(({ id }) => id))} to the system side of ${shunt.part.label}`,
    changes: moved.map(({ id, end }) => ({ set: ['wires', id, end], to: shunt.system })),
  });
  return [...wires.map((wire) => move([wire])), ...(wires.length > 1 ? [move(wires)] : [])];
}

/** The shortest way from the bank's negative to the far side of the shunt that does not pass it. */
function wayAround(shunt: Shunt, op: Operation): readonly Hop[] | null {
  const start = shunt.bank[0]?.minus;
  if (start === undefined) return null;
  const ways = reach(netOf(op), start, (link) => link.id !== shunt.part.id);
  const far = [
    shunt.system,
    ...batteries(op)
      .filter((b) => !shunt.bank.some((own) => own.part.id === b.part.id))
      .map((b) => b.minus),
  ];
  return far.map((t) => ways.get(t)).find((w) => w !== undefined) ?? null;
}
