import { describe, expect, it } from 'vitest';
import { practices } from '../../practices/index.ts';
import { operationsOf, readText } from '../testing/judge-text.ts';
import { behind } from './behind.ts';

/** A relay between two batteries; a motor hangs on the second one. */
const text = (more = '') => `loomwright: 1
title: Two batteries joined by a relay
practice: europe
systems: { house: 12 V }
places: { box: { label: Box, hottest: 40 °C } }
parts:
  a: { kind: battery, at: box, role: house, chemistry: agm, capacity: 80 Ah }
  b: { kind: battery, at: box, role: house, chemistry: agm, capacity: 80 Ah }
  fa: { kind: fuse, at: box, family: class-t, rating: 60 A, interrupts: 20 kA }
  join: { kind: relay, at: box, coil: 85 Ω, rating: 80 A, suppressed: yes }
  key: { kind: switch, at: box, operated-by: owner, rating: 60 A }
  winch: { kind: load, at: box, current: 20 A, inrush: motor }
wires:
  w1: { from: a.+, to: fa.line, size: 16 mm2, length: 10 cm }
  w2: { from: fa.load, to: join.30, size: 16 mm2, length: 1 m }
  w3: { from: join.87, to: ${more === '' ? 'b.+' : 'key.in'}, size: 16 mm2, length: 1 m }
  w4: { from: join.87, to: winch.+, size: 16 mm2, length: 1 m }
  n1: { from: a.-, to: b.-, size: 16 mm2, length: 1 m }
  n2: { from: winch.-, to: b.-, size: 16 mm2, length: 1 m }
${more}`;

const sort = (build: string) => {
  const op = operationsOf(readText(build), practices.europe).nominal;
  const join = op.parts.get('join');
  return join === undefined ? null : behind(op, join, '30', '87').sort;
};

describe('what lies behind a contact', () => {
  it('is nothing of what two batteries feed that it joins: that is fed whether it is open or closed', () => {
    expect(sort(text())).toBe('resistive');
  });

  it('is the motor where the battery beside it can be switched off', () => {
    expect(sort(text('  w5: { from: key.out, to: b.+, size: 16 mm2, length: 1 m }\n'))).toBe('inductive');
  });
});
