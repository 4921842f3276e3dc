/** Structural sharing: what is equal in a new build becomes the very object of the old one. */
import type { Build } from '../contracts/index.ts';

/** The new build with every equal value taken from the old one; frozen. Kinds' and wires' memos go by object identity. */
export function share(old: Build | null, next: Build): Build {
  return old === null ? next : (merge(old, next) as Build);
}

function merge(old: unknown, next: unknown): unknown {
  if (Object.is(old, next) || typeof old !== 'object' || typeof next !== 'object') return next;
  if (old === null || next === null || Object.getPrototypeOf(old) !== Object.getPrototypeOf(next))
    return next;
  if (old instanceof Map) return mergeMaps(old, next as Map<unknown, unknown>);
  if (Array.isArray(old)) return mergeLists(old, next as readonly unknown[]);
  return mergeRecords(old as Fields, next as Fields);
}

type Fields = Readonly<Record<string, unknown>>;

function mergeMaps(old: ReadonlyMap<unknown, unknown>, next: ReadonlyMap<unknown, unknown>): unknown {
  const merged = new Map([...next].map(([key, value]) => [key, merge(old.get(key), value)] as const));
  const oldKeys = [...old.keys()];
  const same =
    old.size === next.size &&
    [...merged].every(([key, value], i) => oldKeys[i] === key && old.get(key) === value);
  return same ? old : Object.freeze(merged);
}

function mergeLists(old: readonly unknown[], next: readonly unknown[]): unknown {
  const merged = next.map((value, index) => merge(old[index], value));
  const same = old.length === next.length && merged.every((value, index) => Object.is(value, old[index]));
  return same ? old : Object.freeze(merged);
}

function mergeRecords(old: Fields, next: Fields): unknown {
  const keys = Object.keys(next);
  const merged = Object.create(Object.getPrototypeOf(next) as object | null) as Record<string, unknown>;
  for (const key of keys) merged[key] = Object.hasOwn(old, key) ? merge(old[key], next[key]) : next[key];
  const same =
    keys.length === Object.keys(old).length && keys.every((key) => Object.is(merged[key], old[key]));
  return same ? old : Object.freeze(merged);
}
