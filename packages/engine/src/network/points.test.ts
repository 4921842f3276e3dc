import { describe, expect, it } from 'vitest';
import type { ConverterElement, ElementOf } from '../contracts/element.ts';
import { constantPowerVolts, greatestLoopOhms } from './closed-form.ts';
import { planCircuit, type Steps } from './plan.ts';
import type { Point } from './point.ts';

type Element = ElementOf<number>;

function solve(nodes: number, ...elements: Element[]): Point {
  const point = planCircuit(nodes, 0, elements).solve(elements);
  expect(point.settled).toBe(true);
  expect(point.proof.holds).toBe(true);
  return point;
}

function source(node: number, volts: number): Element {
  return {
    type: 'hold',
    a: node,
    b: 0,
    senseA: node,
    senseB: 0,
    volts,
    least: -Infinity,
    greatest: Infinity,
  };
}

function wire(a: number, b: number, ohms: number): Element {
  return { type: 'resistor', a, b, ohms };
}

/** A 30 A converter from node 2 to node 3, both against the reference. */
function converter(change: Partial<ConverterElement<number>> = {}): Element {
  return {
    type: 'converter',
    inA: 2,
    inB: 0,
    outA: 3,
    outB: 0,
    senseA: 3,
    senseB: 0,
    on: true,
    idleOhms: 1e5,
    standbyAmps: 0.05,
    volts: 14.4,
    current: 30,
    efficiency: [[1, 0.9]],
    ratedCurrent: 30,
    inputLimit: 60,
    lowest: 8,
    lowInput: { type: 'none' },
    demand: null,
    ...change,
  };
}

/** A bank of 13.3 V behind 5 milliohm. */
const bank: Element = { type: 'pieces', a: 3, b: 0, points: [[13.3, 0]], below: 200, above: 200 };

function charger(
  volts: number,
  ohms: number,
  change: Partial<ConverterElement<number>> = {},
  load: Element = bank,
): Point {
  return solve(4, source(1, volts), wire(1, 2, ohms), converter(change), load);
}

describe('constant power behind a loop', () => {
  it.each([
    [13.8, 400, 0.02],
    [12.5, 100, 0.3],
    [27, 1000, 0.15],
  ])('%d V, %d W, %d ohm: the closed form', (volts, watts, ohms) => {
    const load: Element = { type: 'power', a: 2, b: 0, watts, knee: 2, limit: Infinity };
    const point = solve(3, source(1, volts), wire(1, 2, ohms), load);
    const truth = constantPowerVolts(volts, watts, ohms) ?? Number.NaN;
    expect(Math.abs(point.drop(2) - truth)).toBeLessThan(1e-12);
    expect(Math.abs(point.current(2) - watts / truth)).toBeLessThan(1e-10);
    expect(point.regime(2)).toBe('constant-power');
  });

  it('falls onto its resistance just where the closed form has no solution left', () => {
    const most = greatestLoopOhms(13, 300);
    const load: Element = { type: 'power', a: 2, b: 0, watts: 300, knee: 5, limit: Infinity };
    expect(solve(3, source(1, 13), wire(1, 2, most * 0.999999), load).regime(2)).toBe('constant-power');
    const beyond = solve(3, source(1, 13), wire(1, 2, most * 1.000001), load);
    expect(beyond.regime(2)).toBe('below-knee');
    expect(beyond.drop(2)).toBeCloseTo((13 * (25 / 300)) / (25 / 300 + most * 1.000001), 12);
  });

  it('takes no more than its limit', () => {
    const load: Element = { type: 'power', a: 2, b: 0, watts: 300, knee: 5, limit: 20 };
    const point = solve(3, source(1, 13), wire(1, 2, 0.1), load);
    expect(point.regime(2)).toBe('at-limit');
    expect(point.current(2)).toBe(20);
  });
});

describe('converter', () => {
  it('in current limit: input power = output power / efficiency + standby', () => {
    const point = charger(14, 0.02);
    expect(point.regime(2)).toBe('current');
    expect(point.outCurrent(2)).toBe(30);
    const out = point.drop(3);
    expect(out).toBeCloseTo(13.3 + 30 / 200, 12);
    expect(point.drop(2) * (point.current(2) - 0.05)).toBeCloseTo((30 * out) / 0.9, 10);
    // behind the loop, with the standby current drawn beside the power
    const volts = constantPowerVolts(14 - 0.05 * 0.02, (30 * out) / 0.9, 0.02) ?? 0;
    expect(point.drop(2)).toBeCloseTo(volts, 10);
  });

  it('regulates its output where less than its limit does it', () => {
    const point = charger(14, 0.02, { volts: 13.4 });
    expect(point.regime(2)).toBe('voltage');
    expect(point.drop(3)).toBeCloseTo(13.4, 12);
    expect(point.outCurrent(2)).toBeCloseTo(20, 9);
  });

  it('is blocked where another source holds the output higher, and never absorbs', () => {
    const point = charger(14, 0.02, { volts: 13.2 });
    expect(point.regime(2)).toBe('blocked');
    expect(point.outCurrent(2)).toBe(0);
    expect(point.current(2)).toBeCloseTo(0.05, 12);
  });

  it('regulates against nothing when its output leads nowhere', () => {
    const point = charger(14, 0.02, {}, wire(3, 0, Infinity));
    expect(point.regime(2)).toBe('voltage');
    expect(point.volts[3]).toBeCloseTo(14.4, 9);
    expect(point.current(2)).toBeCloseTo(0.05, 9);
  });

  it('with remote sense and its output leading nowhere rises to the end of its sense range, not without bound', () => {
    const sensed: Element = { ...converter({ senseA: 4 }), type: 'converter' } as Element;
    const house: Element = { type: 'pieces', a: 4, b: 0, points: [[13.3, 0]], below: 200, above: 200 };
    const point = solve(5, source(1, 14), wire(1, 2, 0.02), sensed, wire(3, 4, Infinity), house);
    expect(point.regime(2)).toBe('sense-limit');
    expect(point.volts[3]).toBeCloseTo(1.1 * 14.4, 9);
  });

  it('draws no more than its input limit; the output follows the power there is', () => {
    const point = charger(14, 0.02, { inputLimit: 25 });
    expect(point.regime(2)).toBe('input-limit');
    expect(point.current(2)).toBe(25);
    const sent = point.outCurrent(2);
    expect((sent * point.drop(3)) / 0.9).toBeCloseTo(point.drop(2) * 24.95, 9);
  });

  it('holds its input voltage by giving less', () => {
    const point = charger(14, 0.05, { lowInput: { type: 'holds', volts: 13 } });
    expect(point.regime(2)).toBe('holding');
    expect(point.drop(2)).toBeCloseTo(13, 12);
    expect(point.current(2)).toBeCloseTo(20, 9);
    expect((point.outCurrent(2) * point.drop(3)) / 0.9).toBeCloseTo(13 * (20 - 0.05), 9);
  });

  it('reduces its output with the input voltage', () => {
    const point = charger(14, 0.05, { lowInput: { type: 'reduces', from: 13, to: 12 } });
    expect(point.regime(2)).toBe('reducing');
    expect(point.outCurrent(2)).toBeCloseTo(30 * (point.drop(2) - 12), 9);
  });

  it('gives nothing below what its low-input rule asks for', () => {
    const point = charger(12.5, 0.05, { lowInput: { type: 'holds', volts: 13 } });
    expect(point.regime(2)).toBe('holding');
    expect(point.outCurrent(2)).toBe(0);
    expect(point.current(2)).toBe(0.05);
  });

  it('goes on as a resistance below its lowest input', () => {
    const point = charger(13, 0.2, { inputLimit: 60, lowest: 8 });
    expect(point.regime(2)).toBe('below-lowest');
    expect(point.current(2)).toBeCloseTo((60 / 8) * point.drop(2), 10);
  });

  it('with a dead input does nothing', () => {
    const point = solve(4, source(1, 14), wire(1, 2, Infinity), converter(), bank);
    expect(point.regime(2)).toBe('below-lowest');
    expect(point.current(2)).toBe(0);
    expect(point.outCurrent(2)).toBe(0);
    expect(point.volts[3]).toBeCloseTo(13.3, 12);
  });

  it('off is a resistance and a standby current, which falls to nothing below 1 V', () => {
    const off = charger(14, 0.02, { on: false });
    expect(off.regime(2)).toBe('off');
    expect(off.current(2)).toBeCloseTo(off.drop(2) / 1e5 + 0.05, 12);
    const low = charger(0.5, 0.02, { on: false });
    expect(low.current(2)).toBeCloseTo(low.drop(2) * (1e-5 + 0.05), 12);
  });

  it('asked for a power takes exactly that and gives its full current', () => {
    const point = charger(14, 0.02, { demand: 500 });
    expect(point.drop(2)).toBeCloseTo(constantPowerVolts(14, 500, 0.02) ?? 0, 11);
    expect(point.outCurrent(2)).toBe(30);
    const limited = charger(14, 0.02, { demand: 500, inputLimit: 20 });
    expect(limited.current(2)).toBe(20);
    const volts = limited.drop(2);
    expect(limited.outCurrent(2)).toBeCloseTo((30 * (20 - 0.05)) / (500 / volts - 0.05), 9);
  });

  it('follows its efficiency table', () => {
    const table = [
      [0.5, 0.9],
      [1, 0.8],
    ] as const;
    const point = charger(14, 0.001, { efficiency: table, volts: 13.4125 });
    expect(point.outCurrent(2)).toBeCloseTo(22.5, 9);
    expect(point.drop(2) * (point.current(2) - 0.05)).toBeCloseTo((22.5 * 13.4125) / 0.85, 8);
  });
});

describe('of several solutions', () => {
  it('the highest is reported, reached from no load', () => {
    // the bank is full just above the converter's set voltage; at 12.35 V in it regulates, at 10.9 V it would as well
    const point = solve(
      4,
      {
        type: 'pieces',
        a: 1,
        b: 0,
        points: [
          [12.42, 0],
          [12.79, 18],
        ],
        below: 71,
        above: 0.5,
      },
      { type: 'hold', a: 1, b: 0, senseA: 1, senseB: 0, volts: 14.07, least: 0, greatest: 60 },
      wire(1, 2, 0.04),
      converter({ volts: 14.2, current: 40 }),
      { type: 'pieces', a: 3, b: 0, points: [[13.05, 0]], below: 91, above: 27 },
    );
    expect(point.regime(1)).toBe('regulating');
    expect(point.drop(3)).toBeGreaterThan(12.2);
  });
});

/** An alternator at node 1 that holds 14.2 V. */
function alternator(greatest: number, least = 0): Element {
  return { type: 'hold', a: 1, b: 0, senseA: 1, senseB: 0, volts: 14.2, least, greatest };
}

describe('regulator', () => {
  const battery: Element = { type: 'pieces', a: 1, b: 0, points: [[12.6, 0]], below: 100, above: 20 };
  it('regulates, stands at its limit, or is blocked', () => {
    const regulating = solve(2, battery, alternator(100), wire(1, 0, 1));
    expect(regulating.regime(1)).toBe('regulating');
    expect(regulating.current(1)).toBeCloseTo(-(1.6 * 20 + 14.2), 10);
    const limited = solve(2, battery, alternator(30), wire(1, 0, 1));
    expect(limited.regime(1)).toBe('greatest');
    expect(limited.volts[1]).toBeCloseTo((30 + 12.6 * 20) / 21, 11);
    const blocked = solve(2, battery, alternator(100), source(1, 14.5));
    expect(blocked.regime(1)).toBe('least');
    expect(blocked.current(1)).toBe(0);
  });

  it('beside another one that holds the very same, one rests until the other is at its limit', () => {
    const both = solve(2, alternator(100), alternator(100), wire(1, 0, 1));
    expect([both.current(0), both.current(1)].toSorted((a, b) => a - b)).toEqual([
      expect.closeTo(-14.2, 9),
      0,
    ]);
    const limited = solve(2, alternator(10), alternator(100), wire(1, 0, 1));
    expect(limited.volts[1]).toBeCloseTo(14.2, 12);
    expect(limited.current(0) + limited.current(1)).toBeCloseTo(-14.2, 9);
    expect(limited.current(0)).toBeGreaterThanOrEqual(-10);
  });

  it('yields to an ideal source that holds something else', () => {
    const point = solve(2, alternator(100), source(1, 13.9), wire(1, 0, 1));
    expect(point.volts[1]).toBeCloseTo(13.9, 12);
    expect(point.regime(0)).toBe('greatest');
  });
});

describe('islands', () => {
  it('are solved against their own lowest node and named', () => {
    const point = solve(
      6,
      source(1, 12),
      wire(1, 2, 1),
      wire(2, 3, Infinity),
      { type: 'pieces', a: 3, b: 4, points: [[13, 0]], below: 100, above: 100 },
      wire(3, 4, 2),
      wire(5, 3, Infinity),
    );
    expect([...point.island]).toEqual([0, 0, 0, 1, 1, 2]);
    expect(point.volts[4]).toBe(0);
    expect(point.volts[3]).toBeCloseTo(13 * (2 / 2.01), 11);
    expect(point.volts[5]).toBe(0);
    expect(point.current(2)).toBe(0);
  });

  it('a current source into an island with no way out is reported, not answered', () => {
    const elements: Element[] = [
      source(1, 12),
      { type: 'pieces', a: 2, b: 1, points: [[0, 5]], below: 0, above: 0 },
      wire(2, 0, Infinity),
    ];
    const point = planCircuit(3, 0, elements).solve(elements);
    expect(point.settled).toBe(false);
    expect(point.unsettled).toContain(2);
  });
});

describe('plan', () => {
  it('counts its work', () => {
    const elements = [source(1, 12), wire(1, 2, 1), wire(2, 0, 1)];
    const plan = planCircuit(3, 0, elements);
    const steps: Steps = { nodes: 0, solves: 0 };
    plan.solve(elements, { steps });
    plan.solve(elements, { steps });
    expect(steps.solves).toBe(2);
    expect(steps.nodes).toBeGreaterThanOrEqual(6);
    expect(steps.nodes).toBeLessThan(40);
  });

  it('answers for a curve and for a straight line in the same place', () => {
    const curve: Element = { type: 'pieces', a: 1, b: 0, points: [[12, 0]], below: 10, above: 2 };
    const line: Element = { ...curve, above: 10 };
    const up: Element = { type: 'pieces', a: 1, b: 0, points: [[0, -6]], below: 0, above: 0 };
    const plan = planCircuit(2, 0, [curve, up]);
    expect(plan.solve([curve, up]).volts[1]).toBeCloseTo(15, 12);
    expect(plan.solve([line, up]).volts[1]).toBeCloseTo(12.6, 12);
    expect(plan.solve([curve, up]).volts[1]).toBeCloseTo(15, 12);
  });

  it('keeps a point as it was when the elements are changed afterwards', () => {
    const elements = [source(1, 12), wire(1, 0, 1)];
    const plan = planCircuit(2, 0, elements);
    const point = plan.solve(elements);
    elements[1] = wire(1, 0, 2);
    expect(plan.solve(elements).current(1)).toBeCloseTo(6, 12);
    expect(point.current(1)).toBeCloseTo(12, 12);
  });

  it('refuses what is no circuit', () => {
    const bad = [source(1, 12), wire(1, 0, 0)];
    expect(() => planCircuit(2, 0, bad).solve(bad)).toThrow(RangeError);
    expect(() => planCircuit(2, 0, [wire(1, 5, 1)]).solve([wire(1, 5, 1)])).toThrow(RangeError);
    expect(() => planCircuit(2, 2, [])).toThrow(RangeError);
    expect(() => planCircuit(2, 0, bad).solve([])).toThrow(RangeError);
  });
});
