/**
 * Set points and temperature limits of batteries where the maker is silent; per 12 V block. The cell maker's
 * sheet always wins.
 */
import type { Chemistry } from './rest-voltage.ts';
import type { Figure, Prov, Sourced } from './sourced.ts';
import { noFigure } from './sourced.ts';

const volts = (value: number, prov: Prov, source: string, band?: readonly [number, number]): Sourced => ({
  value,
  unit: 'V',
  prov,
  source,
  range: '12 V block, 25 °C',
  ...(band === undefined ? {} : { band }),
});

const SILENT = 'charger handbook, used when the maker is silent';
const FLOAT = volts(13.6, 'seen', SILENT, [13.2, 13.8]);

const ABSORPTION: Readonly<Record<Chemistry, Sourced | undefined>> = {
  flooded: volts(14.8, 'seen', SILENT, [14.4, 14.8]),
  agm: volts(14.3, 'seen', SILENT, [14.3, 14.7]),
  gel: volts(14.3, 'seen', SILENT, [14.1, 14.4]),
  lifepo4: volts(14.1, 'memory', '3.50 to 3.55 V per cell, usual', [14, 14.2]),
  'sodium-ion': undefined,
};

const FLOATS: Readonly<Record<Chemistry, Sourced | undefined>> = {
  flooded: FLOAT,
  agm: FLOAT,
  gel: FLOAT,
  lifepo4: volts(13.45, 'memory', '3.35 to 3.375 V per cell, float or rest', [13.4, 13.5]),
  'sodium-ion': undefined,
};

/** Usual absorption voltage of a 12 V block at 25 °C, V. The bands of lead are from memory. */
export function absorptionVoltage(chemistry: Chemistry): Figure {
  return ABSORPTION[chemistry] ?? noFigure(`no absorption voltage is published for ${chemistry}`);
}

/** Usual float voltage of a 12 V block at 25 °C, V. */
export function floatVoltage(chemistry: Chemistry): Figure {
  return FLOATS[chemistry] ?? noFigure(`no float voltage is published for ${chemistry}`);
}

/** Highest voltage at which a lithium iron phosphate block of four cells may be charged. */
export const lifepo4HighestVoltage = volts(14.6, 'seen', '3.65 V per cell, four cells');

/** Voltage from which lead gasses. */
export const leadGassingVoltage = volts(14.4, 'seen', 'handbook: 2.4 V per cell');

/** Change of lead set points per kelvin from 25 °C, 12 V block. */
export const leadCompensation: Sourced = {
  value: -0.018,
  unit: 'V/K',
  prov: 'seen',
  band: [-0.03, -0.018],
  source: 'battery handbook: -3 mV/K per cell (to -5 in others, memory)',
};

/** Cell temperatures between which lithium iron phosphate may be charged. */
export const lifepo4LowestCharge: Sourced = {
  value: 0,
  unit: '°C',
  prov: 'seen',
  source: 'general literature: lithium plating below it',
};
export const lifepo4HighestCharge: Sourced = {
  value: 45,
  unit: '°C',
  prov: 'seen',
  band: [45, 60],
  source: 'recommended band 5 to 45 °C; one cell data sheet 0 to 60 °C',
};
export const lifepo4LowestDischarge: Sourced = {
  value: -20,
  unit: '°C',
  prov: 'seen',
  band: [-30, -20],
  source: 'general literature; one cell data sheet -30 °C',
};

const exponent = (value: number, band: readonly [number, number]): Sourced => ({
  value,
  unit: '',
  prov: 'seen',
  band,
  source: 'teaching page on batteries',
});

/** Peukert exponent of a chemistry. */
export function peukertExponent(chemistry: Chemistry): Figure {
  switch (chemistry) {
    case 'flooded':
      return exponent(1.25, [1.2, 1.3]);
    case 'agm':
      return exponent(1.1, [1.05, 1.15]);
    case 'gel':
      return exponent(1.15, [1.1, 1.2]);
    case 'lifepo4':
      return exponent(1.05, [1, 1.1]);
    default:
      return noFigure(`no Peukert exponent is published for ${chemistry}`);
  }
}
