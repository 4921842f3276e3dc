import { describe, expect, it } from 'vitest';
import type { StateFacts } from '../contracts/index.ts';
import { ampsAt } from './testing/solving.ts';
import {
  QUIET,
  WEAK,
  basis,
  partOf,
  state,
  surroundings,
  type Around,
  type Asked,
} from './testing/surroundings.ts';

const elements = (of: Asked, around: Around = {}) =>
  of.kind.elements(surroundings(of, { wires: [], ...around }));
const limit = (of: Asked, at: StateFacts, corner = QUIET) =>
  of.kind.abilities(of.read).generates?.limit(at, corner)?.sourced.value ?? null;

describe('alternator', () => {
  const plate = partOf('{ kind: alternator, plate: 70/150 A 13.5 V }');

  it('gives what its plate says, x0.67 and x0.82 where it is hottest (engine technical manual, one machine)', () => {
    expect(limit(plate, state('idling'))).toBe(70);
    expect(limit(plate, state('driving'))).toBe(150);
    expect(limit(plate, state('idling'), WEAK)).toBeCloseTo(46.9, 9);
    expect(limit(plate, state('driving'), WEAK)).toBeCloseTo(123, 9);
  });

  it('gives first what was surveyed, then what is stated of it', () => {
    expect(limit(plate, state('idling', { output: basis(95) }), WEAK)).toBe(95);
    const stated = partOf('{ kind: alternator, plate: 70/150 A 13.5 V, idle-output: 55 A }');
    expect(limit(stated, state('idling'), WEAK)).toBe(55);
    expect(limit(stated, state('driving'), WEAK)).toBeCloseTo(123, 9);
  });

  it('without a plate: 120 A (90 to 150), 40 % of it at idle, 80 % at speed; half the current at 24 V', () => {
    const none = partOf('{ kind: alternator }');
    expect(limit(none, state('idling'))).toBeCloseTo(48, 9);
    expect(limit(none, state('driving'))).toBeCloseTo(96, 9);
    const slack = partOf('{ kind: alternator }', { push: 'slack' });
    expect(limit(slack, state('idling'))).toBeCloseTo(90 * 0.3, 9);
    const truck = partOf('{ kind: alternator }', { systems: '{ vehicle: 24 V, house: 12 V }' });
    expect(limit(truck, state('driving'))).toBeCloseTo(48, 9);
    const output = partOf('{ kind: alternator, output: 180 A }');
    expect(limit(output, state('idling'))).toBeCloseTo(72, 9);
  });

  it('holds the posts up to that, never absorbs, and gives nothing when the supply is off', () => {
    const [runs] = elements(plate, { state: state('driving'), setPoint: basis(14.2) });
    expect(runs).toMatchObject({
      type: 'hold',
      a: '^posts+',
      b: '^posts-',
      senseA: '^posts+',
      volts: 14.2,
      least: 0,
      greatest: 150,
    });
    for (const id of ['parked', 'cranking', 'automatic-stop', 'ready'] as const) {
      expect(elements(plate, { state: state(id) })[0]).toMatchObject({ least: 0, greatest: 0 });
    }
    expect(elements(plate, { mode: 'fault-least' })[0]).toMatchObject({ greatest: 0 });
  });

  it('senses at its own terminals when it says so, wired or not', () => {
    const own = partOf('{ kind: alternator, sense: own }');
    expect(elements(own, { wires: ['+', '-'] })[0]).toMatchObject({ a: '+', senseA: '+', senseB: '-' });
    expect(elements(plate, { wires: ['+', '-'] })[0]).toMatchObject({ a: '+', senseA: '^posts+' });
  });

  it('a stated set point: at 80 °C less 0.3 V, at the coldest and 0.3 V more (14.4 V, -10 mV/K)', () => {
    const of = partOf('{ kind: alternator, set-point: 14.4 V }');
    const envelope = (nominal: number, from = of) =>
      from.kind
        .abilities(from.read)
        .generates?.setPoint?.(state('driving'), { nominal, hottestAir: 40, coldestAir: -10 });
    const found = envelope(12);
    expect(found?.least.sourced.value).toBeCloseTo(13.5, 9);
    expect(found?.typical.sourced.value).toBeCloseTo(14.4, 9);
    expect(found?.greatest.sourced.value).toBeCloseTo(15, 9);
    const truck = partOf('{ kind: alternator, set-point: 28.8 V }', {
      systems: '{ vehicle: 24 V, house: 24 V }',
    });
    expect(envelope(24, truck)?.least.sourced.value).toBeCloseTo(27, 9);
    expect(envelope(24, truck)?.greatest.sourced.value).toBeCloseTo(30, 9);
    expect(envelope(12, plate)).toBeNull();
    expect(
      of.kind
        .abilities(of.read)
        .generates?.setPoint?.(state('parked'), { nominal: 12, hottestAir: 40, coldestAir: -10 }),
    ).toBeNull();
  });

  it('is part of every vehicle that has a battery and is not fed by a converter', () => {
    const facts = { engine: true, hasVehicleBattery: true };
    expect(plate.kind.implied?.({ ...facts, supply: 'alternator' })).toBe(true);
    expect(plate.kind.implied?.({ ...facts, supply: 'unknown' })).toBe(true);
    expect(plate.kind.implied?.({ ...facts, supply: 'converter' })).toBe(false);
    expect(plate.kind.implied?.({ ...facts, supply: 'alternator', hasVehicleBattery: false })).toBe(false);
  });
});

describe('vehicle converter', () => {
  it('feeds where the converter does, up to its limit; without one it is stiff and has no limit to judge by', () => {
    const of = partOf('{ kind: vehicle-converter, limit: 120 A, added-limit: 20 A, above: folds-back }');
    expect(limit(of, state('ready'))).toBe(120);
    expect(limit(of, state('driving'))).toBeNull();
    expect(elements(of, { state: state('ready') })[0]).toMatchObject({ greatest: 120 });
    expect(elements(of, { state: state('parked') })[0]).toMatchObject({ greatest: 0 });
    const { generates } = of.kind.abilities(of.read);
    expect(generates).toMatchObject({ above: 'folds-back', role: 'vehicle-supply' });
    expect(generates?.addedLimit?.sourced.value).toBe(20);
    const none = partOf('{ kind: vehicle-converter }');
    expect(limit(none, state('ready'))).toBeNull();
    expect(elements(none, { state: state('ready') })[0]).toMatchObject({ greatest: 1000 });
  });
});

const ownAmps = (of: Asked, around: Around): number => ampsAt(elements(of, around)[0], 12.5);

describe("the vehicle's own load", () => {
  it("is the survey's, else the part's, else the default of the state", () => {
    const of = partOf('{ kind: base-load, current: { idling: 22 A } }');
    expect(ownAmps(of, { state: state('idling', { surveyedLoad: basis(28), ownLoad: basis(28) }) })).toBe(28);
    expect(ownAmps(of, { state: state('idling', { ownLoad: basis(30) }) })).toBe(22);
    expect(ownAmps(of, { state: state('driving', { ownLoad: basis(30) }) })).toBe(30);
    const one = partOf('{ kind: base-load, current: 15..25 A }', { push: 'slack' });
    expect(ownAmps(one, { state: state('driving') })).toBe(25);
    expect(ownAmps(one, { state: state('driving'), mode: 'fault-least' })).toBe(0);
  });
});

describe('starter', () => {
  it('draws 250 A and its solenoid 20 A, while cranking only', () => {
    const of = partOf('{ kind: starter }');
    const total = (id: 'cranking' | 'driving'): number =>
      elements(of, { state: state(id) }).reduce((sum, e) => sum + ampsAt(e, 9), 0);
    expect(total('cranking')).toBe(270);
    expect(total('driving')).toBe(0);
    expect(of.kind.implied?.({ supply: 'converter', engine: false, hasVehicleBattery: true })).toBe(false);
  });
});
