/** Opening by volts, closing again, letting nothing in when cold. Thresholds are the document's own. */
import { describe, expect, it } from 'vitest';
import type { ElementOf, MemoryRule, Probe } from '../contracts/index.ts';
import { coldCharge } from '../checks/cold-charge.ts';
import { van } from '../checks/support/examples.ts';
import { judgeText } from '../checks/testing/judge-text.ts';
import { batteryProtection } from './battery-protection.ts';
import { solved } from './testing/solving.ts';
import { partOf, surroundings, type Around } from './testing/surroundings.ts';

const TEXT =
  '{ kind: battery-protection, opens-below: 11.5 V after 10 s, opens-above: 15 V after 1 s, charge-blocked-below: 2 °C, reconnects: 13 V after 60 s, rating: 100 A, contact: 1 mΩ }';

const [CLOSED, LOW, HIGH] = [0, 1, 2];

const memoryOf = (text: string, around: Around = {}) =>
  batteryProtection.memory?.(surroundings(partOf(text), around)) ?? null;

const at = (volts: number): Probe => ({ volts: () => volts, amps: () => 0 });

/** The rules that fire from a memory value at a battery voltage. */
const fires = (from: number, volts: number, text = TEXT): readonly MemoryRule[] =>
  (memoryOf(text)?.rules ?? []).filter((rule) => rule.from === from && rule.when(at(volts)));

const goes = (from: number, volts: number, text = TEXT): readonly (readonly [number, number])[] =>
  fires(from, volts, text).map((rule) => [rule.to, rule.delayMs] as const);

describe('opening and closing', () => {
  it('opens below and above, each after its delay, and not between', () => {
    expect(goes(CLOSED, 11.49)).toEqual([[LOW, 10_000]]);
    expect(goes(CLOSED, 11.5)).toEqual([]);
    expect(goes(CLOSED, 15)).toEqual([]);
    expect(goes(CLOSED, 15.01)).toEqual([[HIGH, 1000]]);
  });

  it('closes again at the reconnecting voltage after low, and when it has fallen back after high', () => {
    expect(goes(LOW, 12.99)).toEqual([]);
    expect(goes(LOW, 13)).toEqual([[CLOSED, 60_000]]);
    expect(goes(LOW, 15.5)).toEqual([]);
    expect(goes(HIGH, 15.2)).toEqual([]);
    expect(goes(HIGH, 12.5)).toEqual([[CLOSED, 60_000]]);
  });

  it('does not close below the voltage that it opens at, whatever reconnects says', () => {
    const text = '{ kind: battery-protection, opens-below: 12 V, reconnects: 11 V after 5 s }';
    expect(goes(LOW, 11.5, text)).toEqual([]);
    expect(goes(LOW, 12, text)).toEqual([[CLOSED, 5000]]);
  });

  it('takes a usual reconnecting voltage for the volts of its system', () => {
    const text = '{ kind: battery-protection, system: house, opens-below: 23 V }';
    const found = batteryProtection.memory?.(
      surroundings(partOf(text, { systems: '{ vehicle: 12 V, house: 24 V }' })),
    );
    const back = found?.rules.find((rule) => rule.from === LOW);
    expect([25.9, 26].map((volts) => back?.when(at(volts)))).toEqual([false, true]);
    expect(back?.delayMs).toBe(60_000);
  });

  it('remembers nothing without a limit, and measures nothing without its negative', () => {
    expect(memoryOf('{ kind: battery-protection, rating: 100 A }')).toBeNull();
    expect(memoryOf(TEXT, { wires: ['battery', 'load'] })).toBeNull();
  });
});

/** Amperes from battery to load with `volts` across it. */
function amps(volts: number, around: Around): number {
  const own = batteryProtection.elements(surroundings(partOf(TEXT), around));
  const source: ElementOf<string> = {
    type: 'hold',
    a: 'battery',
    b: 'load',
    senseA: 'battery',
    senseB: 'load',
    volts,
    least: -Infinity,
    greatest: Infinity,
  };
  const point = solved([...own, source], 'load');
  expect(point.settled).toBe(true);
  return own.reduce((sum, _e, i) => sum + point.amps(i), 0);
}

describe('what it lets through', () => {
  it('is its contact in both directions when warm', () => {
    expect(amps(0.05, { air: 20 })).toBeCloseTo(50, 6);
    expect(amps(-0.05, { air: 20 })).toBeCloseTo(-50, 6);
  });

  it('lets nothing into the battery when cold, and everything out', () => {
    expect(amps(0.05, { air: 1.9 })).toBeCloseTo(50, 6);
    expect(amps(-0.05, { air: 1.9 })).toBeCloseTo(0, 9);
    expect(amps(-0.05, { air: 2 })).toBeCloseTo(-50, 6);
  });

  it('does not know the cold without its negative', () => {
    expect(amps(-0.05, { air: -10, wires: ['battery', 'load'] })).toBeCloseTo(-50, 6);
  });

  it('is open after low and high voltage, in service only', () => {
    for (const memory of [LOW, HIGH]) {
      expect(amps(0.05, { air: 20, memory })).toBeCloseTo(0, 9);
      expect(amps(0.05, { air: 20, memory, mode: 'fault-greatest' })).toBeCloseTo(50, 6);
    }
    expect(amps(0.05, { air: 20, opened: true })).toBeCloseTo(0, 9);
  });
});

/** The sound van with a protection between charger and bank fuse, in a locker that freezes. */
const behind = (guard: string, more: Readonly<Record<string, string>> = {}) =>
  judgeText(
    van('Behind a protection', {
      places: { locker: '{ hottest: 45 °C, coldest: -12 °C }', cab: '{ hottest: 45 °C, coldest: 10 °C }' },
      parts: { guard },
      wires: {
        out: '{ from: charger.out+, to: guard.load, size: 16 mm2, insulation: pvc-105, length: 50 cm }',
        in: '{ from: guard.battery, to: house-fuse.load, size: 16 mm2, insulation: pvc-105, length: 20 cm }',
        'guard-neg':
          '{ from: guard.-, to: house-battery.-, size: 1.5 mm2, insulation: pvc-105, length: 20 cm }',
        ...more,
      },
    }),
    [coldCharge],
  );

const GUARD = '{ kind: battery-protection, at: locker, charge-blocked-below: 2 °C, rating: 100 A }';
const verdictOf = (guard: string, more: Readonly<Record<string, string>> = {}): string =>
  behind(guard, more).finding('cold-charge/house-battery').verdict;

describe('a lithium battery in a frosty locker', () => {
  it('is guarded, and the charger puts nothing into it', () => {
    const judged = behind(GUARD);
    expect(judged.finding('cold-charge/house-battery').verdict).toBe('advice');
    const op = judged.operations.nominal;
    const cold = op.corners.find((corner) => corner.air === 'coldest');
    const driving = op.judged.filter((c) => c.state === 'driving' && c.corner === cold?.id);
    expect(driving.length).toBeGreaterThan(0);
    for (const condition of driving) {
      const into = op.solve(condition).map((each) => each.terminalAmps('house-battery', '+'));
      expect(into.length).toBeGreaterThan(0);
      expect(Math.max(...into.map((amps) => Math.abs(amps)))).toBeLessThan(0.01);
    }
  });

  it('is not guarded by one that blocks too late, stands in the warm, has no negative, or is passed by', () => {
    expect(verdictOf(GUARD.replace('2 °C', '-5 °C'))).toBe('danger');
    expect(verdictOf(GUARD.replace('at: locker', 'at: cab'))).toBe('danger');
    expect(
      verdictOf(GUARD, { 'guard-neg': '{ from: shunt.battery, to: house-battery.-, size: 16 mm2 }' }),
    ).toBe('danger');
    expect(
      verdictOf(GUARD, {
        past: '{ from: charger.out+, to: house-fuse.load, size: 16 mm2, insulation: pvc-105, length: 1 m }',
      }),
    ).toBe('danger');
  });
});
