/** Replacing stretches of a text. */

/** Takes `remove` characters away at `at` and puts others there. */
export interface Splice {
  readonly at: number;
  readonly remove: number;
  readonly put: string;
}

/** Applies splices that do not overlap, all given by offsets in the old text. */
export function splice(text: string, splices: readonly Splice[]): string {
  const parts: string[] = [];
  let done = 0;
  for (const { at, remove, put } of splices.toSorted((a, b) => a.at - b.at)) {
    parts.push(text.slice(done, at), put);
    done = at + remove;
  }
  parts.push(text.slice(done));
  return parts.join('');
}
