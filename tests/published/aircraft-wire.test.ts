import { describe, expect, it } from 'vitest';
import { parseSize } from '../../packages/engine/src/quantity/index.ts';
import {
  ampacityTable33cfr,
  bundleFactor,
  resistancePerMetre20,
} from '../../packages/engine/src/reference/index.ts';
import { ac43CopperTable } from './tables/ac43-copper.ts';
import { ac43ProtectorTable } from './tables/ac43-protector.ts';

const FOOT_M = 0.3048;
const SIZES = ['22', '20', '18', '16', '14', '12', '10', '8', '6', '4', '2', '1', '1/0', '2/0', '3/0', '4/0'];

function ohmPerFoot(awg: string): number {
  const size = parseSize(`${awg} AWG`);
  if (!size.ok) throw new Error(size.message);
  const figure = resistancePerMetre20(size.size);
  if ('noFigure' in figure) throw new Error(figure.noFigure);
  return figure.value * FOOT_M;
}

const published = (awg: string) =>
  (ac43CopperTable.rows.find((row) => row.awg === awg)?.ohmPerKft ?? 0) / 1000;

/** The thinnest wire whose drop over the run stays within the allowance. */
const thinnest = (ohm: (awg: string) => number, amps: number, feet: number, allowed: number) =>
  SIZES.find((awg) => amps * feet * ohm(awg) <= allowed);

describe('FAA AC 43.13-1B CHG 1, tables 11-7 to 11-9', () => {
  it.each([
    ['ac43-size-1', 107, 1, '6', 0.942],
    ['ac43-size-3', 88, 4, '12', 3.6],
    ['ac43-size-4', 100, 7, '14', 6.12],
  ])('%s: 20 A over %f ft within %f V asks for %s AWG', (_, feet, allowed, awg, drop) => {
    expect(thinnest(published, 20, feet, allowed)).toBe(awg);
    expect(thinnest(ohmPerFoot, 20, feet, allowed)).toBe(awg);
    expect(Math.abs(20 * feet * published(awg) - drop)).toBeLessThan(0.05);
    // Our stranded copper stays below the greatest value of the tinned aircraft wire.
    expect(20 * feet * ohmPerFoot(awg)).toBeLessThan(drop);
  });

  it('chart example 1: 20 A over 50 ft within 1 V asks for 8 AWG', () => {
    expect(thinnest(ohmPerFoot, 20, 50, 1)).toBe('8');
  });

  it.each([
    ['ac43-length-1', 39, 0.98],
    ['ac43-length-3', 156, 3.93],
    ['ac43-length-4', 273, 6.88],
  ])('%s: 10 AWG, 20 A over %f ft drops %f V', (_, feet, drop) => {
    expect(Math.abs(20 * feet * published('10') - drop)).toBeLessThan(0.01);
  });

  it('the second row of table 11-8 is a misprint: 0.00126 x 19.5 x 20 is 0.491 V, not 0.366 V', () => {
    expect(20 * 19.5 * published('10')).toBeCloseTo(0.491, 3);
  });

  it('both columns of the table agree: Ω/kft and Ω/km, circular mils and mm²', () => {
    for (const row of ac43CopperTable.rows) {
      expect(row.ohmPerKft / FOOT_M, row.awg).toBeCloseTo(row.ohmPerKm, 2);
      expect(row.circularMils * (Math.PI / 4) * 0.0254 ** 2, row.awg).toBeCloseTo(row.areaMm2, 2);
    }
  });

  it('the product of resistance and area of every size lies between ideal copper and tinned aircraft wire', () => {
    for (const row of ac43CopperTable.rows) {
      const size = parseSize(`${row.awg} AWG`);
      if (!size.ok) continue;
      const product = ohmPerFoot(row.awg) * (1000 / FOOT_M) * size.size.areaMm2;
      expect(product, row.awg).toBeGreaterThan(17.241);
      expect(product, row.awg).toBeLessThan(row.ohmPerKm * row.areaMm2);
    }
  });

  it('the aircraft bundle (33 wires, 70 °C, high altitude) never allows more than 33 CFR with its bundle factor for 3', () => {
    for (const row of ac43CopperTable.rows) {
      const size = parseSize(`${row.awg} AWG`);
      const base = size.ok ? ampacityTable33cfr(size.size.areaMm2, 105) : { noFigure: '' };
      if ('noFigure' in base) continue;
      expect(row.bundle105, row.awg).toBeLessThanOrEqual(base.value * bundleFactor(3).value);
    }
  });

  it('no aircraft breaker is rated above the 33 CFR current of 105 °C wire of its size', () => {
    for (const row of ac43ProtectorTable.rows) {
      const size = parseSize(`${row.awg} AWG`);
      const base = size.ok ? ampacityTable33cfr(size.size.areaMm2, 105) : { noFigure: '' };
      if ('noFigure' in base) continue;
      expect(row.breakerA ?? row.fuseA, row.awg).toBeLessThanOrEqual(base.value);
    }
  });
});
