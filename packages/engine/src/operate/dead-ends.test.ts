/** Dead ends, against the circuit with the fault in it. */
import { describe, expect, it } from 'vitest';
import type { ElementOf } from '../contracts/index.ts';
import { planCircuit } from '../network/index.ts';
import { deadEndsOf, sortOf } from './dead-ends.ts';

type Element = ElementOf<number>;

const resistor = (a: number, b: number, ohms: number): Element => ({ type: 'resistor', a, b, ohms });

const battery = (a: number, volts: number): Element => ({
  type: 'pieces',
  a,
  b: 0,
  points: [[volts, 0]],
  below: 100,
  above: 100,
});

/** Two batteries side by side; behind an open fuse a bar with two branches; another branch behind a closed fuse. */
const ELEMENTS: readonly Element[] = [
  battery(1, 12.8),
  battery(2, 13.1),
  resistor(1, 2, 5e-3),
  resistor(2, 3, Infinity),
  resistor(3, 4, 0.02),
  resistor(3, 5, 0.03),
  { type: 'pieces', a: 4, b: 6, points: [[0.7, 0]], below: 0, above: 50 },
  resistor(6, 0, 0.02),
  { type: 'power', a: 5, b: 6, watts: 40, knee: 8, limit: 10 },
  resistor(1, 7, 0.01),
  resistor(7, 8, 6),
  resistor(8, 0, 0.02),
];
const NODES = 9;

function dead(elements: readonly Element[]): ReturnType<typeof deadEndsOf> {
  return deadEndsOf(NODES, elements, Uint8Array.from(elements, sortOf));
}

/** Amperes through a fault of 10 mΩ between two nodes, and through an element then. */
function withFault(a: number, b: number, element: number): readonly [number, number] {
  const elements = [...ELEMENTS, resistor(a, b, 0.01)];
  const point = planCircuit(NODES, 0, elements).solve(elements);
  return [Math.abs(point.current(ELEMENTS.length)), Math.abs(point.current(element))];
}

describe('dead ends', () => {
  const ends = dead(ELEMENTS);

  it('a fault is dead exactly where the circuit with it has no current in it, nor in the element', () => {
    const found = { dead: 0, alive: 0 };
    for (let a = 0; a < NODES; a += 1)
      for (let b = 0; b < a; b += 1)
        for (const element of [2, 4, 5, 7, 9, 11]) {
          const [fault, there] = withFault(a, b, element);
          const isDead = ends?.isDead(a, b, element);
          expect([a, b, element, isDead]).toEqual([a, b, element, fault < 1e-9 && there < 1e-9]);
          found[isDead === true ? 'dead' : 'alive'] += 1;
        }
    expect(found.dead).toBeGreaterThan(20);
    expect(found.alive).toBeGreaterThan(100);
  });

  it('what carries nothing without a fault is idle: not the loop of the batteries, nor what is fed', () => {
    const idle = ELEMENTS.flatMap((_, i) => (ends?.isIdle(i) === true ? [i] : []));
    expect(idle).toEqual([3, 4, 5, 6, 7, 8]);
  });

  it('a battery alone at the end of a fault drives it, though nothing flows before', () => {
    const alone = [battery(1, 12.8), resistor(1, 2, 0.01)];
    expect(dead(alone)?.isDead(2, 0, 1)).toBe(false);
    expect(dead(alone)?.isDead(2, 3, 1)).toBe(true);
  });

  it('where a converter gives, nothing is told', () => {
    const gives: Element = {
      type: 'converter',
      inA: 1,
      inB: 0,
      outA: 2,
      outB: 0,
      senseA: 2,
      senseB: 0,
      on: true,
      idleOhms: 1e4,
      standbyAmps: 0,
      volts: 14,
      current: 10,
      efficiency: [[1, 0.9]],
      ratedCurrent: 10,
      inputLimit: 20,
      lowest: 9,
      lowInput: { type: 'none' },
      demand: null,
    };
    expect(dead([gives])).toBeNull();
    expect(dead([{ ...gives, on: false }])?.isDead(1, 0, 0)).toBe(true);
  });

  it('of a chain of any length are told: its far end hangs on nothing but the chain', () => {
    const long = 60_000;
    const chain = [
      battery(1, 12.8),
      resistor(1, 0, 10),
      ...Array.from({ length: long - 2 }, (_, i) => resistor(i + 1, i + 2, 0.001)),
    ];
    const told = deadEndsOf(long, chain, Uint8Array.from(chain, sortOf));
    expect(told?.isDead(long - 1, 2, 5)).toBe(true);
    expect(told?.isDead(long - 1, 0, 5)).toBe(false);
  });
});
