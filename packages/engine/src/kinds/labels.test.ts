import { describe, expect, it } from 'vitest';
import type { Part } from '../contracts/index.ts';
import { readDocument } from '../document/index.ts';
import { makeRegistry } from './registry.ts';
import { asked, partOf, surroundings } from './testing/surroundings.ts';

const registry = makeRegistry();

/** Every part of the examples of all kinds, with its systems. */
const parts = [...registry.kinds.values()].flatMap((kind): [string, Part, Record<string, number>][] => {
  const { build } = readDocument(kind.example, registry);
  if (build === null) throw new Error(`the example of ${kind.name} does not read`);
  return [...build.parts.values()].map((part) => [`${kind.name}: ${part.id}`, part, { ...build.systems }]);
});

describe('names of values in reports', () => {
  it.each(parts)('%s: no placeholder is left', (_, part, systems) => {
    const of = asked(part, systems);
    of.kind.elements(surroundings(of));
    of.kind.abilities(of.read);
    const labels = of.values.assumed().map((basis) => basis.label);
    expect(labels.filter((label) => /[{}]/.test(label))).toEqual([]);
  });

  it('say which part is meant, in words of the trade', () => {
    const relay = partOf('{ kind: relay, coil: unknown }');
    expect(relay.read.quantity('pulls')?.label).toBe('pull-in voltage of x');
    expect(relay.read.quantity('contact')?.label).toBe('contact resistance of x');
    const charger = partOf('{ kind: dc-charger, current: 30 A }');
    expect(charger.kind.abilities(charger.read).converts?.efficiency.label).toBe('efficiency of x');
    const point = partOf('{ kind: supply-point, live: [idling] }');
    expect(point.kind.abilities(point.read).signals?.liveBasis.label).toBe('states in which x is live');
  });
});
