/** A circuit breaker, reset by hand or by itself. */
import type {
  Basis,
  FieldTable,
  Kind,
  Memory,
  MemoryRule,
  TimeCurrentBand,
  ValueReader,
} from '../contracts/index.ts';
import {
  breakerCurve,
  breakerDropAtRating,
  breakerHeatFactor,
  panelBreakerHeatFactor,
} from '../reference/index.ts';
import { contact, isClosed } from './circuit.ts';
import { statedRating } from './common.ts';
import { deviceResistanceShape } from './phrases.ts';
import {
  curveField,
  defaultFactor,
  deviceResistance,
  givenCurve,
  heatFactorField,
  inConductor,
  publishedCurve,
  publishedFactor,
  statedFactor,
} from './protect.ts';
import { anyOf, choice, choiceShape, field, flag, quantity } from './shapes.ts';
import { breakerGlyph } from './symbols.ts';

/** An automatic breaker closes again after this, ms (memory: a bimetal that cools in half a minute). */
const RECLOSES_AFTER_MS = 30_000;

const fields: FieldTable = {
  rating: quantity('current', 'Rated current, A.', { wanted: true }),
  reset: choice(['manual', 'automatic'], 'Whether a hand resets it, or it closes again by itself.', {
    fallback: () => 'manual',
  }),
  'trip-free': flag('Whether it opens although its lever is held.', true),
  interrupts: quantity('current', 'Greatest current that it can interrupt at this voltage (dc), A.', {
    label: 'interrupting rating',
    wanted: true,
  }),
  curve: field(
    anyOf('generic-thermal, or a list of opening times', choiceShape('generic-thermal'), curveField.shape),
    'Its opening times; those of a generic thermal breaker when not given.',
  ),
  'heat-factor': heatFactorField(
    'Share of its rating that it carries continuously in heat: a factor, a table by temperature, or `panel-table`.',
    'panel-table',
  ),
  resistance: field(
    deviceResistanceShape,
    'Its resistance, Ω, or the voltage lost at its rating: 0.1 V/rating when not given.',
    { slack: 'up' },
  ),
  'trip-button': flag('Whether it can be opened by hand.', false),
  polarised: flag('Whether it interrupts in one direction only.', false),
};

const curveOf = (read: ValueReader): TimeCurrentBand | null =>
  givenCurve(read, null) ??
  publishedCurve(
    read,
    'breaker-curve/generic-thermal',
    'usual thermal breakers',
    breakerCurve('generic-thermal'),
    null,
  );

function factorOf(read: ValueReader, airC: number): Basis {
  const stated = statedFactor(read, airC);
  if (stated !== null) return stated;
  if (read.raw('heat-factor') === 'panel-table') {
    return publishedFactor(
      read,
      'heat/panel-breaker',
      'panel breakers',
      panelBreakerHeatFactor(airC),
      breakerHeatFactor,
    );
  }
  return defaultFactor(read, breakerHeatFactor);
}

const resetOf = (read: ValueReader): 'manual' | 'automatic' =>
  read.choice('reset') === 'automatic' ? 'automatic' : 'manual';

const CLOSED = 0;
const OPEN = 1;

/** Opens at each listed point of the slow edge once that current has flowed for the listed time; closes after the pause. */
function remembers(read: ValueReader): Memory | null {
  const rating = read.quantity('rating')?.sourced.value;
  if (resetOf(read) !== 'automatic' || rating === undefined) return null;
  const found = curveOf(read);
  const opens = (found?.slow ?? []).map(([multiple, seconds]): MemoryRule => ({
    from: CLOSED,
    to: OPEN,
    delayMs: Math.max(100, Math.round(seconds * 1000)),
    says: `more than ${multiple} times its rating`,
    when: (see) => Math.abs(see.amps(0)) > multiple * rating,
  }));
  return {
    values: ['closed', 'open'],
    start: CLOSED,
    on: [CLOSED],
    rules: [
      ...opens,
      { from: OPEN, to: CLOSED, delayMs: RECLOSES_AFTER_MS, says: 'cooled', when: () => true },
    ],
  };
}

export const breaker: Kind = {
  name: 'breaker',
  title: 'circuit breaker',
  fields,
  ...inConductor(breakerGlyph),
  abilities: (read) => ({
    protects: {
      from: 'line',
      to: 'load',
      type: 'breaker',
      rating: read.quantity('rating'),
      interrupts: read.quantity('interrupts'),
      curve: curveOf(read),
      reset: resetOf(read),
      factor: (airC) => factorOf(read, airC),
      family: 'thermal breaker',
      polarised: read.flag('polarised') === true,
    },
    sparks: true,
    dcRating: statedRating(read),
  }),
  elements: (at) => {
    const tripped = at.mode === 'service' && resetOf(at.read) === 'automatic' && at.memory === OPEN;
    const { value } = deviceResistance(at.read, 'resistance', breakerDropAtRating).sourced;
    return [contact('line', 'load', isClosed(at) && !tripped, value)];
  },
  memory: (at) => remembers(at.read),
  example: `loomwright: 1
title: A pump behind a breaker
practice: europe
systems: { house: 12 V }
places:
  locker: { label: Rear locker, hottest: 45 °C }
parts:
  house-battery: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  pump-breaker: { kind: breaker, at: locker, rating: 15 A, reset: manual, interrupts: 5 kA }
  pump: { kind: load, at: locker, power: 60 W, inrush: motor, on: schedule, sparks: yes }
wires:
  feed: { from: house-battery.+, to: pump-breaker.line, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }
  pump-feed: { from: pump-breaker.load, to: pump.+, size: 2.5 mm2, insulation: pvc-105, length: 2 m }
  pump-return: { from: pump.-, to: house-battery.-, size: 2.5 mm2, insulation: pvc-105, length: 2 m }
`,
};
