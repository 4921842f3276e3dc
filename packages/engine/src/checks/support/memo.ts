/** What is derived once: per operation, or for all operations that have the same of it. */
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

/** Remembers the answer per object. */
export function perKey<K extends object, T>(make: (key: K) => T): (key: K) => T {
  const known = new WeakMap<K, { readonly made: T }>();
  return (key) => {
    const old = known.get(key);
    if (old !== undefined) return old.made;
    const made = make(key);
    known.set(key, { made });
    return made;
  };
}

/** Remembers the answer per object and name; an answer is never undefined. */
export function perName<T>(): (key: object, name: string, make: () => T) => T {
  const of = perKey<object, Map<string, T>>(() => new Map());
  return (key, name, make) => {
    const known = of(key);
    let made = known.get(name);
    if (made === undefined) {
      made = make();
      known.set(name, made);
    }
    return made;
  };
}

/** Of what is shared between operations so much is remembered; the one used least recently goes first. */
const MOST_SHARED = 8;

/** One object for all operations for which it has the same signature. */
export function shared<T extends object>(): (signature: string, make: () => T) => T {
  const known = new Map<string, T>();
  return (signature, make) => {
    const made = known.get(signature) ?? make();
    known.delete(signature);
    known.set(signature, made);
    const [oldest] = known.keys();
    if (known.size > MOST_SHARED && oldest !== undefined) known.delete(oldest);
    return made;
  };
}
