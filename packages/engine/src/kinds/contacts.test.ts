import { describe, expect, it } from 'vitest';
import { partOf, surroundings, type Around, type Asked } from './testing/surroundings.ts';

const elements = (of: Asked, around: Around = {}) => of.kind.elements(surroundings(of, around));
const ohms = (of: Asked, around: Around = {}): readonly number[] =>
  elements(of, around).map((e) => (e.type === 'resistor' ? e.ohms : NaN));
const switches = (of: Asked) => {
  const found = of.kind.abilities(of.read).switches;
  if (found === undefined) throw new Error('it switches nothing');
  return found;
};

const rulesOf = (of: Asked) => of.kind.memory?.(surroundings(of))?.rules ?? [];

const fires = (of: Asked, from: number, volts: number) =>
  rulesOf(of).some((rule) => rule.from === from && rule.when({ volts: () => volts, amps: () => 0 }));

describe('relay', () => {
  const make = partOf('{ kind: relay, coil: 85 Ω, rating: 20 A, suppressed: yes }');

  it('pulls in at 8 V and drops out under 3 V of either direction, twice that at 24 V', () => {
    expect([fires(make, 0, 7.99), fires(make, 0, 8), fires(make, 0, -9)]).toEqual([false, true, true]);
    expect([fires(make, 1, 3), fires(make, 1, 2.99), fires(make, 1, 0)]).toEqual([false, true, true]);
    const truck = partOf('{ kind: relay, coil: 340 Ω }', { systems: '{ vehicle: 24 V, house: 12 V }' });
    expect([fires(truck, 0, 15.9), fires(truck, 0, 16), fires(truck, 1, 5.9)]).toEqual([false, true, true]);
  });

  it('moves its contact with its memory; in a fault every contact counts as closed', () => {
    expect(ohms(make, { memory: 0 })).toEqual([85, Infinity]);
    expect(ohms(make, { memory: 1 })).toEqual([85, 0.0005]);
    expect(ohms(make, { memory: 1, opened: true })).toEqual([85, Infinity]);
    const over = partOf('{ kind: relay, coil: 85 Ω, contacts: change-over }');
    expect(ohms(over, { memory: 0 })).toEqual([85, Infinity, 0.0005]);
    expect(ohms(over, { memory: 1 })).toEqual([85, 0.0005, Infinity]);
    expect(ohms(over, { memory: 0, mode: 'fault-greatest' })).toEqual([85, 0.0005, 0.0005]);
    const rest = partOf('{ kind: relay, coil: 85 Ω, contacts: break }');
    expect(ohms(rest, { memory: 0 })).toEqual([85, 0.0005]);
    expect(rest.kind.terminals(rest.read)).toEqual({ type: 'named', names: ['86', '85', '30', '87a'] });
  });

  it('takes its coil by current at nominal volts too, and without a figure a usual one', () => {
    expect(ohms(partOf('{ kind: relay, coil: 0.15 A }'))[0]).toBeCloseTo(80, 9);
    const truck = partOf('{ kind: relay, coil: 100 mA }', { systems: '{ vehicle: 24 V, house: 12 V }' });
    expect(ohms(truck)[0]).toBeCloseTo(240, 9);
    expect(ohms(partOf('{ kind: relay }'))[0]).toBe(85);
    expect(partOf('{ kind: relay }').values.assumed()).toEqual([]);
  });

  it('has one rating for resistive loads, or one for each sort', () => {
    const value = (of: Asked, sort: 'resistive' | 'inductive' | 'lamp') =>
      switches(of).rating[sort]?.sourced.value;
    expect(value(make, 'resistive')).toBe(20);
    expect(value(make, 'lamp')).toBeUndefined();
    const three = partOf('{ kind: relay, rating: { resistive: 30 A, inductive: 20 A, lamp: 10 A } }');
    expect([value(three, 'resistive'), value(three, 'inductive'), value(three, 'lamp')]).toEqual([
      30, 20, 10,
    ]);
    expect(switches(make).coil).toEqual({ plus: '86', minus: '85', suppressed: true });
  });
});

describe('switch', () => {
  it('joins in and out when closed', () => {
    const of = partOf('{ kind: switch, operated-by: owner, rating: 3 A, least-current: 1 mA }');
    expect(ohms(of)).toEqual([0.005]);
    expect(ohms(of, { closed: false })).toEqual([Infinity]);
    expect(switches(of)).toMatchObject({ operatedBy: 'owner', normal: 'closed', isolates: false });
    expect(switches(of).leastCurrent?.sourced.value).toBe(0.001);
  });

  it('of two ways joins common to 1 when closed and to 2 when not', () => {
    const of = partOf('{ kind: switch, ways: 2, rating: 3 A }');
    expect(of.kind.terminals(of.read)).toEqual({ type: 'named', names: ['common', '1', '2'] });
    expect(ohms(of)).toEqual([0.005, Infinity]);
    expect(ohms(of, { closed: false })).toEqual([Infinity, 0.005]);
    expect(ohms(of, { closed: false, opened: true })).toEqual([Infinity, Infinity]);
  });

  it('of two poles has a second pair', () => {
    const of = partOf('{ kind: switch, poles: 2, rating: 3 A }');
    expect(of.kind.terminals(of.read)).toEqual({ type: 'named', names: ['in', 'out', 'in.2', 'out.2'] });
    expect(ohms(of)).toEqual([0.005, 0.005]);
  });

  it('that springs back is usually open', () => {
    expect(switches(partOf('{ kind: switch, momentary: yes }')).normal).toBe('open');
    expect(switches(partOf('{ kind: switch, momentary: yes, normal: closed }')).normal).toBe('closed');
  });
});

describe('isolator', () => {
  it('is a contact of 0.2 mΩ on each pole, worked by the workshop', () => {
    const of = partOf('{ kind: isolator, poles: 2, rating: 150 A, stored: open }');
    expect(ohms(of)).toEqual([0.0002, 0.0002]);
    expect(ohms(of, { opened: true, closed: false })).toEqual([Infinity, Infinity]);
    expect(switches(of)).toMatchObject({ operatedBy: 'workshop', isolates: true, storedOpen: true });
    expect(ohms(partOf('{ kind: isolator, contact: 0.1..0.4 mΩ }', { push: 'slack' }))).toEqual([0.0004]);
  });
});
