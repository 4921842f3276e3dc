/** Contacts: the rating for what lies behind against the greatest current in the judged set. */
import type {
  Basis,
  Check,
  Judgement,
  Operation,
  Placed,
  Remedy,
  Solved,
  Switches,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { behind, type Behind } from './support/behind.ts';
import { partNeed } from './support/figures-needed.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { greatestOver, type Greatest } from './support/loading.ts';
import { ratingsWithin } from './support/remedies.ts';
import { amps, atMost } from './support/short-text.ts';
import { leastBy } from './support/worst.ts';
import { whereWords } from './support/words.ts';

export const contacts: Check = {
  id: 'contacts',
  title: 'Rating of contacts',
  family: 'contacts',
  danger: true,
  statements: TOPICS.contactRating,
  subjects: (op) =>
    [...op.parts.values()].filter((p) => contactsOf(p).length > 0).map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no part ${subject.id}`);
    return judge(part, op);
  },
  remedies(subject, op) {
    const part = op.parts.get(subject.id);
    return part === undefined ? [] : remedies(part, op);
  },
  failing: example('{ resistive: 20 A, lamp: 2 A }'),
  passing: example('{ resistive: 20 A, lamp: 10 A }'),
};

function example(rating: string): string {
  return `loomwright: 1
title: A lamp switch
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 200 Ah }
  lamp-fuse: { kind: fuse, at: locker, family: blade-f, rating: 10 A, interrupts: 5 kA }
  lamp-switch: { kind: switch, at: locker, operated-by: owner, rating: ${rating}, least-current: 10 mA }
  lamp: { kind: load, at: locker, current: 4 A, inrush: lamp, on: always }
wires:
  lead: { from: bank.+, to: lamp-fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: lamp-fuse.load, to: lamp-switch.in, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  feed-2: { from: lamp-switch.out, to: lamp.+, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
`;
}

type Contact = Switches['contacts'][number];

/** Contacts of a part that is not a protective device: those have a rating of another kind. */
const contactsOf = (part: Placed): readonly Contact[] =>
  part.ability.protects === undefined ? (part.ability.switches?.contacts ?? []) : [];

interface Loaded {
  readonly contact: Contact;
  readonly most: Greatest;
  readonly what: Behind;
  readonly rating: Basis | null;
}

/** Each contact against its rating; while cranking against the figure for that, where there is one. */
function loads(part: Placed, op: Operation): readonly Loaded[] {
  const cranking = part.ability.switches?.rating.cranking ?? null;
  return contactsOf(part).flatMap((contact) => {
    const what = behind(op, part, contact.from, contact.to);
    const of = (all: readonly Solved[], rating: Basis | null): Loaded => ({
      contact,
      what,
      rating,
      most: greatestOver(all, (s) => s.partMost(part.id, contact.element)),
    });
    const rating = ratingFor(part, what);
    if (cranking === null) return [of(op.all(), rating)];
    const turns = (s: Solved): boolean => op.stateFacts(s.condition.state)?.cranking === true;
    return [
      of(
        op.all().filter((s) => !turns(s)),
        rating,
      ),
      of(op.all().filter(turns), cranking),
    ];
  });
}

/** An isolator is not asked to make or break; any other contact needs the figure for its load. */
function ratingFor(part: Placed, what: Behind): Basis | null {
  const switches = part.ability.switches;
  if (switches === undefined) return null;
  return switches.isolates ? switches.rating.resistive : switches.rating[what.sort];
}

/** The contact nearest to its limit; one without a figure comes first when it carries anything. */
function worst(all: readonly Loaded[]): Loaded | null {
  const share = (l: Loaded): number => {
    if (l.most.amps === 0) return 0;
    return l.rating === null ? Number.POSITIVE_INFINITY : l.most.amps / l.rating.sourced.value;
  };
  return leastBy(all, (l) => -share(l));
}

function judge(part: Placed, op: Operation): Judgement {
  const found = worst(loads(part, op));
  if (found === null) return judgement({ holds: true, says: `${part.label} has no contact.` });
  const { most, what, rating } = found;
  const about = [part.id, ...(what.because === null ? [] : [what.because])];
  const sort =
    what.sort === 'inductive' ? 'an inductive load' : what.sort === 'lamp' ? 'a lamp' : 'a resistive load';
  const because = what.because === null ? '' : ` (${what.because})`;
  const working =
    most.solved === null
      ? []
      : [step(`Greatest current through ${part.id}`, whereWords(most.solved), most.amps, 'A', { about })];
  if (rating === null && most.amps > 0)
    return missing(
      `What the contact of ${part.label} may carry with ${sort}${because} is not known; it carries ${amps(most.amps)}.`,
      [partNeed(part.id, 'rating', `its rating for ${sort}`)],
      { value: { value: most.amps, unit: 'A' }, working, about, worst: most.solved?.id ?? null },
    );
  const limit = rating?.sourced.value ?? null;
  const holds = limit === null || atMost(most.amps, limit);
  return judgement({
    holds,
    says: () =>
      `The contact of ${part.label} carries up to ${amps(most.amps)} with ${sort}${because}${limit === null ? '' : `; it is rated ${amps(limit)}`}.`,
    value: { value: most.amps, unit: 'A' },
    limit: { value: limit, unit: 'A' },
    margin: limit === null ? null : limit - most.amps,
    worst: most.solved?.id ?? null,
    working: () => [
      ...working,
      ...(rating === null ? [] : [step('Rating', `${rating.label}, for ${sort}`, limit, 'A')]),
    ],
    limits: rating === null ? [] : [rating],
    about,
  });
}

/** One that is rated for what it carries, by the standard row. */
function remedies(part: Placed, op: Operation): readonly Remedy[] {
  const found = worst(loads(part, op));
  const rating = found === null ? undefined : ratingsWithin(found.most.amps, Number.POSITIVE_INFINITY)[0];
  if (found === null || rating === undefined) return [];
  const { sort } = found.what;
  const title = `one for ${part.label} that is rated ${rating} A${sort === 'resistive' ? '' : ` for ${sort === 'lamp' ? 'lamps' : 'an inductive load'}`}`;
  const all = { resistive: part.ability.switches?.rating.resistive, [sort]: undefined };
  const kept = Object.entries(all).flatMap(([name, basis]) =>
    basis === null || basis === undefined ? [] : [[name, `${basis.sourced.value} A`] as const],
  );
  const to = sort === 'resistive' ? `${rating} A` : { ...Object.fromEntries(kept), [sort]: `${rating} A` };
  return [{ title, changes: [{ set: ['parts', part.id, 'rating'], to }] }];
}
