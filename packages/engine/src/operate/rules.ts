/** The event rules of the devices with memory, as the event loop wants them. */
import type { MemoryRule } from '../contracts/index.ts';
import type { EventRule, Point } from '../network/index.ts';
import { varying, type Circuit, type CircuitPart, type Scene } from './circuit.ts';
import type { Machine } from './run.ts';

export function rulesOf(m: Machine, scene: Scene): readonly EventRule<Point>[] {
  return m.circuit.devices.flatMap((d) => {
    const memory = memoryOf(m, scene, d);
    return (memory?.rules ?? []).map((r) => ({
      device: d.device,
      from: r.from,
      to: r.to,
      delayMs: r.delayMs,
      holds: condition(m.circuit, d, r),
    }));
  });
}

function condition(circuit: Circuit, part: CircuitPart, rule: MemoryRule): (point: Point) => boolean {
  const numbers = new Map<string, number>();
  const node = (terminal: string): number => {
    const known = numbers.get(terminal);
    if (known !== undefined) return known;
    const number = circuit.nodes.own(part.placed.id, terminal);
    numbers.set(terminal, number);
    return number;
  };
  return (point) =>
    rule.when({
      volts: (a, b) => voltsBetween(point, node(a), node(b)) ?? 0,
      amps: (i) => point.current(part.offset + i),
    });
}

/** Volts from one node to another; null when they share no path. */
export function voltsBetween(point: Point, a: number, b: number): number | null {
  if (a < 0 || b < 0) return null;
  if (a === b) return 0;
  if (point.island[a] !== point.island[b]) return null;
  return (point.volts[a] ?? 0) - (point.volts[b] ?? 0);
}

/** The rule that moved a device, for the order of events. */
export function ruleSays(m: Machine, scene: Scene, part: CircuitPart, from: number, to: number): string {
  return memoryOf(m, scene, part)?.rules.find((r) => r.from === from && r.to === to)?.says ?? '';
}

/** Everything off: each device at its start. */
export function startMemory(m: Machine, scene: Scene): readonly number[] {
  return m.circuit.devices.map((d) => memoryOf(m, scene, d)?.start ?? 0);
}

export function memoryOf(m: Machine, scene: Scene, part: CircuitPart) {
  return part.memory(varying(m.ctx, scene, part.placed, 0, null)).made;
}
