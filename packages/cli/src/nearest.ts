/** Names near to one that does not exist. */
import { editDistance } from '@loomwright/engine';

const SHOWN = 3;

/** At most three names, nearest first: those that hold what was typed, then those few letters away. */
export function nearestOf(typed: string, names: readonly string[]): readonly string[] {
  const wanted = typed.toLowerCase();
  const holding = wanted === '' ? [] : names.filter((name) => name.toLowerCase().includes(wanted));
  const limit = Math.max(2, Math.floor(wanted.length / 2));
  const close = names
    .map((name) => ({ name, distance: editDistance(wanted, name.toLowerCase()) }))
    .filter(({ distance }) => distance <= limit)
    .toSorted((a, b) => a.distance - b.distance)
    .map(({ name }) => name);
  return [...new Set([...close, ...holding])].slice(0, SHOWN);
}
