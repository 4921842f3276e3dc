/** Currents at which bare copper wire melts: check values, not limits of a design. */

const PREECE_COPPER = 10_244;

/** Steady fusing current of a straight bare copper wire in air, A: I = 10244 d^1.5, d in inches (Preece). */
export function preeceCurrent(diameterInch: number): number {
  return PREECE_COPPER * diameterInch ** 1.5;
}

/** Diameter, inches, that melts at a steady current in A: the inverse of `preeceCurrent`. */
export function preeceDiameter(amperes: number): number {
  return (amperes / PREECE_COPPER) ** (2 / 3);
}

/**
 * Current that melts a copper wire in a short time, A (Onderdonk): 33 (I/A)² t = log10((Tm - Ta)/(234 + Ta) +
 * 1), A in circular mils, t in s,
 * Tm = 1083 °C. For times below about 10 s.
 */
export function onderdonkCurrent(circularMils: number, seconds: number, ambientC: number): number {
  const heat = Math.log10((1083 - ambientC) / (234 + ambientC) + 1);
  return circularMils * Math.sqrt(heat / (33 * seconds));
}
