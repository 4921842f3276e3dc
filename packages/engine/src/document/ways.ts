/** Which places are joined by routes. */
import type { Id, Route } from '../contracts/index.ts';

/** Places in sets: two are in one when a chain of routes joins them. Nearly linear in the number of routes. */
export class Ways {
  readonly #parent = new Map<Id, Id>();

  constructor(routes: readonly Route[]) {
    for (const { from, to } of routes) this.#parent.set(this.#root(from), this.#root(to));
  }

  joined(a: Id, b: Id): boolean {
    return a === b || this.#root(a) === this.#root(b);
  }

  #root(place: Id): Id {
    let at = place;
    let above = this.#parent.get(at) ?? at;
    while (above !== at) {
      const next = this.#parent.get(above) ?? above;
      this.#parent.set(at, next);
      at = above;
      above = next;
    }
    return at;
  }
}
