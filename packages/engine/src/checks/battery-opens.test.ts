/** A battery that opens itself: by its own protection, or by one before it. */
import { describe, expect, it } from 'vitest';
import { checks } from './registry.ts';
import { van } from './support/examples.ts';
import { judgeText } from './testing/judge-text.ts';

const BANK = 'kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 100 Ah, resistance: 3 mΩ';

/** A bank with these fields, and 100 A of inverter on it. */
const text = (fields: string, more: Parameters<typeof van>[1] = {}): string =>
  van('A bank under load', {
    ...more,
    parts: {
      'house-battery': `{ ${BANK}${fields} }`,
      inverter: '{ kind: load, at: locker, current: 100 A, on: schedule }',
      ...more.parts,
    },
    wires: {
      inv: '{ from: house-fuse.load, to: inverter.+, size: 50 mm2, insulation: pvc-105, length: 50 cm }',
      'inv-neg': '{ from: inverter.-, to: shunt.system, size: 50 mm2, insulation: pvc-105, length: 50 cm }',
      ...more.wires,
    },
  });

const cold = (opens: string): string =>
  text(`, opens: { charge: ${opens} }`, {
    places: { locker: '{ label: Locker outside, hottest: 45 °C, coldest: -12 °C }' },
  });

const guarded = (wired: boolean): string =>
  text('', {
    parts: {
      guard:
        '{ kind: battery-protection, at: locker, opens-above: 14.0 V after 1 s, reconnects: 13.0 V after 60 s, rating: 150 A }',
    },
    wires: {
      bank: '{ from: house-fuse.line, to: guard.load, size: 50 mm2, insulation: pvc-105, length: 10 cm }',
      'bank-2':
        '{ from: guard.battery, to: house-battery.+, size: 50 mm2, insulation: pvc-105, length: 5 cm }',
      ...(wired
        ? {
            'guard-neg':
              '{ from: guard.-, to: house-battery.-, size: 1 mm2, insulation: pvc-105, length: 20 cm }',
          }
        : {}),
    },
  });

const only = (id: string) => checks.filter((check) => check.id === id);

function find(doc: string, id: string) {
  const found = judgeText(doc, only(id.split('/')[0] ?? '')).findings.find((f) => f.id === id);
  if (found === undefined) throw new Error(`no finding ${id}`);
  return found;
}

describe('a battery opens', () => {
  it('when more is drawn than it may give', () => {
    const over = find(text(', discharge-limit: 80 A'), 'battery-opens/house-battery');
    expect(over.verdict).toBe('fault');
    expect(over.value.value).toBeCloseTo(100, 0);
    expect(over.says).toMatch(/may give 80\.0.A: its protection opens/u);
    expect(find(text(', discharge-limit: 150 A'), 'battery-opens/house-battery').verdict).toBe('met');
  });

  it('when its volts fall under load', () => {
    // 20 % rest at about 12.99 V, less 100 A x 3 mΩ (given: no colder than that).
    const low = find(text(', opens: { discharge: below 12.8 V }'), 'battery-opens/house-battery');
    expect(low.verdict).toBe('fault');
    expect(low.value.value).toBeCloseTo(12.69, 1);
    expect(find(text(', opens: { both: below 11 V }'), 'battery-opens/house-battery').verdict).toBe('met');
  });

  it('when a protection before it does, once that sees the battery', () => {
    expect(find(guarded(true), 'battery-opens/house-battery').says).toMatch(/guard opens above 14\.00.V/u);
    expect(find(guarded(true), 'guard/guard').verdict).toBe('met');
    expect(find(guarded(false), 'guard/guard').verdict).toBe('fault');
    expect(judgeText(guarded(false), only('battery-opens')).findings).toEqual([]);
  });

  it('counts as guarded in frost only where it stops as early as the cells need it', () => {
    expect(find(cold('below 2 °C'), 'cold-charge/house-battery').verdict).toBe('advice');
    expect(find(cold('below -15 °C'), 'cold-charge/house-battery').verdict).toBe('danger');
  });
});

const stacked = (order: string): string =>
  van('A stack of lugs', {
    parts: { post: `{ kind: stud, at: locker, order: [${order}] }` },
    wires: {
      out: '{ from: charger.out+, to: post.1, size: 16 mm2, insulation: pvc-105, length: 20 cm }',
      'out-2': '{ from: post.2, to: house-fuse.load, size: 25 mm2, insulation: pvc-105, length: 30 cm }',
    },
  });

describe('lugs on a stud', () => {
  it('lie with the largest next to the seat', () => {
    expect(find(stacked('out-2, out'), 'stud-lugs/post').verdict).toBe('met');
    expect(find(stacked('out, out-2'), 'stud-lugs/post').says).toMatch(
      /out-2 \(25.mm²\) lies above out \(16.mm²\)/u,
    );
  });
});
