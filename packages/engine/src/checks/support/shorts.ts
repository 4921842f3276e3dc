/** Short circuits to try on a wire: where, into what, fed by which batteries. */
import type { Basis, Id, LaidWire, Operation, ShortCase, TerminalRef } from '../../contracts/index.ts';
import { feeding, netOf, stacksOf } from './conductors.ts';
import { ownReturn } from './own-return.ts';
import { sourcesOf, type Source } from './sources.ts';
import { perOperation } from './memo.ts';

/** Sources that can reach an end of the wire with the wire cut, past devices and contacts. */
export function sourcesAt(op: Operation, wire: LaidWire, end: TerminalRef): readonly Source[] {
  const reached = feeding(netOf(op), end, wire.id);
  return sourcesOf(op).filter((s) => !s.atPosts && reached.has(s.terminal));
}

export interface FedEnds {
  readonly from: readonly Source[];
  readonly to: readonly Source[];
}

export function fedEnds(op: Operation, wire: LaidWire): FedEnds {
  const known = fedBy(op);
  let fed = known.get(wire.id);
  if (fed === undefined) {
    fed = { from: sourcesAt(op, wire, wire.from), to: sourcesAt(op, wire, wire.to) };
    known.set(wire.id, fed);
  }
  return fed;
}

const fedBy: (op: Operation) => Map<Id, FedEnds> = perOperation(() => new Map());

const anyStiff = (list: readonly Source[]): boolean => list.some((s) => s.stiff);

/** Where a short can lie on the wire and lead the greatest (near) and the least current (far). */
export function spots(fed: FedEnds): {
  readonly near: readonly (0 | 1)[];
  readonly far: readonly ShortCase['along'][];
} {
  const [from, to] = [anyStiff(fed.from), anyStiff(fed.to)];
  if (from && to) return { near: [0, 1], far: [0, 0.5, 1] };
  if (from) return { near: [0], far: [1] };
  return to ? { near: [1], far: [0] } : { near: [], far: [] };
}

export type Into = ShortCase['into'];

/** What the wire can be shorted to: a conductive body, and its own return at the matching end. */
export function intos(op: Operation, wire: LaidWire, along: ShortCase['along']): readonly Into[] {
  const own = ownReturn(op, wire);
  const list: Into[] = hasBody(op) ? [{ type: 'chassis' }] : [];
  if (own === null) return list;
  // A short in the middle is taken to land on the farther end of the return: the least current.
  const ends: readonly TerminalRef[] =
    along === 0 ? [own.atFrom] : along === 1 ? [own.atTo] : [own.atFrom, own.atTo];
  return [...list, ...ends.map((terminal): Into => ({ type: 'terminal', terminal }))];
}

const hasBody: (op: Operation) => boolean = perOperation((op) =>
  [...op.parts.values()].some((p) => {
    const section = p.ability.section;
    return section !== undefined && section.medium !== 'composite';
  }),
);

/** Sets of batteries for the least current: each that can feed the wire alone, and all together. */
export function batterySets(op: Operation, fed: FedEnds): readonly ShortCase['batteries'][] {
  const ids = new Set<Id>([...fed.from, ...fed.to].filter((s) => s.stiff).map((s) => s.part));
  const stacks = stacksOf(op).filter((stack) => stack.some((id) => ids.has(id)));
  return stacks.length > 1 ? [...stacks, 'all'] : stacks;
}

export const intoWords = (into: Into): string =>
  into.type === 'chassis' ? 'to the body' : `to its own return at ${into.terminal}`;

export function whereWords(wire: LaidWire, along: ShortCase['along']): string {
  if (along === 0.5) return `in the middle of ${wire.id}`;
  return `at ${along === 0 ? wire.from : wire.to}`;
}

/** Resistance at the place of a short circuit, Ω. */
const CONTACT: Basis = {
  path: 'settings.fault-contact',
  label: 'resistance at the place of a short circuit',
  sourced: { value: 5e-3, unit: 'Ω', prov: 'practice', source: 'common practice, no source' },
  how: 'write it under settings when another figure is wanted',
  effort: 'read',
  assumed: true,
};

/** Contact of a least-current fault: as set, else 5 mΩ. */
export const faultContact: (op: Operation) => Basis = perOperation((op) => {
  const given = op.build.settings.faultContact;
  if (given === null || given === 'unknown') return op.figure(CONTACT);
  return {
    ...CONTACT,
    assumed: false,
    sourced: { ...CONTACT.sourced, value: given.value, prov: 'given', source: 'the build' },
  };
});

/** Greatest current: contact 0. */
export const greatestCase = (wire: Id, along: ShortCase['along'], into: Into, contact = 0): ShortCase => ({
  wire,
  along,
  into,
  level: 'greatest',
  contact,
  batteries: 'all',
  open: [],
});

/** Least current: these batteries alone. */
export const leastCase = (
  op: Operation,
  wire: Id,
  along: ShortCase['along'],
  into: Into,
  batteries: ShortCase['batteries'],
): ShortCase => ({
  wire,
  along,
  into,
  level: 'least',
  contact: faultContact(op).sourced.value,
  batteries,
  open: [],
});
