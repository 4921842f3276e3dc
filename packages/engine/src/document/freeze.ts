/** Freezing what is handed out. */

/** Freezes plain objects and lists all the way down; maps are looked into (they are read-only by type). Returns the same value. */
export function deepFreeze<T>(value: T): T {
  const waiting: unknown[] = [value];
  while (waiting.length > 0) {
    const next = waiting.pop();
    if (typeof next !== 'object' || next === null || (Object.isFrozen(next) && !(next instanceof Map)))
      continue;
    Object.freeze(next);
    for (const inner of next instanceof Map ? next.values() : Object.values(next)) waiting.push(inner);
  }
  return value;
}
