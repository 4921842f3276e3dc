/** Copper and other conductor materials. */
import type { Sourced } from './sourced.ts';

/** Resistivity of annealed copper (100 % IACS) at 20 °C. */
export const copperResistivity20: Sourced = {
  value: 1.7241e-8,
  unit: 'Ω·m',
  prov: 'seen',
  band: [1.7e-8, 1.7241e-8],
  source: 'IEC 60028 (IACS); the band is that of commercial annealed copper',
};

/** Change of the resistance of copper per kelvin, related to 20 °C. */
export const copperTemperatureCoefficient: Sourced = {
  value: 0.00393,
  unit: '1/K',
  prov: 'seen',
  source: 'IEC 60028, at 20 °C (the same as 254.5/(234.5 + T) within 0.02 %)',
};

/**
 * Stranded copper of AWG and SAE make against a solid wire of its copper area: 2 % for the lay of the strands.
 */
export const strandingFactor: Sourced = {
  value: 1.02,
  unit: '',
  prov: 'computed',
  source:
    'NEC chapter 9 table 8 at 75 °C, referred to 20 °C, over solid copper of the ASTM B258 area: 1.019 to 1.024',
};

/** Resistance of copper-clad aluminium over copper of the same cross-section. */
export const copperCladFactor: Sourced = {
  value: 1.6,
  unit: '',
  prov: 'memory',
  source: 'copper-clad aluminium, usual figure',
};

/**
 * Resistance at a temperature over that at 20 °C: 1 + 0.00393 (T - 20), T in °C (IEC 60028). Honest from about
 * -50 to 250 °C;
 * never below 0.1, so that no temperature makes a conductor disappear.
 */
export function copperFactor(celsius: number): number {
  return Math.max(1 + copperTemperatureCoefficient.value * (celsius - 20), 0.1);
}
