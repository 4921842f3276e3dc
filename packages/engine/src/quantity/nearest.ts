/** "Did you mean": the valid name nearest to a misspelt one. */

/**
 * Longer words are not compared: nobody misspells them by one letter, and the comparison grows with the
 * square.
 */
const LONGEST = 64;

/**
 * The candidate nearest to `word` by edit distance (insertions, deletions, replacements, exchanges of
 * neighbours, each 1;
 * a difference of case alone counts 0), or undefined when none is near: at most 1 for words up to 4 letters, 2
 * up to 8, else 3.
 * Of equals the first in the list. Deterministic.
 */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const wanted = word.trim().toLowerCase();
  if (wanted === '' || wanted.length > LONGEST) return undefined;
  let best: string | undefined;
  let bestDistance = allowance(wanted.length) + 1;
  for (const candidate of candidates) {
    const distance = editDistance(wanted, candidate.toLowerCase(), bestDistance);
    if (distance < bestDistance && distance < Math.max(wanted.length, candidate.length)) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

function allowance(length: number): number {
  if (length <= 4) return 1;
  return length <= 8 ? 2 : 3;
}

/** Distance of two words, or `bound` as soon as it cannot be below it (optimal string alignment). */
export function editDistance(a: string, b: string, bound = Number.POSITIVE_INFINITY): number {
  if (Math.abs(a.length - b.length) >= bound || b.length > LONGEST) return bound;
  let twoUp: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) row.push(cell(a, b, i, j, row, above, twoUp));
    if (Math.min(...row) >= bound) return bound;
    twoUp = above;
    above = row;
  }
  return Math.min(above[b.length] ?? bound, bound);
}

const at = (list: readonly number[], k: number): number => list[k] ?? Number.POSITIVE_INFINITY;

function cell(
  a: string,
  b: string,
  i: number,
  j: number,
  row: readonly number[],
  above: readonly number[],
  twoUp: readonly number[],
): number {
  const same = a[i - 1] === b[j - 1] ? 0 : 1;
  const plain = Math.min(at(row, j - 1) + 1, at(above, j) + 1, at(above, j - 1) + same);
  const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
  return swapped ? Math.min(plain, at(twoUp, j - 2) + 1) : plain;
}
