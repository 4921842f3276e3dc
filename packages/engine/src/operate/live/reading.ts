/** What stands at every terminal, in every wire and at every part, from an operating point. */
import type { Id, Memory, Placed, TerminalRef } from '../../contracts/index.ts';
import type { Point } from '../../network/index.ts';
import { wireOhms, type CircuitPart } from '../circuit.ts';
import type { Machine } from '../run.ts';
import type { LivePart, LiveReading, LiveWire } from './types.ts';

/** Volts to its own negative from which a conductor counts as live. */
export const LIVE_VOLTS = 2;

export interface ReadingOf {
  readonly machine: Machine;
  readonly point: Point;
  readonly memory: readonly number[];
  readonly memories: readonly (Memory | null)[];
  readonly temperatures: Float64Array;
}

export function readingOf(of: ReadingOf): LiveReading {
  const { machine, point } = of;
  const { nodes } = machine.circuit;
  const negative = negatives(machine, point);
  const volts: Record<TerminalRef, number> = {};
  const island: Record<TerminalRef, number> = {};
  for (const terminal of terminalsOf(machine)) {
    const node = nodes.find(terminal);
    if (node < 0) continue;
    volts[terminal] = point.volts[node] ?? 0;
    island[terminal] = point.island[node] ?? 0;
  }
  const wires: Record<Id, LiveWire> = {};
  machine.circuit.wires.forEach((wire, i) => {
    wires[wire.id] = wireAt(of, i, negative);
  });
  const parts: Record<Id, LivePart> = {};
  for (const part of machine.circuit.parts) parts[part.placed.id] = partAt(of, part);
  return { volts, island, wires, parts, settled: point.settled };
}

const known = new WeakMap<Machine['plan'], readonly TerminalRef[]>();

/** All terminals with a node: of wires, and those that kinds name. */
function terminalsOf(m: Machine): readonly TerminalRef[] {
  const listed = known.get(m.plan);
  if (listed !== undefined) return listed;
  const { nodes } = m.circuit;
  const named = m.circuit.parts.flatMap(({ placed }) =>
    namesOf(placed).map((name) => `${placed.id}.${name}`),
  );
  const ends = m.circuit.wires.flatMap((wire) => [wire.from, wire.to]);
  const made = [...new Set([...named, ...ends])].filter((terminal) => nodes.find(terminal) >= 0);
  known.set(m.plan, made);
  return made;
}

function namesOf(part: Placed): readonly string[] {
  const terminals = part.kind.terminals(part.read);
  return terminals.type === 'named' ? terminals.names : [];
}

/** The lowest negative of a battery in each island, V. */
function negatives(m: Machine, point: Point): ReadonlyMap<number, number> {
  const least = new Map<number, number>();
  for (const { placed } of m.circuit.parts) {
    const { stores } = placed.ability;
    if (stores === undefined) continue;
    const node = m.circuit.nodes.own(placed.id, stores.minus);
    if (node < 0) continue;
    const island = point.island[node] ?? 0;
    least.set(island, Math.min(least.get(island) ?? Infinity, point.volts[node] ?? 0));
  }
  return least;
}

function wireAt(of: ReadingOf, index: number, negative: ReadonlyMap<number, number>): LiveWire {
  const { machine, point, temperatures } = of;
  const { circuit } = machine;
  const wire = circuit.wires[index];
  const [a, b] = circuit.wireNodes[index] ?? [0, 0];
  const amps = point.current(circuit.wireOffset + index);
  const celsius = temperatures[index] ?? 20;
  const scale = circuit.scale[circuit.wireOffset + index] ?? 1;
  // A wire shorter than the least resistance is brought up to it; its joints then are a share of that.
  const whole = wire === undefined ? 0 : wireOhms(wire, celsius);
  const lost = (end: 0 | 1): number => {
    const ohms = wire?.joints[end].sourced.value ?? 0;
    return Number.isFinite(whole) && Number.isFinite(ohms) ? amps * Math.min(ohms, whole) * scale : 0;
  };
  const live = (node: number): boolean => {
    const to = negative.get(point.island[node] ?? 0);
    return to !== undefined && Math.abs((point.volts[node] ?? 0) - to) >= LIVE_VOLTS;
  };
  return {
    amps,
    from: (point.volts[a] ?? 0) - lost(0),
    to: (point.volts[b] ?? 0) + lost(1),
    liveFrom: live(a),
    liveTo: live(b),
    celsius,
  };
}

function partAt(of: ReadingOf, part: CircuitPart): LivePart {
  const { point, memory, memories } = of;
  const remembered = part.device < 0 ? null : (memories[part.device] ?? null);
  const value = memory[part.device] ?? 0;
  const { switches, protects } = part.placed.ability;
  const contact =
    switches === undefined ? (protects === undefined ? null : 0) : (switches.contacts[0]?.element ?? null);
  return {
    memory: remembered?.values[value] ?? null,
    on: remembered === null ? null : remembered.on.includes(value),
    closed:
      contact === null || contact >= part.count ? null : point.regime(part.offset + contact) === 'closed',
    amps: part.count === 0 ? 0 : point.current(part.converter >= 0 ? part.converter : part.offset),
    outAmps: part.converter < 0 ? null : point.outCurrent(part.converter),
  };
}
