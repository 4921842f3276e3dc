/**
 * The own return of a wire: the conductor from the other pole of what it feeds. Named by `return:`, or found by following the
 * wire to a part with two poles; along routes the two must share a segment, a wire known by its length only has it beside.
 */
import type { Id, LaidWire, Operation, Placed, TerminalRef } from '../../contracts/index.ts';
import { perOperation } from './memo.ts';
import { across, feeding, netOf } from './conductors.ts';
import { otherEnd, partOf, refOf, terminalOf } from './refs.ts';
import { sourcesOf } from './sources.ts';

export interface OwnReturn {
  readonly wire: Id;
  /** End of the return that belongs to the wire's `from`, and to its `to`. */
  readonly atFrom: TerminalRef;
  readonly atTo: TerminalRef;
}

export function ownReturn(op: Operation, wire: LaidWire): OwnReturn | null {
  return allReturns(op).get(wire.id) ?? null;
}

const allReturns: (op: Operation) => ReadonlyMap<Id, OwnReturn> = perOperation((op) => {
  const found = new Map<Id, OwnReturn>();
  for (const wire of op.wires.values()) {
    const own = named(op, wire) ?? followed(op, wire);
    if (own !== null) found.set(wire.id, own);
  }
  return found;
});

/** `return:` names the wire; the end on the side of the same part belongs together, else of the same place. */
function named(op: Operation, wire: LaidWire): OwnReturn | null {
  const id = op.build.wires.get(wire.id)?.returnWire;
  const back = id === undefined ? undefined : op.wires.get(id);
  if (back === undefined) return null;
  const straight = nearness(op, wire.from, back.from) + nearness(op, wire.to, back.to);
  const crossed = nearness(op, wire.from, back.to) + nearness(op, wire.to, back.from);
  return straight >= crossed
    ? { wire: back.id, atFrom: back.from, atTo: back.to }
    : { wire: back.id, atFrom: back.to, atTo: back.from };
}

function nearness(op: Operation, a: TerminalRef, b: TerminalRef): number {
  if (partOf(a) === partOf(b)) return 2;
  const at = placeAt(op, a);
  return at !== null && at === placeAt(op, b) ? 1 : 0;
}

/** A source reaches this end of the wire with the wire cut. */
function isFed(op: Operation, wire: LaidWire, end: TerminalRef): boolean {
  const reached = feeding(netOf(op), end, wire.id);
  return sourcesOf(op).some((s) => reached.has(s.terminal));
}

interface Pole {
  /** Terminal on the wire's side, and the terminal of the other pole. */
  readonly own: TerminalRef;
  readonly other: TerminalRef;
  /** Conductors and parts passed on the way to it. */
  readonly links: number;
}

function followed(op: Operation, wire: LaidWire): OwnReturn | null {
  const net = netOf(op);
  if (net.isReturn(wire.from) || net.isReturn(wire.to)) return null;
  for (const [start, back] of [
    [wire.to, wire.from],
    [wire.from, wire.to],
  ] as const) {
    // What the wire feeds lies beyond an end whose other end is fed.
    if (!isFed(op, wire, back)) continue;
    const found = nearestReturn(op, wire, polesFrom(op, wire, start, back));
    if (found === null) continue;
    const [far, here] = [otherEnd(found.back, found.end), found.end];
    const [atStart, atBack] = [
      endBeside(op, start, { likely: here, other: far }),
      endBeside(op, back, { likely: far, other: here }),
    ];
    return start === wire.to
      ? { wire: found.back.id, atFrom: atBack, atTo: atStart }
      : { wire: found.back.id, atFrom: atStart, atTo: atBack };
  }
  return null;
}

/**
 * The end of the return that an end of the wire can touch: the one at its own place. A short lead to a device ends where the
 * return of the branch behind ends, not at the consumer; where no places tell, the poles pair the ends.
 */
function endBeside(
  op: Operation,
  end: TerminalRef,
  { likely, other }: Readonly<Record<'likely' | 'other', TerminalRef>>,
): TerminalRef {
  const place = placeAt(op, end);
  const here = (at: TerminalRef): boolean => place !== null && placeAt(op, at) === place;
  return here(other) && !here(likely) ? other : likely;
}

const placeAt = (op: Operation, end: TerminalRef): Id | null => op.parts.get(partOf(end))?.at ?? null;

interface Beside {
  readonly back: LaidWire;
  /** Its end at the pole. */
  readonly end: TerminalRef;
}

/** The return at the nearest pole that has one; of several as near the stoutest, whatever their order in the document. */
function nearestReturn(op: Operation, wire: LaidWire, poles: readonly Pole[]): Beside | null {
  let best: (Beside & { readonly links: number }) | null = null;
  for (const pole of poles) {
    if (best !== null && pole.links > best.links) break;
    const back = returnAt(op, wire, pole);
    if (back !== null && (best === null || stouter(back, best.back) < 0))
      best = { back, end: pole.other, links: pole.links };
  }
  return best;
}

/** Order of conductors by copper, the stoutest first; of equal ones the shorter first. */
const stouter = (a: LaidWire, b: LaidWire): number =>
  (b.areaMm2 ?? 0) - (a.areaMm2 ?? 0) ||
  (a.length?.sourced.value ?? Infinity) - (b.length?.sourced.value ?? Infinity) ||
  0;

/** Parts with two poles that are met from `start` without going back through the wire, nearest first. */
function polesFrom(op: Operation, wire: LaidWire, start: TerminalRef, back: TerminalRef): readonly Pole[] {
  const net = netOf(op);
  const seen = new Set<string>([start, back]);
  const queue: (readonly [node: string, links: number])[] = [[start, 0]];
  const poles: Pole[] = [];
  for (let entry = queue.shift(); entry !== undefined; entry = queue.shift()) {
    const [node, links] = entry;
    poles.push(...polesAt(op, node, links));
    for (const link of net.at(node)) {
      const next = across(link, node);
      if (seen.has(next) || net.isReturn(next) || (link.type === 'wire' && link.id === wire.id)) continue;
      seen.add(next);
      queue.push([next, links + 1]);
    }
    for (const { from, to } of net.valves) {
      if (from !== node || seen.has(to) || net.isReturn(to)) continue;
      seen.add(to);
      queue.push([to, links + 1]);
    }
  }
  return poles;
}

function polesAt(op: Operation, node: string, links: number): readonly Pole[] {
  const part = op.parts.get(partOf(node));
  if (part === undefined) return [];
  return pairs(part)
    .filter(([own]) => own === terminalOf(node))
    .map(([, other]) => ({ own: node, other: refOf(part.id, other), links }));
}

function pairs(part: Placed): readonly (readonly [string, string])[] {
  const { stores, converts, consumes, switches, generates } = part.ability;
  const rows: (readonly [string, string])[] = [];
  if (converts !== undefined) {
    rows.push([converts.inPlus, converts.inMinus], [converts.outPlus, converts.outMinus]);
    if (converts.enable !== null) rows.push([converts.enable.plus, wiredOr(part, converts.enable.minus)]);
  }
  if (consumes !== undefined && consumes.minus !== null) rows.push([consumes.plus, consumes.minus]);
  const coil = switches?.coil ?? null;
  if (coil !== null) rows.push([coil.plus, coil.minus]);
  if (generates !== undefined) rows.push([generates.plus, generates.minus]);
  if (stores !== undefined) rows.push([stores.plus, stores.minus]);
  return rows;
}

const wiredOr = (part: Placed, terminal: string): string => part.kind.unwired?.[terminal] ?? terminal;

/** The conductor at the other pole that runs beside the wire, the stoutest of several: a thin one there serves a signal. */
function returnAt(op: Operation, wire: LaidWire, pole: Pole): LaidWire | null {
  const net = netOf(op);
  if (!net.isReturn(pole.other)) return null;
  const beside = op.wiresAt(pole.other).flatMap((id) => {
    const back = op.wires.get(id);
    return back !== undefined && back.id !== wire.id && runsBeside(wire, back) ? [back] : [];
  });
  return beside.toSorted(stouter)[0] ?? null;
}

function runsBeside(wire: LaidWire, back: LaidWire): boolean {
  const routes = routesOf(wire);
  const others = routesOf(back);
  if (routes.length === 0 || others.length === 0) return true;
  return routes.some((r) => others.includes(r));
}

const routesOf = (wire: LaidWire): readonly number[] =>
  wire.segments.map((s) => s.route).filter((r) => r !== null);
