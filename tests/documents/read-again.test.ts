/** A text that is read again after an edit, with what did not change taken over: the same in all respects as read afresh. */
import { isCollection, isMap, isPair, isScalar } from 'yaml';
import { describe, expect, it } from 'vitest';
import { readDocument } from '../../packages/engine/src/document/index.ts';
import { Faults } from '../../packages/engine/src/document/faults.ts';
import { parseText } from '../../packages/engine/src/document/open.ts';
import { reparse } from '../../packages/engine/src/document/reparse.ts';
import { colonEnd, type SourceText } from '../../packages/engine/src/document/source.ts';
import { parseTree } from '../../packages/engine/src/document/syntax.ts';
import { Lines } from '../../packages/engine/src/document/text.ts';
import { makeRegistry } from '../../packages/engine/src/kinds/registry.ts';
import { COUNTS, LONG, pick, SEED, without } from './damaged.ts';
import { generate } from './generate.ts';
import { mutate } from './mutate.ts';

/** Everything of a syntax tree that is looked at. */
function seen(node: unknown): unknown {
  if (isPair(node)) return [seen(node.key), seen(node.value), colonEnd(node as never) ?? null];
  if (isScalar(node)) return [node.source, node.type, node.value, node.range?.slice(0, 2)];
  if (!isCollection(node)) return node;
  const dashes = (node.srcToken as { items?: { start: { type: string; offset: number }[] }[] } | undefined)
    ?.items;
  const dash = isMap(node)
    ? null
    : dashes?.map(({ start }) => start.find((t) => t.type === 'seq-item-ind')?.offset ?? null);
  return [isMap(node), node.flow ?? false, node.range?.slice(0, 1), dash, node.items.map(seen)];
}

const SOUND = [generate(3, { parts: 8 }), generate(4, { parts: 14 }), generate(5, { parts: 30 })];

describe('a text read again', () => {
  it(
    'has the tree of a fresh parse, or is parsed afresh',
    () => {
      let again = 0;
      const olds = SOUND.map((sound) => parseText('d', sound).source);
      for (let i = 0; i < COUNTS.small; i++) {
        const old = pick(olds, i);
        const after = mutate(old.text, SEED * 1_000_003 + i);
        const lines = new Lines(after);
        const tree = without(after, () => reparse(old, lines));
        if (tree === null) continue;
        again += 1;
        const faults = new Faults(lines);
        expect(JSON.stringify(seen(tree.root)), after).toBe(
          JSON.stringify(seen(parseTree(lines, faults).root)),
        );
        expect(faults.list, after).toEqual([]);
      }
      console.log(`${again} of ${COUNTS.small} edits were parsed by their lines`);
      expect(again).toBeGreaterThan(COUNTS.small / 10);
    },
    LONG,
  );

  it(
    'reads alike through a row of edits',
    () => {
      const registry = makeRegistry();
      for (const [n, sound] of SOUND.entries()) {
        let now = readDocument(sound, registry);
        for (let i = 0; i < COUNTS.small / 20; i++) {
          const text = mutate(now.source.text, SEED * 7919 + 1000 * n + i);
          const next = readDocument(text, registry, { before: now.source });
          const expected = readDocument(text, makeRegistry());
          expect(next.diagnostics, text).toEqual(expected.diagnostics);
          expect(next.build, text).toEqual(expected.build);
          if (next.build === null) continue;
          expect(JSON.stringify(seen((next.source as SourceText).root)), text).toBe(
            JSON.stringify(seen((expected.source as SourceText).root)),
          );
          now = next;
        }
      }
    },
    LONG,
  );
});
