/** Wetting: a contact that works at small currents carries at least the current that keeps it clean. */
import type { Check, Judgement, Operation, Placed, Solved, Switches } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { judgement, step } from './support/judgement.ts';
import { lastingOf } from './support/loading.ts';
import { amps, atMost } from './support/short-text.ts';
import { whereWords } from './support/words.ts';
import { leastBy } from './support/worst.ts';

/** From here on a contact cleans itself by its arc and heat, A (common practice, no source). */
const CLEANS_ITSELF = 0.1;
/** A contact counts as in use where it carries at least this share of its greatest current. */
const IN_USE = 0.2;

export const wetting: Check = {
  id: 'wetting',
  title: 'Least current of contacts',
  family: 'contacts',
  danger: false,
  statements: TOPICS.wetting,
  subjects: (op) =>
    [...op.parts.values()].filter((p) => contactsOf(p).length > 0).map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no part ${subject.id}`);
    return judge(part, op);
  },
  failing: example('100 mA'),
  passing: example('0.5 mA'),
};

function example(least: string): string {
  return `loomwright: 1
title: A switch in a signal wire
practice: europe
systems: { vehicle: 12 V, house: 12 V }
places: { cab: { label: Cab, hottest: 40 °C } }
parts:
  battery: { kind: battery, at: cab, role: vehicle, chemistry: agm, capacity: 80 Ah }
  signal-fuse: { kind: fuse, at: cab, family: blade-f, rating: 3 A }
  hold-switch: { kind: switch, at: cab, operated-by: owner, rating: 3 A, least-current: ${least} }
  signal: { kind: load, at: cab, resistance: 10 kΩ, on: always }
wires:
  lead: { from: battery.+, to: signal-fuse.line, size: 1.5 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: signal-fuse.load, to: hold-switch.in, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  feed-2: { from: hold-switch.out, to: signal.+, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  back: { from: signal.-, to: battery.-, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
`;
}

type Contact = Switches['contacts'][number];

/** Contacts that make and break in use: not protective devices, not isolators. */
const contactsOf = (part: Placed): readonly Contact[] =>
  part.ability.protects !== undefined || part.ability.switches?.isolates === true
    ? []
    : (part.ability.switches?.contacts ?? []);

interface Least {
  readonly amps: number;
  readonly solved: Solved;
}

/** The least current of a contact while it is in use, cranking and other brief states left out; null: it carries nothing. */
function leastOf(op: Operation, part: Placed, contact: Contact): Least | null {
  const all = lastingOf(op).map((solved) => ({ amps: solved.partMost(part.id, contact.element), solved }));
  const most = all.reduce((m, a) => Math.max(m, a.amps), 0);
  const used = all.filter((a) => a.amps >= IN_USE * most && a.amps > NOTHING);
  return leastBy(used, (l) => l.amps);
}

/** Leakage, A. */
const NOTHING = 1e-6;

function judge(part: Placed, op: Operation): Judgement {
  const used = contactsOf(part)
    .map((c) => leastOf(op, part, c))
    .filter((l) => l !== null);
  const found = leastBy(used, (l) => l.amps);
  if (found === null)
    return judgement({
      holds: true,
      says: `The contact of ${part.label} carries nothing in any state judged.`,
      about: [part.id],
    });
  const least = part.ability.switches?.leastCurrent ?? null;
  const shared = {
    value: { value: found.amps, unit: 'A' },
    worst: found.solved.id,
    working: [
      step(`Least current through ${part.id} in use`, whereWords(found.solved), found.amps, 'A', {
        about: [part.id],
      }),
    ],
    about: [part.id],
  };
  if (least === null) return withoutFigure(part, found, shared);
  const holds = atMost(least.sourced.value, found.amps);
  return judgement({
    ...shared,
    holds,
    says: () =>
      holds
        ? `The contact of ${part.label} carries at least ${amps(found.amps)}; it needs ${amps(least.sourced.value)} to stay clean.`
        : `The contact of ${part.label} carries only ${amps(found.amps)}; it needs ${amps(least.sourced.value)} to stay clean, or it will fail by and by.`,
    limit: { value: least.sourced.value, unit: 'A' },
    margin: found.amps - least.sourced.value,
    limits: [least],
  });
}

function withoutFigure(part: Placed, found: Least, shared: Partial<Judgement>): Judgement {
  if (found.amps >= CLEANS_ITSELF)
    return judgement({
      ...shared,
      holds: true,
      says: () => `The contact of ${part.label} carries at least ${amps(found.amps)}: enough to stay clean.`,
    });
  return judgement({
    ...shared,
    holds: true,
    note: 'advice',
    says: () =>
      `The contact of ${part.label} carries only ${amps(found.amps)}, and the least current that keeps it clean is not given: choose a contact for small signals.`,
  });
}
