/** Heat in conductors: steady temperature, resistance at temperature, ambient factor, adiabatic withstand. */
import { copperFactor } from '../reference/index.ts';
import { nineDigits } from './round.ts';

/** Above this load the square law of the temperature rise is an extrapolation. */
export const MODEL_LOAD_LIMIT = 1.5;

/** Seconds up to which a short circuit may be called adiabatic (IEC 60364-5-54, IEC 60949). */
export const ADIABATIC_SECONDS = 5;

/** Resistance of copper at `celsius`, from that at 20 °C (same unit): R20 (1 + 0.00393 (T - 20)), IEC 60028. */
export function atTemperature(at20: number, celsius: number): number {
  return at20 * copperFactor(celsius);
}

export interface SteadyTemperature {
  readonly celsius: number;
  /** Load as a share of the ampacity. */
  readonly load: number;
  /** Load above 1.5: the number is an extrapolation and is printed as such. */
  readonly beyondModel: boolean;
}

/**
 * Steady temperature of a conductor, °C: Ta + (Tins - Ta) (I / Iz)².
 *
 * `air` Ta °C; `rating` Tins, the insulation's rated temperature °C; `amps` I (its sign does not matter); `ampacity` Iz, the
 * current that brings the conductor to Tins in that air with all factors applied, A. Source: balance of I²R and a loss in
 * proportion to the rise, the rule behind the correction factors of IEC 60364-5-52 and the NEC tables; resistance taken at
 * Tins, so up to Tins it is on the hot side. Range 0.2 <= I/Iz <= 1.5.
 * Without an ampacity (null, 0) no rise is known: null.
 */
export function steadyTemperature(
  air: number,
  rating: number,
  amps: number,
  ampacity: number | null,
): SteadyTemperature | null {
  if (ampacity === null || !(ampacity > 0)) return null;
  const load = Math.abs(amps) / ampacity;
  return {
    celsius: steadyCelsius(air, rating, amps, ampacity),
    load,
    beyondModel: load > MODEL_LOAD_LIMIT,
  };
}

/** The temperature of `steadyTemperature` alone, for an ampacity above 0. */
export function steadyCelsius(air: number, rating: number, amps: number, ampacity: number): number {
  const load = Math.abs(amps) / ampacity;
  return air + (rating - air) * load * load;
}

/** The current (A) whose steady temperature is `celsius`: the inverse of `steadyTemperature`; 0 when it is not above the air. */
export function currentForTemperature(
  air: number,
  rating: number,
  ampacity: number,
  celsius: number,
): number {
  if (celsius <= air || rating <= air) return 0;
  return ampacity * Math.sqrt((celsius - air) / (rating - air));
}

/** Seconds for which a conductor withstands a short circuit: (k S / I)². k in A·√s/mm², S in mm². IEC 60364-5-54, up to about 5 s. */
export function withstandSeconds(k: number, areaMm2: number, amps: number): number {
  if (amps === 0) return Infinity;
  const ratio = (k * areaMm2) / amps;
  return ratio * ratio;
}

/** (k S)², A²s: what a conductor takes in without its insulation passing the final temperature of k. IEC 60364-5-54. */
export function withstandLetThrough(k: number, areaMm2: number): number {
  const root = k * areaMm2;
  return root * root;
}

/** Share of the withstand that a let-through I²t (A²s) takes; 1 is the limit. */
export function heatFraction(letThrough: number, k: number, areaMm2: number): number {
  const withstand = withstandLetThrough(k, areaMm2);
  return withstand > 0 ? letThrough / withstand : Infinity;
}

/**
 * k of the adiabatic limit for aluminium, A·√s/mm²: 148 sqrt(ln((228 + Tf) / (228 + Ti))) between the initial and the final temperature,
 * °C (IEC 60949). 0 unless the final temperature is the higher one.
 */
export function adiabaticKAluminium(initial: number, final: number): number {
  if (final <= initial) return 0;
  return nineDigits(148 * Math.sqrt(Math.log((228 + final) / (228 + initial))));
}
