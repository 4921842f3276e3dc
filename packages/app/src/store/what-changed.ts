/** An edit in few words, from its changes. */
import type { Change } from '@loomwright/engine';

/** "charger, current: 40 A." / "house-fuse is taken away." / "3 changes." */
export function whatChanged(changes: readonly Change[]): string {
  const [only, ...more] = changes;
  if (only === undefined) return '';
  if (more.length > 0) return `${changes.length} changes.`;
  if ('remove' in only) return `${name(only.remove)} is taken away.`;
  if ('add' in only) return `${name(only.add)} is new.`;
  const { set, to } = only;
  return typeof to === 'object' ? `${name(set)} is changed.` : `${name(set)}: ${spoken(to)}.`;
}

const SECTIONS = new Set(['parts', 'wires', 'places']);

function name(path: readonly (string | number)[]): string {
  const own = SECTIONS.has(String(path[0])) ? path.slice(1) : path;
  return own.map((key) => (typeof key === 'number' ? `${key + 1}` : key)).join(', ');
}

const spoken = (value: unknown): string => (value === true ? 'yes' : value === false ? 'no' : String(value));
