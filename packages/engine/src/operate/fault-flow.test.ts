/** Faults by straight lines, against the circuit with the fault in it. */
import { describe, expect, it } from 'vitest';
import type { ElementOf } from '../contracts/index.ts';
import { planCircuit } from '../network/index.ts';
import { FaultFlows, straightNetOf } from './fault-flow.ts';

type Element = ElementOf<number>;

const resistor = (a: number, b: number, ohms: number): Element => ({ type: 'resistor', a, b, ohms });

/** Two batteries, a regulator of 90 A that senses at the far battery, a diode, a load with a cut-out, an open contact. */
const ELEMENTS: readonly Element[] = [
  { type: 'pieces', a: 1, b: 0, points: [[12.8, 0]], below: 200, above: 200 },
  { type: 'pieces', a: 6, b: 0, points: [[13.1, 0]], below: 125, above: 125 },
  { type: 'hold', a: 3, b: 0, senseA: 1, senseB: 0, volts: 14.4, least: 0, greatest: 90 },
  { type: 'pieces', a: 4, b: 5, points: [[0.7, 0]], below: 0, above: 1000 },
  {
    type: 'pieces',
    a: 5,
    b: 0,
    points: [
      [10.5, 0],
      [11, 5],
    ],
    below: 0,
    above: 0,
  },
  resistor(1, 2, 4e-3),
  resistor(2, 3, 2e-3),
  resistor(2, 4, 15e-3),
  resistor(4, 6, 8e-3),
  resistor(5, 0, 8),
  resistor(5, 7, 0.5),
  resistor(7, 0, Infinity),
];
const NODES = 8;

const net = planCircuit(NODES, 0, ELEMENTS);

function flows(): FaultFlows {
  const made = FaultFlows.of(straightNetOf(net, ELEMENTS), ELEMENTS, net.solve(ELEMENTS));
  if (made === null) throw new Error('these elements are straight lines');
  return made;
}

/** A battery, and a regulator that senses at it through a thin wire. */
const thin = (rest: number): Element[] => [
  { type: 'pieces', a: 1, b: 0, points: [[rest, 0]], below: 200, above: 200 },
  { type: 'hold', a: 2, b: 0, senseA: 1, senseB: 0, volts: 14.4, least: 0, greatest: 90 },
  resistor(1, 2, 0.034),
];

const flowsOf = (elements: readonly Element[]): FaultFlows | null => {
  const plan = planCircuit(3, 0, elements);
  return FaultFlows.of(straightNetOf(plan, elements), elements, plan.solve(elements));
};

describe('a fault on straight lines', () => {
  const all = flows();
  for (const [a, b] of [
    [1, 0],
    [2, 0],
    [3, 0],
    [4, 0],
    [5, 0],
    [6, 0],
    [7, 0],
    [2, 5],
    [0, 4],
  ] as const) {
    it.each([1e-5, 1e-3, 0.02, 0.3, 5, 200])(
      `flows from ${a} to ${b} through %d ohm as the circuit says`,
      (ohms) => {
        const found = all.flow(a, b, ohms);
        const elements = [...ELEMENTS, resistor(a, b, ohms)];
        const point = planCircuit(NODES, 0, elements).solve(elements);
        expect(point.settled).toBe(true);
        const fault = point.current(ELEMENTS.length);
        const close = 1e-9 * (1 + Math.abs(fault));
        expect(Math.abs((found?.fault ?? NaN) - fault)).toBeLessThan(close);
        ELEMENTS.forEach((_, e) =>
          expect(Math.abs((found?.current(e) ?? NaN) - point.current(e))).toBeLessThan(close),
        );
      },
    );
  }

  it('says the same whatever was asked before', () => {
    const fresh = flows();
    expect(fresh.flow(4, 0, 0.02)?.fault).toBe(all.flow(4, 0, 0.02)?.fault);
    expect(fresh.flow(4, 0, 0.02)?.pieces).toBe(all.flow(4, 0, 0.02)?.pieces);
  });

  it('with other resistors flows as the circuit of those says, and as if it had been made of them', () => {
    const others = ELEMENTS.map((e, i) => (i === 5 || i === 7 ? { ...e, ohms: 1e-5 } : e)) as Element[];
    const made = FaultFlows.of(straightNetOf(net, ELEMENTS), others, net.solve(others));
    for (const [a, b] of [
      [1, 0],
      [4, 0],
      [5, 0],
      [2, 5],
    ] as const)
      for (const ohms of [1e-5, 0.02, 5]) {
        const found = all.resisting(others).flow(a, b, ohms);
        const fault = planCircuit(NODES, 0, [...others, resistor(a, b, ohms)])
          .solve([...others, resistor(a, b, ohms)])
          .current(ELEMENTS.length);
        expect(Math.abs((found?.fault ?? NaN) - fault)).toBeLessThan(1e-9 * (1 + Math.abs(fault)));
        expect(found?.fault).toBe(made?.flow(a, b, ohms)?.fault);
      }
    expect(all.resisting(others).flow(4, 0, 0.02)?.fault).not.toBe(all.flow(4, 0, 0.02)?.fault);
  });

  it('leaves regulators on different lines', () => {
    expect(all.flow(3, 0, 1e-3)?.pieces).not.toBe(all.flow(3, 0, 200)?.pieces);
  });

  it('leaves to the circuit a regulator at the end of its sense range, without the fault or by it', () => {
    expect(flowsOf(thin(12.8))).toBeNull();
    const full = flowsOf(thin(14.35));
    const faulted = [...thin(14.35), resistor(1, 0, 0.1)];
    expect(planCircuit(3, 0, faulted).solve(faulted).regime(1)).toBe('sense-limit');
    expect(full).not.toBeNull();
    expect(full?.flow(1, 0, 0.1)).toBeNull();
  });

  it('leaves to the circuit what no line describes, and what joins two nets', () => {
    const power: Element = { type: 'power', a: 4, b: 0, watts: 60, knee: 9, limit: 10 };
    const curved = [...ELEMENTS, power];
    const plan = planCircuit(NODES, 0, curved);
    expect(FaultFlows.of(straightNetOf(plan, curved), curved, plan.solve(curved))).toBeNull();
    const apart = [...ELEMENTS, resistor(8, 9, 1)];
    const loose = planCircuit(10, 0, apart);
    expect(FaultFlows.of(straightNetOf(loose, apart), apart, loose.solve(apart))?.flow(8, 0, 1)).toBeNull();
  });
});
