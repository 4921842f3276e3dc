import { describe, expect, it } from 'vitest';
import { kinds } from '../../packages/engine/src/kinds/registry.ts';
import { openSession } from '../../packages/engine/src/index.ts';
import { generate, generateDoc } from './generate.ts';
import { plainOf, textOf } from './plain.ts';

const SEEDS = Array.from({ length: 300 }, (_, i) => i + 1);

describe('made-up builds', () => {
  it('read without a diagnostic, with the number of parts asked for', () => {
    for (const seed of SEEDS) {
      const text = generate(seed);
      const session = openSession(text);
      expect(session.diagnostics, `seed ${seed}\n${text}`).toEqual([]);
      const count = session.build?.parts.size ?? 0;
      expect(count).toBeGreaterThanOrEqual(5);
      expect(count).toBeLessThanOrEqual(60);
    }
    expect(openSession(generate(7, { parts: 60 })).build?.parts.size).toBe(60);
    expect(openSession(generate(7, { parts: 5 })).build?.parts.size).toBe(5);
  });

  it('use the kinds, both practices, 12 and 24 V, every supply, none to six owner switches', () => {
    const docs = SEEDS.map((seed) => generateDoc(seed));
    const used = new Set(docs.flatMap((d) => Object.values(d.parts).map((p) => p['kind'])));
    expect(used.size).toBeGreaterThanOrEqual(22);
    // A kind that the made-up builds do not know yet is judged in its own example.
    for (const kind of kinds.filter((k) => !used.has(k.name)))
      expect(openSession(kind.example).judge().findings.length, kind.name).toBeGreaterThan(0);
    const heads = docs.map((d) => JSON.stringify(d.head));
    const said = ['"europe"', '"north-america"', '"vehicle":"12 V"', '"vehicle":"24 V"', '"house":"24 V"'];
    for (const text of [...said, '"alternator"', '"converter"', '"unknown"'])
      expect(heads.some((h) => h.includes(text))).toBe(true);
    const owners = docs.map((d) => Object.values(d.parts).filter((p) => p['operated-by'] === 'owner').length);
    expect([...new Set(owners)].toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });

  it('are the same for the same seed, and the same after being read as plain data', () => {
    for (const seed of SEEDS.slice(0, 40)) {
      expect(generate(seed)).toBe(generate(seed));
      expect(textOf(plainOf(generate(seed)))).toBe(generate(seed));
    }
  });
});
