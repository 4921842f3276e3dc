/** A value that screens can watch. */
import { useSyncExternalStore } from 'react';

export class Store<T extends object> {
  #value: T;
  readonly #watchers = new Set<() => void>();

  constructor(value: T) {
    this.#value = value;
  }

  readonly get = (): T => this.#value;

  readonly watch = (watcher: () => void): (() => void) => {
    this.#watchers.add(watcher);
    return () => this.#watchers.delete(watcher);
  };

  set(change: Partial<T>): void {
    this.#value = { ...this.#value, ...change };
    for (const watcher of this.#watchers) watcher();
  }
}

/** One part of a store's value; the screen is drawn again when that part is another one. */
export function useStore<T extends object, P>(store: Store<T>, pick: (value: T) => P): P {
  return useSyncExternalStore(store.watch, () => pick(store.get()));
}
