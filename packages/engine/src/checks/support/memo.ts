/** What is derived from an operation is derived once. */
import type { Operation, Practice } from '../../contracts/index.ts';

/** Remembers the answer per operation. */
export function perOperation<T>(make: (op: Operation) => T): (op: Operation) => T {
  const known = new WeakMap<Operation, { readonly made: T }>();
  return (op) => {
    const old = known.get(op);
    if (old !== undefined) return old.made;
    const made = make(op);
    known.set(op, { made });
    return made;
  };
}

/** Remembers the answer per operation and practice. */
export function perPractice<T>(
  make: (op: Operation, practice: Practice) => T,
): (op: Operation, practice: Practice) => T {
  const known = new WeakMap<Operation, Map<string, T>>();
  return (op, practice) => {
    const map = known.get(op) ?? new Map<string, T>();
    known.set(op, map);
    const old = map.get(practice.id);
    if (old !== undefined) return old;
    const made = make(op, practice);
    map.set(practice.id, made);
    return made;
  };
}
