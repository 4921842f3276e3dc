import { describe, expect, it } from 'vitest';
import { practices } from '../../practices/index.ts';
import { operationsOf, readText } from '../testing/judge-text.ts';
import { sustainedInto } from './flow.ts';

/** A lamp that a change-over switch feeds through one of two fuses, 5 A and 7.5 A. */
const text = (ways: string) => `loomwright: 1
title: One lamp, two fuses
practice: europe
systems: { house: 12 V }
places: { box: { label: Box, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: box, role: house, chemistry: agm, capacity: 80 Ah }
  bar: { kind: busbar, at: box }
  main: { kind: fuse, at: box, family: class-t, rating: 30 A, interrupts: 20 kA }
  f1: { kind: fuse, at: box, family: blade-f, rating: 5 A }
  f2: { kind: fuse, at: box, family: blade-f, rating: 7.5 A }
  sw: { kind: switch, at: box, operated-by: owner, rating: 10 A${ways} }
  lamp: { kind: load, at: box, current: 2 A }
wires:
  a: { from: bank.+, to: main.line, size: 6 mm2, length: 10 cm }
  b: { from: main.load, to: bar.1, size: 6 mm2, length: 10 cm }
  c1: { from: bar.2, to: f1.line, size: 2.5 mm2, length: 10 cm }
  c2: { from: bar.3, to: f2.line, size: 2.5 mm2, length: 10 cm }
  d1: { from: f1.load, to: sw.1, size: 1.5 mm2, length: 1 m }
  d2: { from: f2.load, to: ${ways === '' ? 'sw.in' : 'sw.2'}, size: 1.5 mm2, length: 1 m }
  e: { from: ${ways === '' ? 'sw.out' : 'sw.common'}, to: lamp.+, size: 1.5 mm2, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 1.5 mm2, length: 1 m }
`;

const flow = (build: string) => {
  const op = operationsOf(readText(build), practices.europe).nominal;
  return (id: string) => {
    const wire = op.wires.get(id);
    return wire === undefined ? null : (sustainedInto(op, wire)?.amps ?? null);
  };
};

describe('what devices let into a wire behind a change-over contact', () => {
  it('is what one throw lets in, the greater, never both', () => {
    const into = flow(text(', ways: 2'));
    expect(into('e')).toBe(7.5);
    expect(into('d1')).toBe(5);
    expect(into('d2')).toBe(7.5);
  });

  it('is both where a plain contact joins them', () => {
    expect(flow(text('').replace('to: sw.1,', 'to: sw.in,'))('e')).toBe(12.5);
  });
});
