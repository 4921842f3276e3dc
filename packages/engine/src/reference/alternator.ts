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

/** Change of the set point of a 12 V alternator per kelvin. */
export const alternatorGradient: Sourced = {
  value: -0.01,
  unit: 'V/K',
  prov: 'seen',
  source: 'engine technical manual, -0.1 V per 10 K',
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
