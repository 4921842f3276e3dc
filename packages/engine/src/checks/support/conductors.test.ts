/** What counts as return, and what a walk from a source reaches. */
import { describe, expect, it } from 'vitest';
import { practices } from '../../practices/index.ts';
import { operationsOf, readText } from '../testing/judge-text.ts';
import { netOf, stacksOf } from './conductors.ts';
import { exemptWires, exposuresOf, tapsOf } from './exposure.ts';
import { sustainedInto } from './flow.ts';
import { ownReturn } from './own-return.ts';
import { continuousInWire } from './loading.ts';

const HEAD = `loomwright: 1
title: A net
practice: europe
`;

function opOf(text: string) {
  return operationsOf(readText(HEAD + text), practices.europe).nominal;
}

const wire = (from: string, to: string, more = 'length: 1 m'): string =>
  `{ from: ${from}, to: ${to}, size: 16 mm2, insulation: pvc-105, ${more} }`;

describe('the return', () => {
  it('does not climb a series stack', () => {
    const op = opOf(`systems: { house: 24 V }
places: { locker: { hottest: 40 °C } }
parts:
  lower: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  upper: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  main: { kind: fuse, at: locker, family: class-t, rating: 60 A }
  lamp: { kind: load, at: locker, current: 5 A }
wires:
  link: ${wire('lower.+', 'upper.-')}
  lead: ${wire('upper.+', 'main.line')}
  feed: ${wire('main.load', 'lamp.+')}
  back: ${wire('lamp.-', 'lower.-')}
`);
    const net = netOf(op);
    expect(net.isReturn('lamp.-')).toBe(true);
    expect(net.isReturn('upper.-')).toBe(false);
    expect(net.isReturn('main.line')).toBe(false);
    expect(stacksOf(op)).toEqual([['lower', 'upper']]);
    // The link lies between the lower battery's + and the next: it has no device within reach.
    expect(exposuresOf(op).map((e) => `${e.wire}/${e.source.part}`)).toContain('link/lower');
  });

  it('is not carried to the plus side by a change-over contact', () => {
    const op = opOf(`systems: { vehicle: 12 V }
places: { cab: { hottest: 40 °C } }
parts:
  battery: { kind: battery, at: cab, role: vehicle, chemistry: agm, capacity: 80 Ah }
  main: { kind: fuse, at: cab, family: blade-f, rating: 10 A }
  flip: { kind: relay, at: cab, coil: 85 Ω, contacts: change-over, rating: 20 A, suppressed: yes }
  motor: { kind: load, at: cab, current: 2 A }
wires:
  lead: ${wire('battery.+', 'main.line', 'length: 10 cm')}
  plus: ${wire('main.load', 'flip.87')}
  minus: ${wire('battery.-', 'flip.87a')}
  out: ${wire('flip.30', 'motor.+')}
  back: ${wire('motor.-', 'battery.-')}
`);
    const net = netOf(op);
    expect(net.isReturn('flip.87')).toBe(false);
    expect(net.isReturn('flip.30')).toBe(false);
    expect(net.isReturn('flip.87a')).toBe(true);
  });
});

const SHARED = `systems: { vehicle: 12 V, house: 12 V }
places: { bay: { hottest: 40 °C }, locker: { hottest: 40 °C } }
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  main: { kind: fuse, at: bay, family: bolt-down, rating: 80 A }
  bar: { kind: busbar, at: locker }
  tap-fuse: { kind: fuse, at: locker, family: blade-f, rating: 5 A }
  charger: { kind: dc-charger, at: locker, current: 30 A, enable: voltage, low-input: stops, negative: common }
  house-fuse: { kind: fuse, at: locker, family: class-t, rating: 60 A }
  bank: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 100 Ah }
  lamp: { kind: load, at: locker, current: 1 A }
wires:
  lead: ${wire('battery.+', 'main.line', 'length: 10 cm')}
  feed-a: ${wire('main.load', 'bar.1', 'length: 4 m')}
  feed-b: ${wire('main.load', 'bar.2', 'length: 4 m')}
  last: ${wire('bar.3', 'charger.in+', 'length: 50 cm')}
  tap: { from: bar.4, to: tap-fuse.line, size: 1.5 mm2, insulation: pvc-105, length: 12 cm }
  lamp-feed: { from: tap-fuse.load, to: lamp.+, size: 1.5 mm2, insulation: pvc-105, length: 1 m }
  lamp-back: { from: lamp.-, to: battery.-, size: 1.5 mm2, insulation: pvc-105, length: 4 m }
  back: ${wire('charger.in-', 'battery.-', 'length: 4 m')}
  out: ${wire('charger.out+', 'house-fuse.load', 'length: 50 cm')}
  bank-lead: ${wire('house-fuse.line', 'bank.+', 'length: 15 cm')}
  bank-back: ${wire('bank.-', 'charger.out-', 'length: 50 cm')}
`;

describe('a feed of two cables', () => {
  const op = opOf(SHARED);
  const laid = (id: string) => {
    const found = op.wires.get(id);
    if (found === undefined) throw new Error(`no wire ${id}`);
    return found;
  };

  it('allows its whole device into each of them', () => {
    expect(sustainedInto(op, laid('feed-a'))?.amps).toBe(80);
    expect(sustainedInto(op, laid('last'))?.amps).toBe(80);
  });

  it('limits what a converter feeds by the converter and by the bank fuse, the greater of the two ends', () => {
    expect(sustainedInto(op, laid('out'))?.amps).toBe(60);
  });

  it('carries half of what the charger takes for long in each', () => {
    const charger = op.parts.get('charger')?.ability.converts?.greatestInput?.sourced.value ?? 0;
    expect(continuousInWire(op, 'last').amps).toBeCloseTo(charger, 0);
    expect(continuousInWire(op, 'feed-a').amps).toBeGreaterThan(0.45 * charger);
    expect(continuousInWire(op, 'feed-a').amps).toBeLessThan(0.6 * charger);
  });

  it('lets a short tap off to its own fuse', () => {
    expect([...tapsOf(op, practices.europe).keys()]).toEqual(['tap']);
    expect(exemptWires(op, practices.europe).has('tap')).toBe(true);
    expect(exemptWires(op, practices.europe).has('lead')).toBe(true);
    expect(exemptWires(op, practices.europe).has('lamp-feed')).toBe(false);
  });

  it('finds the own return of what a wire feeds', () => {
    expect(ownReturn(op, laid('last'))?.wire).toBe('back');
    // Both ends of the lamp's feed lie in the locker, where its return begins.
    expect(ownReturn(op, laid('lamp-feed'))).toEqual({ wire: 'lamp-back', atFrom: 'lamp.-', atTo: 'lamp.-' });
    expect(ownReturn(op, laid('lead'))).toEqual({ wire: 'back', atFrom: 'battery.-', atTo: 'battery.-' });
    expect(ownReturn(op, laid('feed-a'))).toEqual({ wire: 'back', atFrom: 'battery.-', atTo: 'charger.in-' });
    expect(ownReturn(op, laid('out'))?.wire).toBe('bank-back');
  });
});
