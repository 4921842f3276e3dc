/** Where to put the probes: the test points of a build, found from its wiring. */
import type { Id, TerminalRef } from '../contracts/ids.ts';
import type { Operation, Placed } from '../contracts/operation.ts';
import { netOf, reachPast } from '../checks/support/net.ts';

/** What the meter is set to, and where it goes. */
export interface ReadingPoint {
  /** Stable name for programs: `charger/input`. */
  readonly id: string;
  readonly label: string;
  readonly measure: 'volts' | 'amps';
  /** Probes of a voltage reading: red, black. */
  readonly red: TerminalRef | null;
  readonly black: TerminalRef | null;
  /** What a clamp or monitor reads. */
  readonly amps: AmpsOf | null;
  /** Only the size matters (across a device either way round). */
  readonly unsigned: boolean;
  /** Fed by capacitors for some seconds after it is cut off. */
  readonly capacitors: boolean;
  /** Only shown in the condition in which this device is opened. */
  readonly onlyOpen: Id | null;
}

export type AmpsOf =
  | { readonly of: 'terminal'; readonly part: Id; readonly terminal: string }
  | { readonly of: 'output'; readonly part: Id }
  | { readonly of: 'element'; readonly part: Id; readonly element: number };

const ref = (part: Id, terminal: string): TerminalRef => `${part}.${terminal}`;

const PLAIN = { unsigned: false, capacitors: false, onlyOpen: null } as const;

function volts(id: string, label: string, red: TerminalRef, black: TerminalRef): ReadingPoint {
  return { ...PLAIN, id, label, measure: 'volts', red, black, amps: null };
}

function clamp(id: string, label: string, amps: AmpsOf): ReadingPoint {
  return { ...PLAIN, id, label, measure: 'amps', red: null, black: null, amps };
}

/** The test points of a build, in the order in which they are read along the current's way. */
export function readingPoints(op: Operation): readonly ReadingPoint[] {
  const parts = [...op.parts.values()];
  const reference = referenceOf(op);
  return [
    ...(op.posts === null
      ? []
      : [volts('posts', 'vehicle battery, post to post', op.posts.plus, op.posts.minus)]),
    ...parts.flatMap((part) => signalPoints(part, reference)),
    ...parts.flatMap((part) => chargerPoints(op, part)),
    ...parts.flatMap((part) => acrossPoints(part)),
    ...parts.flatMap((part) => batteryPoints(part)),
    ...parts.flatMap((part) => monitorPoints(part)),
    ...parts.flatMap((part) => openedPoints(part, reference)),
  ];
}

/** Where the black probe goes when nothing else is said: the vehicle battery's negative post, else a house battery's. */
export function referenceOf(op: Operation): TerminalRef | null {
  if (op.posts !== null) return op.posts.minus;
  for (const part of op.parts.values()) {
    const stores = part.ability.stores;
    if (stores !== undefined) return ref(part.id, stores.minus);
  }
  return null;
}

function signalPoints(part: Placed, reference: TerminalRef | null): ReadingPoint[] {
  const signals = part.ability.signals;
  if (signals === undefined || reference === null) return [];
  return [volts(`${part.id}/out`, `${part.id} to engine battery −`, ref(part.id, signals.out), reference)];
}

function chargerPoints(op: Operation, part: Placed): ReadingPoint[] {
  const unit = part.ability.converts;
  if (unit === undefined) return [];
  const { id } = part;
  const inMinus = ref(id, unit.inMinus);
  const house = houseFor(op, unit.outputSystem, ref(id, unit.outPlus));
  return [
    ...(unit.enable === null ? [] : enablePoints(op, part, ref(id, unit.enable.plus), inMinus)),
    { ...volts(`${id}/input`, `${id} input, + to −`, ref(id, unit.inPlus), inMinus), capacitors: true },
    ...(op.posts === null
      ? []
      : [
          volts(`${id}/positive-side`, `engine + post to ${id} +`, op.posts.plus, ref(id, unit.inPlus)),
          volts(`${id}/negative-side`, `${id} − to engine − post`, inMinus, op.posts.minus),
        ]),
    clamp(`${id}/feed-amps`, `clamp on the feed of ${id}`, {
      of: 'terminal',
      part: id,
      terminal: unit.inPlus,
    }),
    ...(house === null
      ? []
      : [
          volts(
            `${id}/output-drop`,
            `${id} output + to ${house.id} +`,
            ref(id, unit.outPlus),
            ref(house.id, house.plus),
          ),
        ]),
    clamp(`${id}/output-amps`, `clamp on the output of ${id}`, { of: 'output', part: id }),
  ];
}

/** The house battery that the output feeds: of a stack the one whose plus it meets; else the first of its system. */
function houseFor(op: Operation, system: string | null, out: TerminalRef): { id: Id; plus: string } | null {
  const house = [...op.parts.values()].filter((part) => part.ability.stores?.role === 'house');
  const fed = reachPast(netOf(op), out, 'with');
  const same =
    house.find((part) => fed.has(ref(part.id, part.ability.stores?.plus ?? '+'))) ??
    house.find((part) => system === null || part.ability.stores?.system === system) ??
    house[0];
  return same?.ability.stores === undefined ? null : { id: same.id, plus: same.ability.stores.plus };
}

/**
 * The enable wire at both ends: at the charger, and at the supply side of every contact between it and what feeds it. The
 * walk stops at protective devices: beyond one lies the power circuit.
 */
function enablePoints(op: Operation, part: Placed, enable: TerminalRef, black: TerminalRef): ReadingPoint[] {
  const points: ReadingPoint[] = [];
  const seen = new Set<TerminalRef>([enable]);
  const queue: TerminalRef[] = [enable];
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    for (const next of wireNeighbours(op, at)) {
      if (seen.has(next)) continue;
      seen.add(next);
      for (const far of beyondContact(op, next)) {
        if (seen.has(far.terminal)) continue;
        seen.add(far.terminal);
        points.unshift(
          volts(
            `${part.id}/enable-at-${far.part}`,
            `enable, supply side of ${far.part}`,
            far.terminal,
            black,
          ),
        );
        queue.push(far.terminal);
      }
      queue.push(next);
    }
  }
  return [...points, volts(`${part.id}/enable`, `enable, at ${part.id}`, enable, black)];
}

function wireNeighbours(op: Operation, terminal: TerminalRef): TerminalRef[] {
  return op.wiresAt(terminal).flatMap((id) => {
    const wire = op.wires.get(id);
    if (wire === undefined) return [];
    return wire.from === terminal ? [wire.to] : wire.to === terminal ? [wire.from] : [wire.from, wire.to];
  });
}

function beyondContact(op: Operation, terminal: TerminalRef): { part: Id; terminal: TerminalRef }[] {
  const [id, name] = splitRef(terminal);
  const switches = op.parts.get(id)?.ability.switches;
  if (switches === undefined || switches.isolates) return [];
  return switches.contacts.flatMap((contact) => {
    if (contact.from === name) return [{ part: id, terminal: ref(id, contact.to) }];
    if (contact.to === name) return [{ part: id, terminal: ref(id, contact.from) }];
    return [];
  });
}

/** Part and terminal of a reference. */
export function splitRef(terminal: TerminalRef): readonly [Id, string] {
  const dot = terminal.indexOf('.');
  return dot < 0 ? [terminal, ''] : [terminal.slice(0, dot), terminal.slice(dot + 1)];
}

function acrossPoints(part: Placed): ReadingPoint[] {
  const pairs = devicePairs(part);
  return pairs.map(([from, to], index) => ({
    ...volts(
      `${part.id}/across${index === 0 ? '' : `-${index + 1}`}`,
      `across ${part.id}${index === 0 ? '' : `, pole ${index + 1}`}`,
      ref(part.id, from),
      ref(part.id, to),
    ),
    unsigned: true,
  }));
}

/** Terminal pairs of a part that opens by itself or by hand in the power circuit. */
function devicePairs(part: Placed): readonly (readonly [string, string])[] {
  const { protects, switches } = part.ability;
  if (protects !== undefined) return [[protects.from, protects.to]];
  if (switches?.isolates !== true) return [];
  return switches.contacts.map((contact) => [contact.from, contact.to] as const);
}

function batteryPoints(part: Placed): ReadingPoint[] {
  const stores = part.ability.stores;
  if (stores?.role !== 'house') return [];
  return [
    volts(
      `${part.id}/posts`,
      `${part.id}, post to post`,
      ref(part.id, stores.plus),
      ref(part.id, stores.minus),
    ),
    clamp(`${part.id}/amps`, `clamp on ${part.id} (into it)`, {
      of: 'terminal',
      part: part.id,
      terminal: stores.plus,
    }),
  ];
}

function monitorPoints(part: Placed): ReadingPoint[] {
  const measures = part.ability.measures;
  if (measures === undefined) return [];
  return [
    clamp(`${part.id}/monitor`, `monitor of ${part.id}`, {
      of: 'element',
      part: part.id,
      element: measures.element,
    }),
  ];
}

function openedPoints(part: Placed, reference: TerminalRef | null): ReadingPoint[] {
  if (reference === null) return [];
  return devicePairs(part)
    .slice(0, 1)
    .flatMap((pair) =>
      pair.map((terminal) => ({
        ...volts(
          `${part.id}/open-${terminal}`,
          `open ${part.id}: ${terminal} to −`,
          ref(part.id, terminal),
          reference,
        ),
        onlyOpen: part.id,
      })),
    );
}
