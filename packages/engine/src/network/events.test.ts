import { describe, expect, it } from 'vitest';
import type { ElementOf } from '../contracts/element.ts';
import { constantPowerVolts, huntingWindow } from './closed-form.ts';
import { runEvents, type EventRule } from './events.ts';
import { planCircuit } from './plan.ts';
import type { Point } from './point.ts';

/** A source behind 0.1 ohm that feeds a 400 W threshold device: starts at 13.3 V after 15 s, stops below 12.8 V after 5 s. */
function loop(sourceVolts: number, ohms: number, watts: number) {
  const elements = (on: boolean): ElementOf<number>[] => [
    {
      type: 'hold',
      a: 1,
      b: 0,
      senseA: 1,
      senseB: 0,
      volts: sourceVolts,
      least: -Infinity,
      greatest: Infinity,
    },
    { type: 'resistor', a: 1, b: 2, ohms },
    { type: 'power', a: 2, b: 0, watts: on ? watts : 0, knee: 6, limit: Infinity },
  ];
  const plan = planCircuit(3, 0, elements(false));
  const rules: EventRule<Point>[] = [
    { device: 0, from: 0, to: 1, delayMs: 15_000, holds: (p) => p.volts[2] >= 13.3 },
    { device: 0, from: 1, to: 0, delayMs: 5_000, holds: (p) => p.volts[2] < 12.8 },
  ];
  return (initial: readonly number[], lastsMs: number) =>
    runEvents({ initial, rules, lastsMs, solve: (memory) => plan.solve(elements(memory[0] === 1)) });
}

describe('a threshold device at the end of a loop', () => {
  const hour = 3_600_000;

  it('settles on where the loop is good', () => {
    const [outcome] = loop(14.2, 0.01, 400)([0], hour);
    expect(outcome.type).toBe('settled');
    expect(outcome.memories).toEqual([[1]]);
    expect(outcome.events).toEqual([{ atMs: 15_000, device: 0, from: 0, to: 1 }]);
  });

  it('hunts inside the closed-form window, with the period of its delays', () => {
    const window = huntingWindow(13.3, 12.8, 400, 0.06);
    expect(window.hunts).toBe(true);
    for (const volts of [13.3, (window.from + window.to) / 2, window.to - 1e-6]) {
      const [outcome] = loop(volts, 0.06, 400)([0], hour);
      expect(outcome.type).toBe('cycle');
      expect(outcome.periodMs).toBe(20_000);
      expect(outcome.duty[0].get(1)).toBeCloseTo(0.25, 12);
      const volt = constantPowerVolts(volts, 400, 0.06)!;
      expect(outcome.mean((p) => p.current(1))).toBeCloseTo((0.25 * 400) / volt, 9);
      expect(outcome.rms((p) => p.current(1))).toBeCloseTo((0.5 * 400) / volt, 9);
      expect(outcome.memories).toEqual([[0], [1]]);
      expect(outcome.cycleEvents.map((e) => e.atMs)).toEqual([15_000, 20_000]);
    }
    expect(loop(window.to + 1e-6, 0.06, 400)([0], hour)[0].type).toBe('settled');
    expect(loop(13.3 - 1e-6, 0.06, 400)([0], hour)[0].memories).toEqual([[0]]);
  });

  it('depends on what came before between the top of the window and the start threshold', () => {
    const window = huntingWindow(13.3, 12.8, 400, 0.005);
    expect(window.hunts).toBe(false);
    const volts = (window.from + window.to) / 2;
    expect(loop(volts, 0.005, 400)([0], hour)[0].memories).toEqual([[0]]);
    expect(loop(volts, 0.005, 400)([1], hour)[0].memories).toEqual([[1]]);
  });

  it('takes the lower branch of the window where the power cannot be drawn at all', () => {
    // Voff^2 < P R: 12.8^2 = 163.84 < 2000 x 0.1
    const window = huntingWindow(13.3, 12.8, 2000, 0.1);
    expect(window.to).toBeCloseTo(2 * Math.sqrt(200), 12);
    expect(loop(window.to - 1e-6, 0.1, 2000)([0], hour)[0].type).toBe('cycle');
    expect(loop(window.to + 1e-6, 0.1, 2000)([0], hour)[0].type).toBe('settled');
  });

  it('is still running when the state ends before its timers', () => {
    const [outcome] = loop(14.2, 0.01, 400)([0], 3_000);
    expect(outcome.type).toBe('running');
    expect(outcome.memories).toEqual([[0]]);
    expect(outcome.events).toEqual([]);
  });
});

/** True while every device is off. */
const free = (memory: readonly number[]): boolean => memory.every((value) => value === 0);

/** Devices that all want to start at the same moment; whoever is first keeps the others off. */
function race(devices: number): EventRule<readonly number[]>[] {
  return Array.from({ length: devices }, (_, device) => ({
    device,
    from: 0,
    to: 1,
    delayMs: 500,
    holds: free,
  }));
}

describe('the event loop by itself', () => {
  // the "point" is the memory, so that conditions can be written down directly
  type Memory = readonly number[];
  const solve = (memory: Memory): Memory => memory;

  it('resets the timer of a condition that lapses', () => {
    // device 1 pulses; device 0 needs 250 ms of memory[1] = 1 but gets 200
    const rules: EventRule<Memory>[] = [
      { device: 0, from: 0, to: 1, delayMs: 250, holds: (m) => m[1] === 1 },
      { device: 1, from: 0, to: 1, delayMs: 300, holds: () => true },
      { device: 1, from: 1, to: 0, delayMs: 200, holds: () => true },
    ];
    const [outcome] = runEvents({ initial: [0, 0], rules, solve, lastsMs: 1e6 });
    expect(outcome.type).toBe('cycle');
    expect(outcome.periodMs).toBe(500);
    expect(outcome.memories).toEqual([
      [0, 0],
      [0, 1],
    ]);
  });

  it('keeps a timer running through the events of others', () => {
    const rules: EventRule<Memory>[] = [
      { device: 0, from: 0, to: 1, delayMs: 1_000, holds: () => true },
      { device: 1, from: 0, to: 1, delayMs: 300, holds: () => true },
    ];
    const [outcome] = runEvents({ initial: [0, 0], rules, solve, lastsMs: 1e6 });
    expect(outcome.events.map((e) => e.atMs)).toEqual([300, 1_000]);
  });

  it('counts no delay as 100 ms', () => {
    const rules: EventRule<Memory>[] = [{ device: 0, from: 0, to: 1, delayMs: 0, holds: () => true }];
    expect(runEvents({ initial: [0], rules, solve, lastsMs: 1e6 })[0].events[0].atMs).toBe(100);
  });

  it('follows every order of tied devices and reports what differs', () => {
    const three = runEvents({ initial: [0, 0, 0], rules: race(3), solve, lastsMs: 1e6 });
    expect(three.map((o) => o.memories)).toEqual([[[1, 0, 0]], [[0, 1, 0]], [[0, 0, 1]]]);
    const five = runEvents({ initial: [0, 0, 0, 0, 0], rules: race(5), solve, lastsMs: 1e6 });
    expect(five.map((o) => o.memories)).toEqual([[[1, 1, 1, 1, 1]]]);
  });

  it('gives one outcome where the order of tied devices does not matter', () => {
    const rules: EventRule<Memory>[] = [0, 1].map((device) => ({
      device,
      from: 0,
      to: 1,
      delayMs: 500,
      holds: () => true,
    }));
    const outcomes = runEvents({ initial: [0, 0], rules, solve, lastsMs: 1e6 });
    expect(outcomes).toHaveLength(1);
    expect(outcomes[0].memories).toEqual([[1, 1]]);
  });

  it('calls a long run without repetition irregular, with means over its last half', () => {
    const rules: EventRule<Memory>[] = [];
    for (let value = 0; value < 60; value += 1) {
      rules.push({ device: 0, from: value, to: value + 1, delayMs: 100, holds: () => true });
    }
    const [outcome] = runEvents({ initial: [0], rules, solve, lastsMs: 1e9, maxEvents: 40 });
    expect(outcome.type).toBe('irregular');
    expect(outcome.events).toHaveLength(40);
    expect(outcome.mean((m) => m[0])).toBeGreaterThan(20);
    expect(outcome.mean((m) => m[0])).toBeLessThan(40);
  });

  it('marks a cycle of nothing but benign events', () => {
    const rules: EventRule<Memory>[] = [
      { device: 0, from: 0, to: 1, delayMs: 180_000, holds: () => true, benign: true },
      { device: 0, from: 1, to: 0, delayMs: 5_000, holds: () => true, benign: true },
    ];
    expect(runEvents({ initial: [0], rules, solve, lastsMs: 1e9 })[0].benign).toBe(true);
  });

  it('solves each memory once', () => {
    let solved = 0;
    const rules: EventRule<Memory>[] = [
      { device: 0, from: 0, to: 1, delayMs: 100, holds: () => true },
      { device: 0, from: 1, to: 0, delayMs: 200, holds: () => true },
      { device: 1, from: 0, to: 1, delayMs: 170, holds: () => true },
      { device: 1, from: 1, to: 0, delayMs: 230, holds: () => true },
    ];
    const [outcome] = runEvents({
      initial: [0, 0],
      rules,
      lastsMs: 1e9,
      solve: (memory) => {
        solved += 1;
        return memory;
      },
    });
    expect(outcome.type).toBe('cycle');
    expect(outcome.periodMs).toBe(1_200);
    expect(solved).toBe(4);
  });
});
