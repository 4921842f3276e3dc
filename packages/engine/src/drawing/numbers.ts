/**
 * Designations of parts (letter of IEC 81346-2 and a number, in the order of the document) and numbers of wires. In text the
 * product aspect's minus sign is left out: F1, not -F1.
 */
import type { Build, Id } from '../contracts/index.ts';

export interface Designation {
  readonly text: string;
  /** Digits that the largest number of its letter takes. */
  readonly digits: number;
}

/** W1, W2, ... in the order of the document, or the number that the build gives; a number that is given is not used again. */
export function wireNumbers(build: Build): ReadonlyMap<Id, Designation> {
  const given = new Set([...build.wires.values()].map((wire) => wire.number).filter((n) => n !== undefined));
  let next = 0;
  const fresh = (): string => {
    do next += 1;
    while (given.has(`W${next}`));
    return `W${next}`;
  };
  const texts = [...build.wires.values()].map((wire) => [wire.id, wire.number ?? fresh()] as const);
  const digits = String(Math.max(next, build.wires.size)).length;
  return new Map(texts.map(([id, text]) => [id, { text, digits }]));
}

/** Numbers parts within their letter. Letter W goes on behind the wires, which have it too. */
export function designations(
  parts: readonly { readonly id: Id; readonly letter: string }[],
  wires: number,
): ReadonlyMap<Id, Designation> {
  const count = new Map<string, number>();
  const texts = parts.map(({ id, letter }) => {
    const n = (count.get(letter) ?? (letter === 'W' ? wires : 0)) + 1;
    count.set(letter, n);
    return { id, letter, text: `${letter}${n}` };
  });
  return new Map(
    texts.map(({ id, letter, text }) => [id, { text, digits: String(count.get(letter) ?? 1).length }]),
  );
}
