/** Whatever is said of a build, as text that is the same only where all of it is. */

/** For `JSON.stringify`: maps and sets as lists, numbers that are none by their names. */
export const plain = (_key: string, value: unknown): unknown => {
  if (value instanceof Map || value instanceof Set) return [...value];
  return typeof value === 'number' && !Number.isFinite(value) ? String(value) : value;
};
