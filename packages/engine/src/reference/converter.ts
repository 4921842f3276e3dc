/** Efficiencies and output voltage of converters for sizing. */
import type { Sourced } from './sourced.ts';

/** Efficiency of a dc charger. */
export const chargerEfficiency: Sourced = {
  value: 0.88,
  unit: '',
  prov: 'seen',
  band: [0.85, 0.9],
  source: 'fixed-power dc chargers, statement of one vendor: 0.85 to 0.90',
};

/**
 * Highest output voltage of a charger into a 12 V block, for sizing its input (double at 24 V, fourfold at 48
 * V).
 */
export const chargerHighestVoltage: Sourced = {
  value: 14.4,
  unit: 'V',
  prov: 'seen',
  band: [14.2, 14.6],
  source: 'absorption of a four-stage charger; upper end: lithium iron phosphate at 3.65 V per cell',
};
