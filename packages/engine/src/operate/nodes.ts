/** Numbers for the nodes of a build: terminals, inner nodes of parts, body sections, the battery posts. */
import type { TerminalRef } from '../contracts/index.ts';
import type { PlacedParts } from './placed.ts';

export interface Nodes {
  readonly count: number;
  /** The vehicle battery's negative post; without one the first house battery's. */
  readonly reference: number;
  /** Number of a node by its full name (`charger.in+`, `bar.centre`, `^section:body`); -1 when nothing is there. */
  find(name: string): number;
  /** As `find`, for a name that a part uses for one of its own nodes. */
  own(part: string, name: string): number;
}

/** Full name of a node that a part names: its terminal, its inner node (`.x`) or a special one (`^...`). */
export const fullName = (part: string, name: string): string =>
  name.startsWith('^') ? name : `${part}.${name}`;

/** `names` are all nodes in use; names joined by `same` are one node. */
export function numberNodes(placed: PlacedParts, used: Iterable<string>): Nodes {
  const same = aliases(placed);
  const root = (name: string): string => {
    let n = name;
    for (let next = same.get(n); next !== undefined; next = same.get(n)) n = next;
    return n;
  };
  const numbers = new Map<string, number>();
  const intern = (name: string): void => {
    const r = root(name);
    if (!numbers.has(r)) numbers.set(r, numbers.size);
  };
  for (const name of used) intern(name);
  for (const end of placed.wired.keys()) intern(end);
  const reference = referenceOf(placed);
  intern(reference);
  const found = new Map<string, number>();
  const find = (name: string): number => {
    let number = found.get(name);
    if (number === undefined) {
      number = numbers.get(root(name)) ?? -1;
      found.set(name, number);
    }
    return number;
  };
  // Joining a name takes longer than finding its number.
  const own = new Map<string, Map<string, number>>();
  return {
    count: numbers.size,
    reference: find(reference),
    find,
    own: (part, name) => {
      let names = own.get(part);
      if (names === undefined) {
        names = new Map();
        own.set(part, names);
      }
      let number = names.get(name);
      if (number === undefined) {
        number = find(fullName(part, name));
        names.set(name, number);
      }
      return number;
    },
  };
}

function aliases(placed: PlacedParts): Map<string, string> {
  const same = new Map<string, string>();
  if (placed.posts !== null) {
    same.set('^posts+', placed.posts.plus);
    same.set('^posts-', placed.posts.minus);
  }
  for (const part of placed.parts.values()) {
    const unwired = (terminal: string): boolean => !placed.wired.has(`${part.id}.${terminal}`);
    for (const [terminal, other] of Object.entries(part.kind.unwired ?? {})) {
      if (unwired(terminal)) same.set(`${part.id}.${terminal}`, `${part.id}.${other}`);
    }
    const at = part.kind.atPostsWhenUnwired;
    if (at !== undefined && placed.posts !== null && unwired(at.plus) && unwired(at.minus)) {
      same.set(`${part.id}.${at.plus}`, '^posts+');
      same.set(`${part.id}.${at.minus}`, '^posts-');
    }
  }
  return same;
}

function referenceOf(placed: PlacedParts): TerminalRef {
  if (placed.posts !== null) return placed.posts.minus;
  const battery = [...placed.parts.values()].find((p) => p.ability.stores !== undefined);
  if (battery !== undefined) return `${battery.id}.${battery.ability.stores?.minus ?? '-'}`;
  return [...placed.wired.keys()][0] ?? '^nothing';
}
