/** Short circuits: a fault laid on a wire, to the body or to its own return. */
import type { ElementOf, LaidWire, ShortCase, ShortPoint } from '../contracts/index.ts';
import { planCircuit, type Plan, type Point } from '../network/index.ts';
import { wireElement, wireOhms, type Scene } from './circuit.ts';
import { Frame } from './frame.ts';
import type { Machine } from './run.ts';

export interface ShortContext {
  readonly machine: Machine;
  /** The scene of the greatest fault current (all sources on, coldest, full) and of the least (batteries alone). */
  readonly scenes: { readonly greatest: Scene; readonly least: Scene };
  /** Elements of the two scenes with these batteries away and devices open, no fault laid on them yet. */
  readonly sound: Map<string, readonly ElementOf<number>[]>;
  /** All batteries of the build. */
  readonly batteries: readonly string[];
  /** The star node and spread of the section nearest to a wire; null: no body that conducts. */
  nearestSection(wire: LaidWire): { readonly node: number; readonly spread: number } | null;
  /** Plans of faulted circuits, by the nodes that the fault joins. */
  readonly plans: Map<string, Plan>;
}

const LEAST_OHMS = 1e-5;
const MOST_PLANS = 4000;

export function solveShort(ctx: ShortContext, c: ShortCase): ShortPoint {
  const { circuit } = ctx.machine;
  const index = circuit.wireIndex.get(c.wire) ?? -1;
  const wire = circuit.wires[index];
  if (wire === undefined) throw new Error(`no wire ${c.wire}`);
  const elements = faultElements(ctx, c);
  const place = laidOn(ctx, c, wire, index, elements);
  if (place === null) return NOTHING;
  const key = `${place.split ? index : -1}|${place.a}|${place.b}`;
  const plan =
    ctx.plans.get(key) ??
    remember(ctx, key, planCircuit(place.nodes, circuit.nodes.reference, place.elements));
  const point = plan.solve(place.elements, { steps: ctx.machine.steps });
  return read(ctx, point, index, place);
}

const NOTHING: ShortPoint = { amps: 0, halves: [0, 0], wireAmps: () => 0, partAmps: () => 0 };

function remember(ctx: ShortContext, key: string, plan: Plan): Plan {
  if (ctx.plans.size < MOST_PLANS) ctx.plans.set(key, plan);
  return plan;
}

function faultElements(ctx: ShortContext, c: ShortCase): ElementOf<number>[] {
  const { machine } = ctx;
  const away = c.batteries === 'all' ? [] : ctx.batteries.filter((b) => !c.batteries.includes(b));
  const open = [...new Set([...c.open, ...away])].toSorted();
  const key = `${c.level}|${open.join()}`;
  let sound = ctx.sound.get(key);
  if (sound === undefined) {
    const frame = new Frame(machine, { ...ctx.scenes[c.level], open: new Set(open) });
    const temperatures = Float64Array.from(machine.circuit.wires, (w) => copperAt(machine, w, c.level));
    sound = [
      ...frame.elements(
        machine.circuit.devices.map(() => 0),
        temperatures,
      ),
    ];
    ctx.sound.set(key, sound);
  }
  return [...sound];
}

/** A fixed setting rules; else coldest copper for the greatest current, the insulation's rating for the least. */
function copperAt(m: Machine, wire: LaidWire, level: ShortCase['level']): number {
  if (typeof m.resistanceAt === 'number') return m.resistanceAt;
  return level === 'greatest' ? wire.coldest.sourced.value : wire.rating;
}

interface Place {
  readonly elements: readonly ElementOf<number>[];
  readonly nodes: number;
  readonly a: number;
  readonly b: number;
  readonly split: boolean;
}

function laidOn(
  ctx: ShortContext,
  c: ShortCase,
  wire: LaidWire,
  index: number,
  elements: ElementOf<number>[],
): Place | null {
  const { circuit } = ctx.machine;
  const ends = circuit.wireNodes[index] ?? [-1, -1];
  const split = c.along === 0.5;
  const a = c.along === 0 ? ends[0] : c.along === 1 ? ends[1] : circuit.nodes.count;
  const section = c.into.type === 'chassis' ? ctx.nearestSection(wire) : null;
  const b = c.into.type === 'chassis' ? (section?.node ?? -1) : circuit.nodes.find(c.into.terminal);
  if (a < 0 || b < 0 || a === b) return null;
  const at = circuit.wireOffset + index;
  if (split) {
    const half = wireElement(circuit, index, wireOhms(wire, copperAt(ctx.machine, wire, c.level)));
    if (half.type !== 'resistor') return null;
    const ohms = Math.max(half.ohms / 2, LEAST_OHMS);
    elements[at] = { ...half, b: a, ohms };
    elements.push({ ...half, a, ohms });
  }
  elements.push({ type: 'resistor', a, b, ohms: Math.max(c.contact + (section?.spread ?? 0), LEAST_OHMS) });
  return { elements, nodes: circuit.nodes.count + (split ? 1 : 0), a, b, split };
}

function read(ctx: ShortContext, point: Point, index: number, place: Place): ShortPoint {
  const { circuit } = ctx.machine;
  const last = place.elements.length - 1;
  const at = circuit.wireOffset + index;
  const from = Math.abs(point.current(at));
  const to = place.split ? Math.abs(point.current(last - 1)) : from;
  return {
    amps: Math.abs(point.current(last)),
    halves: [from, to],
    wireAmps: (wire) => {
      const i = circuit.wireIndex.get(wire);
      return i === undefined ? 0 : point.current(circuit.wireOffset + i);
    },
    partAmps: (part, element) => {
      const slot = circuit.byId.get(part);
      return slot === undefined || element >= slot.count ? 0 : point.current(slot.offset + element);
    },
  };
}
