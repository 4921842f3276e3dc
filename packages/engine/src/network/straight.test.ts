import { describe, expect, it } from 'vitest';
import type { ElementOf } from '../contracts/element.ts';
import { planCircuit } from './plan.ts';

type Element = ElementOf<number>;

const source: Element = { type: 'pieces', a: 1, b: 0, points: [[12, 0]], below: 100, above: 100 };
const wire = (a: number, b: number, ohms: number): Element => ({ type: 'resistor', a, b, ohms });
const hold = (greatest: number): Element => ({
  type: 'hold',
  a: 2,
  b: 0,
  senseA: 2,
  senseB: 0,
  volts: 14.4,
  least: 0,
  greatest,
});
const power = (watts: number): Element => ({ type: 'power', a: 3, b: 0, watts, knee: 6, limit: Infinity });
const charger = (on: boolean, standbyAmps: number): Element => ({
  type: 'converter',
  inA: 3,
  inB: 0,
  outA: 2,
  outB: 0,
  senseA: 2,
  senseB: 0,
  on,
  idleOhms: 100_000,
  standbyAmps,
  volts: 14.4,
  current: 20,
  efficiency: [[1, 0.9]],
  ratedCurrent: 20,
  inputLimit: 40,
  lowest: 10,
  lowInput: { type: 'none' },
  demand: null,
});

const solve = (elements: readonly Element[]) => planCircuit(4, 0, elements).solve(elements);

describe('elements that are straight lines', () => {
  it('a source that can give nothing holds nothing', () => {
    const point = solve([source, wire(1, 3, 0.01), wire(2, 3, Infinity), hold(0)]);
    expect(point.island[2]).not.toBe(0);
    expect(point.current(3)).toBe(0);
    expect(point.regime(3)).toBe('least');
  });

  it('a load of no power draws nothing', () => {
    const point = solve([source, wire(1, 3, 0.01), wire(2, 3, Infinity), power(0)]);
    expect(point.current(3)).toBe(0);
    expect(point.volts[3]).toBeCloseTo(12, 12);
    expect(point.regime(3)).toBe('constant-power');
  });

  it('a load that is off draws nothing at any voltage, and stands on the piece of its voltage', () => {
    const off: Element = {
      type: 'pieces',
      a: 3,
      b: 0,
      points: [
        [10.4, 0],
        [10.5, 0],
      ],
      below: 0,
      above: 0,
    };
    const fed = solve([source, wire(1, 3, 0.01), wire(2, 3, Infinity), off]);
    expect(fed.current(3)).toBe(0);
    expect(fed.regime(3)).toBe('2');
    const dead = solve([source, wire(1, 3, Infinity), wire(2, 3, 0.01), off]);
    expect(dead.current(3)).toBe(0);
    expect(dead.regime(3)).toBe('0');
    expect(dead.island[3]).not.toBe(0);
  });

  it('a converter that is off loads its input by its idle resistance and sends nothing', () => {
    const point = solve([source, wire(1, 3, 0.01), wire(2, 3, Infinity), charger(false, 0)]);
    // 12 V behind 0.01 + 0.01 ohm on 100 kOhm
    expect(point.current(3)).toBeCloseTo(12 / 100_000.02, 12);
    expect(point.outCurrent(3)).toBe(0);
    expect(point.regime(3)).toBe('off');
    expect(point.proof.holds).toBe(true);
  });

  it('the same plan takes them switched on and off, in any order', () => {
    const on = [source, wire(1, 3, 0.01), wire(2, 3, Infinity), hold(5), power(60), charger(true, 0.01)];
    const off = [source, wire(1, 3, 0.01), wire(2, 3, Infinity), hold(0), power(0), charger(false, 0)];
    const plan = planCircuit(4, 0, on);
    const first = plan.solve(on).volts.slice();
    const second = plan.solve(off).volts.slice();
    expect([...plan.solve(on).volts]).toEqual([...first]);
    expect([...plan.solve(off).volts]).toEqual([...second]);
    expect([...solve(off).volts]).toEqual([...second]);
  });
});

const load = (amps: number, cutOut: number): Element => ({
  type: 'pieces',
  a: 3,
  b: 0,
  points: [
    [cutOut, 0],
    [cutOut + 0.05, amps],
  ],
  below: 0,
  above: 0,
});

describe('loads taken for known currents', () => {
  it('draw their current where they have their volts, and give the same point as a port', () => {
    const point = solve([source, wire(1, 3, 0.1), wire(2, 3, 1), load(10, 10.5), power(24)]);
    expect(point.current(3)).toBe(10);
    expect(point.regime(3)).toBe('2');
    // I = 10 + 24 / V behind 0.11 ohm from 12 V: V = ((12 - 1.1) + sqrt(10.9^2 - 4 x 0.11 x 24)) / 2
    expect(point.volts[3]).toBeCloseTo((10.9 + Math.sqrt(10.9 ** 2 - 4 * 0.11 * 24)) / 2, 9);
  });

  it('that would not have their volts are solved piece by piece', () => {
    const point = solve([source, wire(1, 3, 0.5), wire(2, 3, 1), load(10, 10.5), power(0)]);
    // 10 A over 0.51 ohm would leave 6.9 V: it stands on its steep piece between 10.5 V and 10.55 V
    expect(point.volts[3]).toBeGreaterThan(10.5);
    expect(point.volts[3]).toBeLessThan(10.55);
    expect(point.regime(3)).toBe('1');
    expect(point.proof.holds).toBe(true);
  });

  it('behind an open contact draw nothing', () => {
    const point = solve([source, wire(1, 3, Infinity), wire(2, 3, 1), load(10, 10.5), power(0)]);
    expect(point.settled).toBe(true);
    expect(point.current(3)).toBe(0);
  });
});
