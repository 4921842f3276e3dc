/** Greatest voltage that a part of a system is taken to bear when its sheet is not at hand. */

/** 16 V at 12 V nominal, 32 V at 24 V, 58.4 V at 48 V (highest charging voltages of the chemistries in use). */
export function usualMost(nominal: number): number {
  if (nominal <= 14) return 16;
  return nominal <= 28 ? 32 : 58.4;
}
