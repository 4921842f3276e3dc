/** What is a tap and what is simply a long way to the first device. */
import { describe, expect, it } from 'vitest';
import type { PracticeId } from '../contracts/index.ts';
import { practices } from '../practices/index.ts';
import { protectedReach } from './protected.ts';
import { van } from './support/examples.ts';
import { exemptWires, tapsOf } from './support/exposure.ts';
import { judgeText } from './testing/judge-text.ts';

const WIRE = 'size: 2.5 mm2, insulation: pvc-105';

/** Battery, 10 cm to a stud, a second lead to a breaker; behind `fuse` a fuse stands at the battery. */
const text = (second: string, fuse = false): string => `loomwright: 1
title: A stud before the breaker
systems: { house: 12 V }
places: { bay: { label: Battery bay, hottest: 45 °C } }
parts:
  bank: { kind: battery, at: bay, role: house, chemistry: agm, capacity: 100 Ah }
${fuse ? '  main-fuse: { kind: fuse, at: bay, family: class-t, rating: 100 A, interrupts: 20 kA }\n' : ''}  post: { kind: stud, at: bay }
  lamp-breaker: { kind: breaker, at: bay, rating: 15 A, reset: manual, interrupts: 5 kA }
  lamp: { kind: load, at: bay, current: 5 A }
wires:
  first: { from: ${fuse ? 'main-fuse.load' : 'bank.+'}, to: post.1, size: 16 mm2, insulation: pvc-105, length: 10 cm }
${fuse ? '  lead: { from: bank.+, to: main-fuse.line, size: 16 mm2, insulation: pvc-105, length: 15 cm }\n' : ''}  second: { from: post.2, to: lamp-breaker.line, ${WIRE}, length: ${second} }
  lamp-feed: { from: lamp-breaker.load, to: lamp.+, ${WIRE}, length: 2 m }
  lamp-back: { from: lamp.-, to: bank.-, ${WIRE}, length: 2 m }
`;

const at = (practice: PracticeId, second: string, id: string, fuse = false) =>
  judgeText(text(second, fuse), [protectedReach], practice).finding(id);

describe('a wire from a stud that the battery reaches bare', () => {
  it('is judged by its whole way from the battery: 10 cm and 10 cm are 20 cm against 178 mm', () => {
    const f = at('north-america', '10 cm', 'protected/second/bank');
    expect(f.value.value).toBeCloseTo(0.2, 9);
    expect(f.limit.value).toBeCloseTo(0.178, 9);
    expect(f.verdict).toBe('danger');
    expect(at('north-america', '7 cm', 'protected/second/bank').verdict).toBe('met');
  });

  it('in Europe is open beyond 178 mm and a danger beyond 200 mm', () => {
    expect(at('europe', '7 cm', 'protected/second/bank').verdict).toBe('met');
    const between = at('europe', '10 cm', 'protected/second/bank');
    expect([between.verdict, between.open]).toEqual(['open', 'unconfirmed']);
    expect(at('europe', '11 cm', 'protected/second/bank').verdict).toBe('danger');
  });

  it('is no tap, and too long is not exempt from rating and clearing', () => {
    const { operations } = judgeText(text('10 cm'), [protectedReach], 'north-america');
    const practice = practices['north-america'];
    expect([...tapsOf(operations.nominal, practice).keys()]).toEqual([]);
    expect(exemptWires(operations.nominal, practice).has('second')).toBe(false);
    expect(exemptWires(operations.nominal, practice).has('first')).toBe(true);
  });
});

describe('a wire from a stud behind a fuse', () => {
  it('is a tap: measured from the stud', () => {
    const f = at('north-america', '10 cm', 'protected/second/post', true);
    expect(f.value.value).toBeCloseTo(0.1, 9);
    expect(f.verdict).toBe('met');
    const { operations } = judgeText(text('10 cm', true), [protectedReach], 'north-america');
    expect([...tapsOf(operations.nominal, practices['north-america']).keys()]).toContain('second');
  });
});

/** 30 A through `lead` to the load side of the bank's fuse, where a thin wire leaves for its own fuse. */
const meeting = (lead: string): string =>
  van('A thin wire beside the charger', {
    parts: {
      'lamp-fuse': '{ kind: fuse, at: locker, family: blade-f, rating: 3 A, interrupts: 1 kA }',
      lamp: '{ kind: load, at: locker, current: 1 A }',
    },
    wires: {
      out: `{ from: charger.out+, to: house-fuse.load, size: ${lead}, insulation: pvc-105, length: 50 cm }`,
      thin: '{ from: house-fuse.load, to: lamp-fuse.line, size: 1.5 mm2, insulation: pvc-70, length: 10 cm }',
      'lamp-feed': `{ from: lamp-fuse.load, to: lamp.+, ${WIRE}, length: 2 m }`,
      'lamp-back': `{ from: lamp.-, to: shunt.system, ${WIRE}, length: 2 m }`,
    },
  });

const thin = (lead: string) => judgeText(meeting(lead), [protectedReach]).finding('protected/thin/charger');

describe('a wire from where a charger and a fused bank meet', () => {
  it('is a tap where the lead carries all that the charger gives', () => {
    const f = thin('16 mm2');
    expect(f.value.value).toBeCloseTo(0.1, 9);
    expect(f.verdict).toBe('met');
  });

  it('is none where the charger may burn the lead: 60 cm without a device', () => {
    const f = thin('1 mm2');
    expect(f.value.value).toBeCloseTo(0.6, 9);
    expect(f.verdict).toBe('danger');
  });
});

/** A lead of 19 cm from a stud behind the fuse to a breaker. */
const lead = (rating: string, area: string) =>
  judgeText(
    text('19 cm', true)
      .replace('rating: 100 A, interrupts: 20 kA', `rating: ${rating}, interrupts: 20 kA, clearing: 9000 A²s`)
      .replace('interrupts: 20 kA', 'heat-factor: 0.8, interrupts: 20 kA')
      .replace(`lamp-breaker.line, ${WIRE}`, `lamp-breaker.line, size: ${area}, insulation: pvc-70`),
    [protectedReach],
    'europe',
  ).finding('protected/second/post');

describe('a tap at a distance of which only memory says that it will do', () => {
  it('is open behind a fuse that may burn it', () => {
    expect(lead('40 A', '2.5 mm2')).toMatchObject({ verdict: 'open', open: 'unconfirmed' });
  });

  it('is met behind one that protects it: its distance decides nothing', () => {
    const found = lead('40 A', '16 mm2');
    expect(found.verdict).toBe('met');
    expect(found.says).toMatch(/protected upstream \(main-fuse\): it carries 40.A/u);
  });
});
