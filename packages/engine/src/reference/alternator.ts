/** Alternators and the running voltage of vehicles. */
import type { Sourced } from './sourced.ts';

/** Output when hot over output when cold, at idling speed and at road speed. */
export const alternatorHotFactor: { readonly idle: Sourced; readonly speed: Sourced } = {
  idle: {
    value: 0.67,
    unit: '',
    prov: 'computed',
    source: 'engine technical manual, one 50 A machine: 16 A over 24 A at 1300 1/min, rounded',
  },
  speed: {
    value: 0.82,
    unit: '',
    prov: 'computed',
    source: 'engine technical manual, one 50 A machine: 41 A over 50 A at 2500 1/min',
  },
};

/** Regulator set point of a 12 V alternator at 20 °C (double it at 24 V). */
export const alternatorSetPoint: Sourced = {
  value: 14.4,
  unit: 'V',
  prov: 'seen',
  band: [14.1, 14.7],
  source: 'engine technical manual, 14.4 V plus or minus 0.3 V at 20 °C',
};

/** Change of the set point of a 12 V alternator per kelvin. */
export const alternatorGradient: Sourced = {
  value: -0.01,
  unit: 'V/K',
  prov: 'seen',
  source: 'engine technical manual, -0.1 V per 10 K',
};

/** Test voltage behind the currents of an ISO 8854 plate. */
export const alternatorTestVoltage: { readonly volts12: Sourced; readonly volts24: Sourced } = {
  volts12: {
    value: 13.5,
    unit: 'V',
    prov: 'seen',
    source: 'ISO 8854 by an output-curve page; clause from memory',
  },
  volts24: { value: 27, unit: 'V', prov: 'memory', source: 'ISO 8854' },
};

/** Efficiency of a 14 V claw-pole machine. */
export const alternatorEfficiency: Sourced = {
  value: 0.5,
  unit: '',
  prov: 'seen',
  source: 'power-electronics handbook, machines article',
  range: 'full power, high speed; part load reaches 0.65 to 0.75 (memory)',
};

/**
 * Running voltage of a 12 V system with fixed-voltage charging, V; the value is typical (practice), the band
 * service literature.
 */
export const runningVoltageFixed: Sourced = {
  value: 14.2,
  unit: 'V',
  prov: 'practice',
  band: [13.5, 14.8],
  source: 'service literature, charging voltage band when running; the typical value is common practice',
};

/** Running voltage of a 12 V system with controlled (variable) charging, V. */
export const runningVoltageVariable: Sourced = {
  value: 13.8,
  unit: 'V',
  prov: 'practice',
  band: [12.2, 15.2],
  source:
    'service literature on controlled alternators (12.5 to 12.8 V and below in cruise, 15 V and above on overrun)',
};

/** Highest voltage on overrun with energy recovery, 12 V system. */
export const overrunVoltage: Sourced = {
  value: 15,
  unit: 'V',
  prov: 'seen',
  band: [15, 16],
  source: 'service literature, controlled alternator; up to 16 V also stated',
};
