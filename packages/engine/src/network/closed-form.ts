/** Closed forms for the simplest feeding loop: a source behind a resistance and a constant power. */

/**
 * Volts at a constant power behind a resistance: V = (Vs + sqrt(Vs^2 - 4 P R)) / 2, the higher of the two solutions.
 *
 * @param sourceVolts Vs, V
 * @param watts P, W, at least 0
 * @param ohms R of the whole loop, ohm, at least 0
 * @returns volts, or null where there is none (R > Vs^2 / 4P)
 */
export function constantPowerVolts(sourceVolts: number, watts: number, ohms: number): number | null {
  const under = sourceVolts * sourceVolts - 4 * watts * ohms;
  return under < 0 ? null : (sourceVolts + Math.sqrt(under)) / 2;
}

/**
 * Greatest resistance of a loop (ohm) over which a constant power (W) can be drawn from a source (V): Vs^2 / 4P.
 */
export function greatestLoopOhms(sourceVolts: number, watts: number): number {
  return (sourceVolts * sourceVolts) / (4 * watts);
}

/** What a threshold device at the end of a simple loop does, by source voltage. */
export interface HuntingWindow {
  /** Source volts from which it starts. */
  readonly from: number;
  /** Source volts from which, once on, it stays on. At or below `from`: no hunting; between the two both on and off are stable. */
  readonly to: number;
  readonly hunts: boolean;
}

/**
 * Source voltages at which a device that draws constant power, starts at `startVolts` and stops below `stopVolts` (at its own
 * input) hunts in a simple loop with no other load: startVolts <= Vs < Vtop with Vtop = Voff + P R / Voff where
 * Voff^2 >= P R, else 2 sqrt(P R) (below that the power cannot be drawn at all).
 *
 * Derivation: on, the input stands at the higher solution of V = Vs - P R / V, which falls to Voff at Vs = Voff + P R / Voff
 * as long as Voff lies on the upper branch (Voff >= sqrt(P R)).
 */
export function huntingWindow(
  startVolts: number,
  stopVolts: number,
  watts: number,
  ohms: number,
): HuntingWindow {
  const squared = watts * ohms;
  const top = stopVolts * stopVolts >= squared ? stopVolts + squared / stopVolts : 2 * Math.sqrt(squared);
  return { from: startVolts, to: top, hunts: top > startVolts };
}
