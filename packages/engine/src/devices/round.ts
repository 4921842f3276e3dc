/** Nine significant digits: what is kept of results that went through a logarithm, so that all machines print the same. */
export function nineDigits(value: number): number {
  return Number.isFinite(value) ? Number(value.toPrecision(9)) : value;
}
