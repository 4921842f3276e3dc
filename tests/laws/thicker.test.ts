/** A thicker wire never raises its own drop on a tree, and never lowers a fault current. */
import { describe, expect, it } from 'vitest';
import type {
  Condition,
  Id,
  LaidWire,
  Operation,
  ShortCase,
  Solved,
} from '../../packages/engine/src/contracts/index.ts';
import { netOf } from '../../packages/engine/src/checks/support/conductors.ts';
import { seeded } from '../documents/mutate.ts';
import type { Doc } from '../documents/plain.ts';
import { changed, EXAMPLES, generated, named, nominal, SCENARIOS, type Subject } from './builds.ts';

const ALL: readonly Subject[] = [...EXAMPLES, ...SCENARIOS, ...generated([1, 2, 4, 5, 7, 10])];

const SIZES = [1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240];

/** The document with this wire taken two sizes up; null where there is no larger one. */
function thicker(doc: Doc, wire: LaidWire): Doc | null {
  const larger = SIZES.filter((mm2) => mm2 > (wire.areaMm2 ?? Infinity) * 1.05)[1];
  if (larger === undefined) return null;
  return changed(doc, (copy) => {
    copy.wires[wire.id] = { ...copy.wires[wire.id], size: `${larger} mm2` };
  });
}

/** Some wires of a build, chosen by a fixed seed. */
function some(op: Operation, count: number): readonly LaidWire[] {
  const chance = seeded(7);
  const left = [...op.wires.values()].filter((w) => w.areaMm2 !== null);
  const chosen: LaidWire[] = [];
  while (chosen.length < count && left.length > 0) chosen.push(...left.splice(chance.below(left.length), 1));
  return chosen;
}

/** Conditions in which currents flow, hands as usual. */
const busyOnes = (op: Operation): readonly Condition[] =>
  op.states
    .filter((s) => ['ignition-on', 'idling', 'driving', 'ready', 'parked'].includes(s.id))
    .flatMap((s) =>
      (['typical-busy', 'weak', 'strong'] as const).map((corner) => op.condition(s.id, corner)),
    );

const memoryOf = (s: Solved): string => [...s.memory].map(([id, v]) => `${id}=${v}`).join();

/** Two terminals are joined by wires and parts without this wire: it lies in a mesh. */
function inMesh(op: Operation, wire: LaidWire): boolean {
  const next = new Map<string, string[]>();
  const join = (a: string, b: string): void => {
    next.set(a, [...(next.get(a) ?? []), b]);
    next.set(b, [...(next.get(b) ?? []), a]);
  };
  for (const w of op.wires.values()) if (w.id !== wire.id) join(w.from, w.to);
  for (const p of op.parts.values()) {
    const terminals = [...next.keys()].filter((t) => t.startsWith(`${p.id}.`));
    const { stores, converts, generates, consumes, signals } = p.ability;
    if ([stores, converts, generates, consumes, signals].every((x) => x === undefined))
      terminals.slice(1).forEach((t) => join(terminals[0] ?? t, t));
    if (p.ability.grounds !== undefined) join(`${p.id}.stud`, `^${p.ability.grounds.section}`);
  }
  const seen = new Set([wire.from]);
  const queue = [wire.from];
  for (let node = queue.shift(); node !== undefined; node = queue.shift())
    for (const n of next.get(node) ?? [])
      if (!seen.has(n)) {
        seen.add(n);
        queue.push(n);
      }
  return seen.has(wire.to);
}

describe('a thicker wire', () => {
  it.each(named(ALL))('%s: never loses more volts itself, where it is the only way', (_, doc) => {
    const op = nominal(doc);
    const tree = some(op, 8).filter((w) => !inMesh(op, w));
    let compared = 0;
    for (const wire of tree) {
      const stronger = thicker(doc, wire);
      if (stronger === null) continue;
      const other = nominal(stronger);
      for (const c of busyOnes(op)) {
        const twins = new Map(other.solve(c).map((s) => [memoryOf(s), s]));
        for (const s of op.solve(c)) {
          const twin = twins.get(memoryOf(s));
          if (s.outcome !== 'settled' || twin?.outcome !== 'settled') continue;
          const [before, after] = [s, twin].map((x) => Math.abs(x.wireAmps(wire.id) * x.wireOhms(wire.id)));
          expect(after, `${wire.id} ${s.id}`).toBeLessThanOrEqual((before ?? 0) * (1 + 1e-9) + 1e-9);
          compared += 1;
        }
      }
    }
    expect(compared).toBeGreaterThan(20);
  });

  it.each(named(ALL))('%s: never lowers a fault current', (_, doc) => {
    const op = nominal(doc);
    // What joins two places at return potential carries a share of the load, not a fault current.
    const net = netOf(op);
    const faulted = some(op, 9).filter((w) => !net.isReturn(w.from) && !net.isReturn(w.to));
    const minus = [...op.parts.values()].find((p) => p.ability.stores !== undefined)?.id ?? '';
    const cases = faulted.flatMap((w) => shorts(w.id, `${minus}.-`));
    let risen = 0;
    for (const wire of some(op, 5)) {
      const stronger = thicker(doc, wire);
      if (stronger === null) continue;
      const other = nominal(stronger);
      for (const c of cases) {
        const [before, after] = [Math.abs(op.short(c).amps), Math.abs(other.short(c).amps)];
        // A thicker lead of a relay's coil lets the coil take a little more beside a fault elsewhere.
        const least = before * (1 - (c.wire === wire.id ? 1e-9 : 1e-7)) - 1e-6;
        expect(after, `${wire.id}: ${JSON.stringify(c)}`).toBeGreaterThanOrEqual(least);
        if (after > before * 1.001) risen += 1;
      }
    }
    expect(risen).toBeGreaterThan(0);
  });
});

function shorts(wire: Id, minus: string): readonly ShortCase[] {
  return ([0, 1] as const).flatMap((along) =>
    (['greatest', 'least'] as const).map((level) => ({
      wire,
      along,
      into: { type: 'terminal', terminal: minus } as const,
      level,
      contact: level === 'greatest' ? 0 : 0.005,
      batteries: 'all' as const,
      open: [],
    })),
  );
}
