/** Results for programs: SI numbers with unit names, keys sorted, nothing that JSON cannot say. */

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** A number with its unit; one that does not exist is null with the reason. */
export function quantity(value: number | null, unit: string, reason?: string): Json {
  if (value !== null && Number.isFinite(value)) {
    return { value: nine(value), unit, ...(reason === undefined || reason === '' ? {} : { words: reason }) };
  }
  return { value: null, unit, reason: reason === undefined || reason === '' ? whyNot(value) : reason };
}

function whyNot(value: number | null): string {
  if (value === null) return 'no figure';
  if (Number.isNaN(value)) return 'not a number';
  return value > 0 ? 'without end' : 'without end, negative';
}

/** A bare number, null where there is none. */
export function bare(value: number | null): number | null {
  return value !== null && Number.isFinite(value) ? nine(value) : null;
}

/** Nine significant digits: the same text on every machine. */
function nine(value: number): number {
  const rounded = Number(value.toPrecision(9));
  return Object.is(rounded, -0) ? 0 : rounded;
}

/** JSON text with sorted keys, two spaces deep, ending with a line feed. */
export function jsonText(value: Json): string {
  return `${JSON.stringify(sorted(value), null, 2)}\n`;
}

function sorted(value: Json): Json {
  if (Array.isArray(value)) return (value as readonly Json[]).map(sorted);
  if (value === null || typeof value !== 'object') return value;
  const map = value as { readonly [key: string]: Json };
  return Object.fromEntries(
    Object.keys(map)
      .toSorted()
      .map((key) => [key, sorted(map[key] ?? null)]),
  );
}
