/** Every kind that can be wired is drawn, with exactly the terminals that it has. */
import { describe, expect, it } from 'vitest';
import type { Part, SymbolData } from '../contracts/index.ts';
import { readDocument } from '../document/index.ts';
import { kinds, makeRegistry } from './registry.ts';

const registry = makeRegistry();

/** The kind's parts in its example, one with nothing said, and those whose terminals depend on a field. */
function partsOf(name: string, example: string): readonly Part[] {
  const { build } = readDocument(example, registry);
  const written = [...(build?.parts.values() ?? [])].filter((part) => part.kind === name);
  const fields: readonly Record<string, unknown>[] = [
    {},
    { poles: 2 },
    { ways: 2 },
    { poles: 2, ways: 2 },
    { contacts: 'break' },
    { contacts: 'change-over' },
    { return: 'chassis' },
  ];
  return [...written, ...fields.map((each) => ({ id: 'bare', kind: name, fields: each }))];
}

const systems = { vehicle: 12, house: 12 };

const glyphsOf = (symbol: SymbolData) =>
  [symbol.glyph, ...(symbol.rows ?? []).map((row) => row.glyph)].filter((glyph) => glyph !== null);

describe.each(kinds.map((kind) => [kind.name, kind] as const))('symbol of %s', (name, kind) => {
  const parts = partsOf(name, kind.example).map((part) => registry.readerFor(part, { systems }));

  it('has the terminals of the kind, each once', () => {
    for (const read of parts) {
      const terminals = kind.terminals(read);
      const symbol = kind.symbol?.(read);
      const own = symbol?.terminals ?? [];
      if (terminals.type === 'numbered' || own === 'numbered') expect(own).toBe('numbered');
      else expect(own.toSorted()).toEqual(terminals.names.toSorted());
    }
  });

  it('has rows between its own terminals, and one row where it is drawn in line', () => {
    for (const read of parts) {
      const symbol = kind.symbol?.(read);
      if (symbol === undefined) continue;
      const ends = (symbol.rows ?? []).flatMap((row) => [row.left, row.right]).filter((end) => end !== null);
      for (const end of ends) expect(symbol.terminals).toContain(end);
      if (symbol.shape === 'inline') expect(symbol.rows?.length ?? 0).toBeGreaterThan(0);
      if (symbol.shape === 'round') expect(symbol.glyph).not.toBeNull();
    }
  });

  it('says how far it reaches: nothing is drawn outside', () => {
    for (const read of parts) {
      const symbol = kind.symbol?.(read);
      if (symbol === undefined) continue;
      for (const glyph of glyphsOf(symbol)) {
        const ends = glyph.strokes.flatMap((stroke) => cornersOf(stroke.d));
        for (const [x, y] of ends) {
          expect(Math.abs(x), `${name} ${x}`).toBeLessThanOrEqual(Math.max(glyph.half, 3.4) + 1e-9);
          expect(y, `${name} ${y}`).toBeLessThanOrEqual(glyph.below + 1e-9);
          expect(-y, `${name} ${y}`).toBeLessThanOrEqual(glyph.above + 1e-9);
        }
      }
    }
  });
});

/** Corner points of path data made of M, L, H, V, a, q, t, Z; relative curves end where they say. */
function cornersOf(d: string): readonly (readonly [number, number])[] {
  const found: [number, number][] = [];
  let at: [number, number] = [0, 0];
  for (const [, letter = '', rest = ''] of d.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    const n = [...rest.matchAll(/-?(?:\d+\.?\d*|\.\d+)/g)].map((m) => Number(m[0]));
    const size = { M: 2, L: 2, H: 1, V: 1, a: 7, q: 4, t: 2, v: 1, h: 1, l: 2 }[letter] ?? 0;
    if (size === 0) continue;
    for (let i = 0; i + size <= n.length; i += size) {
      const [x = 0, y = 0] = n.slice(i + size - 2, i + size);
      if (letter === 'H') at = [n[i] ?? 0, at[1]];
      else if (letter === 'V') at = [at[0], n[i] ?? 0];
      else if (letter === 'v') at = [at[0], at[1] + (n[i] ?? 0)];
      else if (letter === 'h') at = [at[0] + (n[i] ?? 0), at[1]];
      else if (letter === letter.toUpperCase()) at = [x, y];
      else at = [at[0] + x, at[1] + y];
      found.push([...at]);
    }
  }
  return found;
}
