import { describe, expect, it } from 'vitest';
import type { Basis, TimeCurrentBand } from '../contracts/index.ts';
import { clear, type ClearingCase, type ClearingDevice } from './clearing.ts';
import { slowSeconds } from './time-current.ts';

const basis: Basis = {
  path: 'table:breaker-curve/generic-thermal',
  label: 'curve',
  sourced: { value: 0, unit: '', prov: 'seen', source: 'test' },
  how: '',
  effort: 'confirm',
  assumed: true,
};

/** Generic thermal breaker, slow edge: two makers' application articles. */
const thermal: TimeCurrentBand = {
  slow: [
    [1.35, 3600],
    [2, 40],
    [4, 5],
    [6, 1.8],
    [10, 0.4],
  ],
  fast: null,
  hold: 1,
  beyond: 'flat',
  clearing: null,
  basis,
};

const device = (id: string, rating: number, band: TimeCurrentBand | null = thermal): ClearingDevice => ({
  id,
  rating,
  band,
});

/** Devices in series: all carry the wire's current until one is open. */
const series = (amps: number, devices: readonly ClearingDevice[], areaMm2: number): ClearingCase => ({
  devices,
  ampacity: 20,
  k: 115,
  areaMm2,
  solve: (open) => ({ wire: open.length > 0 ? 0 : amps, device: () => (open.length > 0 ? 0 : amps) }),
});

describe('clearing', () => {
  it('2.5 mm² behind a 60 A thermal breaker at 145 A takes 22.6 s, far beyond what it withstands (3.9 s)', () => {
    const result = clear(series(12.6 / 0.0868, [device('breaker', 60)], 2.5));
    expect(result.outcome).toBe('clears');
    expect(result.seconds).toBeCloseTo(22.6, 1);
    expect(result.heat).toBeCloseTo(22.6 / 3.93, 1);
    expect(result.beyondAdiabatic).toBe(true);
  });

  it('25 mm² behind the same breaker at 863 A clears within 0.4 s and takes a small part of its withstand', () => {
    const result = clear(series(863, [device('breaker', 60)], 25));
    expect(result.seconds).toBe(0.4);
    expect(result.heat).toBeCloseTo(0.4 / 11.1, 3);
    expect(result.beyondAdiabatic).toBe(false);
  });

  it('the smaller of two devices in series opens first', () => {
    const result = clear(series(145, [device('a-60', 60), device('b-15', 15)], 2.5));
    expect(result.steps.map((step) => step.opens)).toEqual(['b-15']);
    expect(result.seconds).toBeCloseTo(slowSeconds(thermal, 145 / 15, 15) ?? 0, 9);
    expect(result.heat).toBeLessThan(1);
  });

  it('never clears where no device carries enough', () => {
    const result = clear(series(70, [device('breaker', 60)], 2.5));
    expect(result.outcome).toBe('never');
    expect(result.heat).toBe(Infinity);
    expect(result.greatestAmps).toBe(70);
  });

  it('never clears without any device', () => {
    expect(clear(series(500, [], 25)).outcome).toBe('never');
  });

  it('has no figure where the device that carries it has none', () => {
    const ends: TimeCurrentBand = {
      ...thermal,
      slow: [
        [1.35, 3600],
        [2, 240],
      ],
      beyond: 'no-figure',
    };
    const result = clear(series(500, [device('fuse', 60, ends)], 25));
    expect(result.outcome).toBe('no-figure');
    expect(result.withoutFigure).toEqual(['fuse']);
    expect(clear(series(500, [device('link', 60, null)], 25)).outcome).toBe('no-figure');
  });

  it('needs no time where the wire carries what it may', () => {
    const result = clear(series(20, [device('breaker', 60)], 2.5));
    expect(result).toMatchObject({ outcome: 'clears', seconds: 0, heat: 0, steps: [] });
  });

  it('fed from both ends: each device runs on with what it has gone, the current of the other side is shared anew', () => {
    // 200 A from a, 150 A from b; with a open, b gives 180 A alone.
    const c: ClearingCase = {
      devices: [device('a', 50), device('b', 50)],
      ampacity: 20,
      k: 115,
      areaMm2: 6,
      solve: (open) => {
        const a = open.includes('a') ? 0 : 200;
        const b = open.includes('b') ? 0 : open.includes('a') ? 180 : 150;
        return { wire: a + b, device: (id) => (id === 'a' ? a : b) };
      },
    };
    const first = slowSeconds(thermal, 4, 50) ?? 0;
    const gone = first / (slowSeconds(thermal, 3, 50) ?? 1);
    const second = (1 - gone) * (slowSeconds(thermal, 3.6, 50) ?? 0);
    const result = clear(c);
    expect(result.steps.map((step) => step.opens)).toEqual(['a', 'b']);
    expect(result.seconds).toBeCloseTo(first + second, 9);
    expect(result.letThrough).toBeCloseTo(350 ** 2 * first + 180 ** 2 * second, 4);
  });

  it('stands when what is left after an opening is too little to open the rest', () => {
    const c: ClearingCase = {
      devices: [device('a', 50), device('b', 50)],
      ampacity: 20,
      k: 115,
      areaMm2: 2.5,
      solve: (open) => ({
        wire: open.length > 0 ? 55 : 300,
        device: (id) => (id === 'a' && open.length === 0 ? 245 : 55),
      }),
    };
    const result = clear(c);
    expect(result.outcome).toBe('never');
    expect(result.steps.map((step) => step.opens)).toEqual(['a', null]);
  });

  it('without an ampacity the current has to fall to nothing', () => {
    const c = { ...series(10, [device('breaker', 60)], 2.5), ampacity: null };
    expect(clear(c).outcome).toBe('never');
  });

  it('does not depend on the order in which the devices are listed', () => {
    const one = [device('a', 60), device('b', 60)];
    expect(clear(series(400, one, 6))).toEqual(clear(series(400, one.toReversed(), 6)));
  });
});
