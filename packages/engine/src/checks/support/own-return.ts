/**
 * The own return of a wire: the conductor from the other pole of what it feeds. Named by `return:`, or found by following the
 * wire to a part with two poles; along routes the two must share a segment, a wire known by its length only has it beside.
 */
import type { Id, LaidWire, Operation, Placed, TerminalRef } from '../../contracts/index.ts';
import { perOperation } from './memo.ts';
import { across, flood, netOf } from './conductors.ts';
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
  const [at, bt] = [op.parts.get(partOf(a))?.at ?? null, op.parts.get(partOf(b))?.at ?? null];
  return at !== null && at === bt ? 1 : 0;
}

/** A source reaches this end of the wire with the wire cut. */
function isFed(op: Operation, wire: LaidWire, end: TerminalRef): boolean {
  const net = netOf(op);
  const reached = flood(
    net.at,
    end,
    (link, next) => !(link.type === 'wire' && link.id === wire.id) && !net.isReturn(next),
  );
  return sourcesOf(op).some((s) => reached.has(s.terminal));
}

interface Pole {
  /** Terminal on the wire's side, and the terminal of the other pole. */
  readonly own: TerminalRef;
  readonly other: TerminalRef;
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
    for (const pole of polesFrom(op, wire, start, back)) {
      const own = returnAt(op, wire, pole);
      if (own === null) continue;
      const poleEnd = pole.other;
      const farEnd = otherEnd(own, poleEnd);
      return start === wire.to
        ? { wire: own.id, atFrom: farEnd, atTo: poleEnd }
        : { wire: own.id, atFrom: poleEnd, atTo: farEnd };
    }
  }
  return null;
}

/** Parts with two poles that are met from `start` without going back through the wire, nearest first. */
function polesFrom(op: Operation, wire: LaidWire, start: TerminalRef, back: TerminalRef): readonly Pole[] {
  const net = netOf(op);
  const seen = new Set<string>([start, back]);
  const queue: string[] = [start];
  const poles: Pole[] = [];
  for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
    poles.push(...polesAt(op, node));
    for (const link of net.at(node)) {
      const next = across(link, node);
      if (seen.has(next) || net.isReturn(next) || (link.type === 'wire' && link.id === wire.id)) continue;
      seen.add(next);
      queue.push(next);
    }
  }
  return poles;
}

function polesAt(op: Operation, node: string): readonly Pole[] {
  const part = op.parts.get(partOf(node));
  if (part === undefined) return [];
  return pairs(part)
    .filter(([own]) => own === terminalOf(node))
    .map(([, other]) => ({ own: node, other: refOf(part.id, other) }));
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

/** The conductor at the other pole that runs beside the wire. */
function returnAt(op: Operation, wire: LaidWire, pole: Pole): LaidWire | null {
  const net = netOf(op);
  if (!net.isReturn(pole.other)) return null;
  for (const id of op.wiresAt(pole.other)) {
    const back = op.wires.get(id);
    if (back !== undefined && back.id !== wire.id && runsBeside(wire, back)) return back;
  }
  return null;
}

function runsBeside(wire: LaidWire, back: LaidWire): boolean {
  const routes = routesOf(wire);
  const others = routesOf(back);
  if (routes.length === 0 || others.length === 0) return true;
  return routes.some((r) => others.includes(r));
}

const routesOf = (wire: LaidWire): readonly number[] =>
  wire.segments.map((s) => s.route).filter((r) => r !== null);
