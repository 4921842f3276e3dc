/** The event rules of the devices with memory, as the event loop wants them. */
import type { Memory, MemoryRule, Probe } from '../contracts/index.ts';
import type { EventRule, Point } from '../network/index.ts';
import type { Circuit, CircuitPart } from './circuit.ts';

const made = new WeakMap<CircuitPart, WeakMap<Memory, readonly EventRule<Point>[]>>();

/** The rules of one device; made once for each of its memories. */
export function partRules(
  circuit: Circuit,
  part: CircuitPart,
  memory: Memory | null,
): readonly EventRule<Point>[] {
  if (memory === null) return [];
  let known = made.get(part);
  if (known === undefined) {
    known = new WeakMap();
    made.set(part, known);
  }
  let rules = known.get(memory);
  if (rules === undefined) {
    const see = new See(circuit, part);
    rules = memory.rules.map((r) => ({
      device: part.device,
      from: r.from,
      to: r.to,
      delayMs: r.delayMs,
      holds: condition(see, r),
    }));
    known.set(memory, rules);
  }
  return rules;
}

const condition =
  (see: See, rule: MemoryRule): ((point: Point) => boolean) =>
  (point) => {
    see.point = point;
    return rule.when(see);
  };

/** What a part's rules can see of the point at hand. */
class See implements Probe {
  point: Point | null = null;
  readonly #circuit: Circuit;
  readonly #part: CircuitPart;
  readonly #numbers = new Map<string, number>();

  constructor(circuit: Circuit, part: CircuitPart) {
    this.#circuit = circuit;
    this.#part = part;
  }

  volts(a: string, b: string): number {
    return this.point === null ? 0 : (voltsBetween(this.point, this.#node(a), this.#node(b)) ?? 0);
  }

  amps(element: number): number {
    return this.point?.current(this.#part.offset + element) ?? 0;
  }

  #node(terminal: string): number {
    const known = this.#numbers.get(terminal);
    if (known !== undefined) return known;
    const number = this.#circuit.nodes.own(this.#part.placed.id, terminal);
    this.#numbers.set(terminal, number);
    return number;
  }
}

/** Volts from one node to another; null when they share no path. */
export function voltsBetween(point: Point, a: number, b: number): number | null {
  if (a < 0 || b < 0) return null;
  if (a === b) return 0;
  if (point.island[a] !== point.island[b]) return null;
  return point.voltsAt(a) - point.voltsAt(b);
}

/** The rule that moved a device, for the order of events. */
export function ruleSays(memory: Memory | null, from: number, to: number): string {
  return memory?.rules.find((r) => r.from === from && r.to === to)?.says ?? '';
}
