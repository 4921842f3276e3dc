import { describe, expect, it } from 'vitest';
import { ampsAt } from './testing/solving.ts';
import { QUIET, WEAK, partOf, state, surroundings, type Around, type Asked } from './testing/surroundings.ts';

const elements = (of: Asked, around: Around = {}) => of.kind.elements(surroundings(of, around));
const load = (fields: string, systems?: string): Asked =>
  partOf(`{ kind: load, ${fields} }`, systems === undefined ? {} : { systems });
const consumes = (of: Asked) => of.kind.abilities(of.read).consumes;
const amps = (of: Asked, around: Around = {}, volts = 12): number => ampsAt(elements(of, around)[0], volts);

const ampsOn = (on: string, around: Around): number => amps(load(`current: 4 A, on: ${on}`), around);

describe('a load', () => {
  it('of constant current, constant power or a resistance', () => {
    expect(amps(load('current: 4 A'))).toBe(4);
    expect(amps(load('current: 4 A'), {}, 0.5)).toBe(2);
    expect(elements(load('power: 60 W'))[0]).toMatchObject({ type: 'power', watts: 60, knee: 6 });
    expect(elements(load('power: 60 W', '{ vehicle: 12 V, house: 24 V }'))[0]).toMatchObject({ knee: 12 });
    expect(elements(load('resistance: 3 Ω'))[0]).toMatchObject({ type: 'resistor', ohms: 3 });
    expect(amps(load('class: other'))).toBe(0);
  });

  it('is off below its cut-out', () => {
    const of = load('current: 4 A, cut-out: 10.4 V');
    expect([amps(of, {}, 10.4), amps(of, {}, 10.3), amps(of, {}, 14)]).toEqual([4, 0, 4]);
    const heater = load('resistance: 2 Ω, cut-out: 10 V');
    expect(amps(heater, {}, 12)).toBeCloseTo(6, 9);
    expect(amps(heater, {}, 9.9)).toBe(0);
    expect(elements(load('power: 60 W, cut-out: 10.4 V'))[0]).toMatchObject({ knee: 10.4 });
  });

  it('always on, by people, or in listed states: quiet leaves only the first, busy all that may be on', () => {
    expect(ampsOn('always', { corner: QUIET })).toBe(4);
    expect(ampsOn('schedule', { corner: QUIET })).toBe(0);
    expect(ampsOn('schedule', { corner: WEAK })).toBe(4);
    expect(ampsOn('[driving]', { corner: WEAK, state: state('driving') })).toBe(4);
    expect(ampsOn('[driving]', { corner: WEAK, state: state('parked') })).toBe(0);
    expect(ampsOn('[driving]', { corner: QUIET, state: state('driving') })).toBe(0);
    expect(ampsOn('always', { mode: 'fault-least' })).toBe(0);
  });

  it('returns by wire, or through the body by its joint and the spread', () => {
    const body = '  body: { kind: body-section, medium: steel }';
    const of = partOf('{ kind: load, current: 4 A, return: chassis, section: body }', { parts: body });
    expect(of.kind.terminals(of.read)).toEqual({ type: 'named', names: ['+'] });
    const sections = { body: partOf('{ kind: body-section, medium: steel }').read };
    const found = elements(of, { sections });
    expect(found).toMatchObject([
      { a: '+', b: '.return' },
      { a: '.return', b: '.lug', ohms: 0.0003 },
      { a: '.lug', b: '^section:body', ohms: 0.0005 },
    ]);
    expect(consumes(of)).toMatchObject({ minus: null, section: 'body' });
    expect(consumes(load('current: 4 A'))).toMatchObject({ minus: '-', section: null });
  });

  it('tells its inrush, its current at nominal volts and its class', () => {
    expect(consumes(load('current: 4 A, inrush: lamp'))).toMatchObject({
      inrush: 10,
      inrushSeconds: 0.1,
      character: 'lamp',
    });
    expect(consumes(load('current: 4 A, inrush: motor'))).toMatchObject({
      inrush: 6,
      inrushSeconds: 0.5,
      character: 'inductive',
    });
    expect(consumes(load('current: 4 A, inrush: x3'))).toMatchObject({ inrush: 3, character: 'resistive' });
    expect(consumes(load('current: 4 A'))).toMatchObject({ inrush: 1, class: 'other', ofVehicle: false });
    expect(consumes(load('power: 60 W'))?.amps?.sourced.value).toBeCloseTo(5, 9);
    expect(consumes(load('resistance: 3 Ω, class: critical'))?.amps?.sourced.value).toBeCloseTo(4, 9);
    expect(consumes(load('class: critical'))?.amps).toBeNull();
  });

  it('draws its standing current beside', () => {
    const of = load('power: 60 W, on: schedule, standby: 30 mA');
    expect(ampsAt(elements(of)[1], 12)).toBeCloseTo(0.03, 12);
  });
});
