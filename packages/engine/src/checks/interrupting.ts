/** Interrupting rating: the greatest fault current at a device against what that device itself can break. */
import type {
  Check,
  Id,
  Judgement,
  LaidWire,
  Operation,
  Placed,
  Remedy,
  ShortCase,
  Step,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { netOf } from './support/conductors.ts';
import { partNeed } from './support/figures-needed.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { partOf, refOf } from './support/refs.ts';
import { greatestCase, intos, intoWords, sourcesAt, whereWords, type Into } from './support/shorts.ts';
import { perName, perOperation } from './support/memo.ts';
import { amps, atMost } from './support/short-text.ts';
import { capital } from './support/words.ts';
import { clearlyLess } from './support/worst.ts';

export const interrupting: Check = {
  id: 'interrupting',
  title: 'Interrupting rating at the greatest fault current',
  family: 'protection',
  danger: true,
  statements: TOPICS.interrupting,
  subjects: (op) => devices(op).map((part) => ({ id: part.id, label: part.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no device ${subject.id}`);
    return judge(part, op);
  },
  remedies: (subject, op) => classT(op, subject.id),
  failing: example('blade-f', '1 kA'),
  passing: example('class-t', '20 kA'),
};

/** A class T fuse that says 20 kA; opening times that were given belonged to the fuse before it. */
function classT(op: Operation, id: Id): readonly Remedy[] {
  const part = op.parts.get(id);
  if (part?.ability.protects?.type !== 'fuse') return [];
  const gone = ['curve', 'clearing', 'cold-resistance', 'heat-factor'].filter((field) =>
    part.read.given(field),
  );
  return [
    {
      title: `class T fuse that breaks 20 kA in place of ${id}`,
      changes: [
        { set: ['parts', id, 'family'], to: 'class-t' },
        { set: ['parts', id, 'interrupts'], to: '20 kA' },
        ...gone.map((field) => ({ remove: ['parts', id, field] })),
      ],
    },
  ];
}

function example(family: string, interrupts: string): string {
  return `loomwright: 1
title: A fuse at a lithium bank
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 200 Ah }
  bank-fuse: { kind: fuse, at: locker, family: ${family}, rating: 30 A, interrupts: ${interrupts}, clearing: 3000 A²s }
  lamp: { kind: load, at: locker, current: 5 A }
wires:
  lead: { from: bank.+, to: bank-fuse.line, size: 16 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: bank-fuse.load, to: lamp.+, size: 16 mm2, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 16 mm2, insulation: pvc-105, length: 1 m }
`;
}

/** Devices that a source can feed and that have a wire. */
const devices: (op: Operation) => readonly Placed[] = perOperation((op) =>
  [...op.parts.values()].filter(
    (part) => part.ability.protects !== undefined && shortsAt(op, part).length > 0,
  ),
);

interface Short {
  readonly wire: LaidWire;
  readonly along: 0 | 1;
  readonly into: Into;
}

/** A short on each wire that leaves the device, right at the device, for each side that a source does not feed alone. */
function shortsAt(op: Operation, part: Placed): readonly Short[] {
  return shortsOf(op, part.id, () => shortsBeside(op, part));
}

const shortsOf = perName<readonly Short[]>();

function shortsBeside(op: Operation, part: Placed): readonly Short[] {
  const protects = part.ability.protects;
  if (protects === undefined) return [];
  const net = netOf(op);
  return [protects.from, protects.to].flatMap((terminal) => {
    const end = refOf(part.id, terminal);
    if (net.isReturn(end)) return [];
    return op.wiresAt(end).flatMap((id) => shortsOn(op, part.id, id, end));
  });
}

function shortsOn(op: Operation, device: Id, id: Id, end: string): readonly Short[] {
  const wire = op.wires.get(id);
  if (wire === undefined || !fedThrough(op, device, end)) return [];
  const along = wire.from === end ? 0 : 1;
  return intos(op, wire, along).map((into) => ({ wire, along, into }));
}

/** A source stands on the other side of the device. */
function fedThrough(op: Operation, device: Id, end: string): boolean {
  const protects = op.parts.get(device)?.ability.protects;
  if (protects === undefined) return false;
  const other = refOf(device, end === refOf(device, protects.from) ? protects.to : protects.from);
  return op.wiresAt(other).some((id) => {
    const wire = op.wires.get(id);
    const far = wire === undefined ? null : wire.from === other ? wire.to : wire.from;
    return wire !== undefined && far !== null && partOf(far) !== device && feeds(op, wire, far, device);
  });
}

const feeds = (op: Operation, wire: LaidWire, far: string, device: Id): boolean =>
  sourcesAt(op, { ...wire, id: wire.id }, far).some((s) => s.part !== device);

interface Worst {
  readonly amps: number;
  readonly short: Short;
  readonly case: ShortCase;
}

/**
 * The greatest current through the device as it stands, or as a bare link: the prospective current, on which breaking capacities
 * are defined (IEC 60269-1), as what the device's own resistance holds back is gone once it has melted.
 */
function greatest(op: Operation, part: Placed, as: Pick<ShortCase, 'bridged'> = {}): Worst | null {
  let worst: Worst | null = null;
  for (const short of shortsAt(op, part)) {
    const faulted: ShortCase = { ...greatestCase(short.wire.id, short.along, short.into), ...as };
    const current = Math.abs(op.short(faulted).partAmps(part.id, 0));
    if (worst === null || clearlyLess(worst.amps, current)) worst = { amps: current, short, case: faulted };
  }
  return worst;
}

function judge(part: Placed, op: Operation): Judgement {
  const worst = greatest(op, part);
  if (worst === null)
    return judgement({ holds: true, says: `No source feeds a fault through ${part.label}.` });
  const rated = part.ability.protects?.interrupts ?? null;
  const about = [part.id, worst.short.wire.id];
  const value = { value: worst.amps, unit: 'A' };
  const working = (): readonly Step[] => [
    step(
      `Greatest fault current through ${part.id}`,
      `short ${whereWords(worst.short.wire, worst.short.along)} ${intoWords(worst.short.into)}; contact 0, copper coldest, batteries full, all sources on`,
      worst.amps,
      'A',
      { about },
    ),
  ];
  const restsOn = (): Judgement['restsOn'] => batteryBases(op, worst);
  if (rated === null) {
    const why = `a fault there reaches ${amps(worst.amps)}`;
    return missing(
      () => `What ${part.label} can interrupt is not known; a fault reaches ${amps(worst.amps)}.`,
      [partNeed(part.id, 'interrupts', why)],
      {
        value,
        working,
        restsOn,
        about,
      },
    );
  }
  const holds = atMost(worst.amps, rated.sourced.value);
  const bare = greatest(op, part, { bridged: part.id })?.amps ?? worst.amps;
  const beyond = holds && !atMost(bare, rated.sourced.value);
  return judgement({
    holds,
    ...(beyond ? { note: 'advice' as const } : {}),
    says: () =>
      beyond
        ? `${capital(part.label)} lets ${amps(worst.amps)} through and can break ${amps(rated.sourced.value)}; but breaking capacity is tested with the current that flows without the device, here ${amps(bare)}. Ask its maker, or take one that breaks so much.`
        : holds
          ? `${part.label} can break ${amps(rated.sourced.value)}; a fault reaches ${amps(worst.amps)}.`
          : `A fault through ${part.label} reaches ${amps(worst.amps)}; it can break only ${amps(rated.sourced.value)}.`,
    value,
    limit: { value: rated.sourced.value, unit: 'A' },
    // What is beyond it is the prospective current: nothing is to spare.
    margin: beyond ? null : rated.sourced.value - worst.amps,
    working: () => [
      ...working(),
      step(`What ${part.id} can break`, rated.label, rated.sourced.value, 'A', {
        source: rated.sourced.source,
      }),
      step(
        `Prospective current, ${part.id} as a bare link`,
        'on which breaking capacity is defined',
        bare,
        'A',
        {
          source: 'IEC 60269-1',
          about,
        },
      ),
    ],
    restsOn,
    limits: [rated],
    about,
  });
}

/** Less than this share of the fault current decides nothing. */
const GIVES = 0.01;

/** The resistance of the batteries that feed the fault rules its current. */
function batteryBases(op: Operation, worst: Worst): Judgement['restsOn'] {
  const short = op.short(worst.case);
  return [...op.parts.values()].flatMap((part) => {
    if (part.ability.stores === undefined || !('fault-resistance' in part.kind.fields)) return [];
    if (Math.abs(short.partAmps(part.id, 0)) < GIVES * worst.amps) return [];
    const basis = part.read.quantity('fault-resistance');
    return basis === null ? [] : [basis];
  });
}
