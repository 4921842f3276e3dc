/** Tells who listens that a build or an item of the shelf has a new state. */
export interface Change {
  readonly what: 'build' | 'shelf' | 'photos';
  readonly id: string;
  /** Number of the newest revision. */
  readonly head: number;
  readonly who: string;
  readonly saved: string;
}

export class Changes {
  readonly #listeners = new Set<(change: Change) => void>();

  tell(change: Change): void {
    for (const listener of this.#listeners) listener(change);
  }

  /** Gives the function that ends the listening. */
  listen(listener: (change: Change) => void): () => void {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  }
}
