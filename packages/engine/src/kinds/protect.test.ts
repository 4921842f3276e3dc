import { describe, expect, it } from 'vitest';
import { fastSeconds, slowSeconds } from '../devices/time-current.ts';
import { partOf, surroundings, type Around, type Asked } from './testing/surroundings.ts';

const elements = (of: Asked, around: Around = {}) => of.kind.elements(surroundings(of, around));
const protects = (of: Asked) => {
  const found = of.kind.abilities(of.read).protects;
  if (found === undefined) throw new Error('it protects nothing');
  return found;
};
const curve = (of: Asked) => {
  const found = protects(of).curve;
  if (found === null) throw new Error('no curve');
  return found;
};
const fuse = (fields: string): Asked => partOf(`{ kind: fuse, ${fields} }`);
const ohms = (of: Asked, around: Around = {}): number => {
  const [e] = elements(of, around);
  return e?.type === 'resistor' ? e.ohms : NaN;
};

const ratingOf = (text: string) => fuse(text).kind.abilities(fuse(text).read).dcRating;

const factorAt = (text: string, air: number, push?: 'slack' | 'stiff') =>
  protects(partOf(`{ kind: fuse, ${text} }`, push === undefined ? {} : { push })).factor(air).sourced;

const interrupting = (text: string) => protects(fuse(text)).interrupts?.sourced;

describe('fuse', () => {
  it('blade F: 200 % opens in 0.15 to 5 s, 600 % in 0.03 to 0.1 s, holds 110 % (ISO 8820-3, transcribed sheet)', () => {
    const of = fuse('family: blade-f, rating: 10 A');
    expect(slowSeconds(curve(of), 2, 10)).toBe(5);
    expect(fastSeconds(curve(of), 2)).toBe(0.15);
    expect(slowSeconds(curve(of), 6, 10)).toBe(0.1);
    expect(fastSeconds(curve(of), 1.1)).toBe(Infinity);
    expect(slowSeconds(curve(of), 1.3, 10)).toBe(Infinity);
    // The 160 % row, from memory, is left out between rows that were read.
    expect(curve(of).basis.sourced.prov).toBe('seen');
    expect(curve(of).slow.map(([multiple]) => multiple)).toEqual([1.35, 2, 3.5, 6]);
    expect(curve(of).basis.path).toBe('table:fuse-curve/blade-f');
  });

  it('strip fuses are from memory throughout', () => {
    expect(curve(fuse('family: strip-30, rating: 60 A')).basis.sourced.prov).toBe('memory');
  });

  it('`strip` means strip-30', () => {
    expect(protects(fuse('family: strip, rating: 60 A')).family).toBe('strip-30');
    expect(curve(fuse('family: strip, rating: 60 A'))).toEqual({
      ...curve(fuse('family: strip-30, rating: 60 A')),
    });
  });

  it('class T ends at 200 %: no figure above, unless its clearing I²t is given, which then counts as given', () => {
    const plain = fuse('family: class-t, rating: 60 A');
    expect(slowSeconds(curve(plain), 2, 60)).toBe(240);
    expect(slowSeconds(curve(plain), 3, 60)).toBeNull();
    const given = fuse('family: class-t, rating: 60 A, clearing: 12000 A²s');
    expect(slowSeconds(curve(given), 10, 60)).toBeCloseTo(12000 / 600 ** 2, 9);
    expect(curve(given).basis.sourced.prov).toBe('given');
    expect(curve(given).basis.assumed).toBe(false);
  });

  it('a curve in the build wins: never..14400 s is a hold, 1..15 s both edges', () => {
    const of = fuse(
      'family: bolt-down, rating: 80 A, curve: [{ at: 110 %, opens: never..14400 s }, { at: 200 %, opens: 1..15 s }, { at: 350 %, opens: 0.3..5 s }, { at: 600 %, opens: 0.1..1 s }]',
    );
    const band = curve(of);
    expect(band.hold).toBeCloseTo(1.1, 12);
    expect(slowSeconds(band, 1.1, 80)).toBe(14_400);
    expect(slowSeconds(band, 2, 80)).toBe(15);
    expect(slowSeconds(band, 20, 80)).toBe(1);
    expect(fastSeconds(band, 2)).toBe(1);
    expect(fastSeconds(band, 1.1)).toBe(Infinity);
    expect(band.basis).toMatchObject({ path: 'parts.x.curve', assumed: false });
  });

  it('a curve whose slow edge ends in never only says what is held', () => {
    const band = curve(
      fuse(
        'family: cube, rating: 100 A, curve: [{ at: 110 %, opens: 3600 s..never }, { at: 300 %, opens: 5 s }]',
      ),
    );
    expect(band.slow).toEqual([[3, 5]]);
    expect(slowSeconds(band, 1.1, 100)).toBe(Infinity);
    expect(fastSeconds(band, 1.1)).toBe(3600);
    expect(fastSeconds(band, 3)).toBe(5);
  });

  it('bolt-down and cube fuses have no published times; without rating or family there are none', () => {
    for (const text of [
      'family: bolt-down, rating: 80 A',
      'family: cube, rating: 80 A',
      'rating: 80 A',
      'family: blade-f',
    ])
      expect(protects(fuse(text)).curve).toBeNull();
  });

  it('interrupts what is given, else what its family does (ISO 8820 scopes seen; class T, bolt-down memory)', () => {
    expect(interrupting('family: blade-f, rating: 10 A')).toMatchObject({ value: 1000, prov: 'seen' });
    expect(interrupting('family: strip-30, rating: 60 A')).toMatchObject({ value: 2000, prov: 'seen' });
    expect(interrupting('family: class-t, rating: 60 A')).toMatchObject({ value: 20_000, prov: 'memory' });
    expect(interrupting('family: bolt-down, rating: 80 A')).toMatchObject({ value: 6000, prov: 'memory' });
    expect(interrupting('family: class-t, rating: 60 A, interrupts: 20 kA')).toMatchObject({
      value: 20_000,
      prov: 'given',
    });
    expect(interrupting('family: cartridge, rating: 10 A')).toBeUndefined();
    // 32 V blades break nothing in a build that has a net of 48 V, unless the fuse says so.
    const systems = '{ vehicle: 12 V, house: 48 V }';
    expect(
      protects(partOf('{ kind: fuse, family: blade-f, rating: 10 A }', { systems })).interrupts,
    ).toBeNull();
    const winch = '{ vehicle: 12 V, house: 12 V, winch: 48 V }';
    expect(
      protects(partOf('{ kind: fuse, family: blade-f, rating: 10 A }', { systems: winch })).interrupts,
    ).toBeNull();
  });

  it('carries 0.8 of its rating in heat (0.75 to 0.85, practice); blade E by its table; what it states itself first', () => {
    expect(factorAt('family: bolt-down, rating: 80 A', 80)).toMatchObject({ value: 0.8, prov: 'practice' });
    expect(factorAt('family: bolt-down, rating: 80 A', 80, 'slack').value).toBe(0.75);
    expect(factorAt('family: blade-e, rating: 40 A', 65)).toMatchObject({ prov: 'seen' });
    expect(factorAt('family: blade-e, rating: 40 A', 65).value).toBeCloseTo(0.85, 9);
    expect(factorAt('family: bolt-down, rating: 80 A, heat-factor: 0.9', 80)).toMatchObject({
      value: 0.9,
      prov: 'given',
    });
    const table = 'family: bolt-down, rating: 80 A, heat-factor: [[40 °C, 1.0], [60 °C, 0.85]]';
    expect(factorAt(table, 50).value).toBeCloseTo(0.925, 9);
    expect(factorAt(table, 20).value).toBe(1);
    expect(factorAt(table, 80).value).toBe(0.85);
  });

  it('loses 100 mV at its rating (75 to 150), and has no conductance when pulled', () => {
    expect(ohms(fuse('family: blade-f, rating: 10 A'))).toBeCloseTo(0.01, 12);
    expect(ohms(partOf('{ kind: fuse, rating: 10 A }', { push: 'slack' }))).toBeCloseTo(0.015, 12);
    expect(ohms(fuse('rating: 10 A, cold-resistance: 7 mΩ'))).toBeCloseTo(0.007, 12);
    expect(ohms(fuse('rating: 10 A, cold-resistance: 75..96 mV/rating'))).toBeCloseTo(0.00855, 12);
    expect(ohms(fuse('rating: 10 A'), { opened: true, closed: false })).toBe(Infinity);
  });

  it('has its own voltage rating, else that of its family', () => {
    expect(ratingOf('family: blade-f, rating: 10 A')?.family?.sourced).toMatchObject({
      value: 32,
      prov: 'seen',
    });
    expect(ratingOf('family: blade-f, rating: 10 A, dc-rating: 58 V')?.stated?.sourced.value).toBe(58);
  });
});

const seeing = (amps: number) => ({ volts: () => 0, amps: () => amps });

const breaker = (fields: string): Asked => partOf(`{ kind: breaker, ${fields} }`);

describe('breaker', () => {
  it('generic thermal: 200 % in 4 to 40 s, 600 % in 0.3 to 1.8 s, no fast edge at 135 % (two application articles)', () => {
    const band = curve(breaker('rating: 50 A'));
    expect(slowSeconds(band, 1.35, 50)).toBe(3600);
    expect(slowSeconds(band, 2, 50)).toBe(40);
    expect(fastSeconds(band, 2)).toBe(4);
    expect(slowSeconds(band, 6, 50)).toBe(1.8);
    expect(band.hold).toBe(1);
  });

  it('carries 0.8 of its rating (0.7 to 0.9); the panel table only where it asks for it', () => {
    expect(protects(breaker('rating: 50 A')).factor(70).sourced.value).toBe(0.8);
    expect(protects(breaker('rating: 50 A, heat-factor: panel-table')).factor(70).sourced.value).toBeCloseTo(
      0.69,
      9,
    );
    expect(
      protects(breaker('rating: 50 A, heat-factor: panel-table')).factor(57.5).sourced.value,
    ).toBeCloseTo(0.885, 9);
    const slack = partOf('{ kind: breaker, rating: 50 A }', { push: 'slack' });
    expect(protects(slack).factor(70).sourced.value).toBe(0.7);
  });

  it('has no published interrupting rating: it must be read on it', () => {
    expect(protects(breaker('rating: 50 A')).interrupts).toBeNull();
  });

  it('of manual reset remembers nothing; of automatic reset it opens by its slow edge and closes again', () => {
    const manual = breaker('rating: 50 A');
    expect(manual.kind.memory?.(surroundings(manual))).toBeNull();
    const automatic = breaker('rating: 20 A, reset: automatic');
    const memory = automatic.kind.memory?.(surroundings(automatic));
    const firing = (amps: number) =>
      memory?.rules.filter((rule) => rule.from === 0 && rule.when(seeing(amps))).map((rule) => rule.delayMs);
    expect(firing(26)).toEqual([]);
    expect(firing(-30)).toEqual([3_600_000]);
    expect(firing(50)).toEqual([3_600_000, 40_000]);
    expect(firing(250)).toEqual([3_600_000, 40_000, 5000, 1800, 400]);
    expect(memory?.rules.filter((rule) => rule.from === 1).map((rule) => rule.delayMs)).toEqual([30_000]);
    expect(ohms(automatic, { memory: 0 })).toBeCloseTo(0.005, 12);
    expect(ohms(automatic, { memory: 1 })).toBe(Infinity);
    expect(ohms(automatic, { memory: 1, mode: 'fault-greatest' })).toBeCloseTo(0.005, 12);
  });
});
