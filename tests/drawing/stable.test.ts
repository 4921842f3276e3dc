/** The same build gives the same drawing, whatever the order of its document; a small edit moves little. */
import { describe, expect, it } from 'vitest';
import type { Order } from '../../packages/engine/src/drawing/index.ts';
import type { Picture } from '../../packages/engine/src/drawing/sheet/picture.ts';
import { Random } from '../oracles/random.ts';
import { draughtsman, subjectFrom } from './draw.ts';
import { makeBuild } from './generate.ts';
import { prove } from './proof.ts';
import { compare, noShift } from './shift.ts';

const text = makeBuild(5, { parts: 38, places: 6 }).text;

describe('the same build', () => {
  it('is drawn alike twice', async () => {
    const options = { paper: 'A4', views: ['power', 'control', 'negative'], date: '', draft: null } as const;
    const books = await Promise.all([1, 2].map(() => draughtsman().book(subjectFrom(text), options)));
    expect(books[1]?.pages.map((page) => page.svg)).toEqual(books[0]?.pages.map((page) => page.svg));
    const vehicles = await Promise.all([1, 2].map(() => draughtsman().overview(subjectFrom(text))));
    expect(JSON.stringify(vehicles[1])).toBe(JSON.stringify(vehicles[0]));
  });

  it('stands where it stood when its document is shuffled', async () => {
    const before = await standing(text);
    for (const seed of [1, 2, 3]) expect(await standing(shuffled(text, new Random(seed)))).toEqual(before);
  });
});

async function standing(document: string): Promise<ReadonlyMap<string, string>> {
  const screen = await draughtsman().screen(subjectFrom(document), { view: 'all', tidy: true });
  return new Map(
    screen.page.picture.nodes.map(({ node, x, y }) => [node.id, `${x.toFixed(3)} ${y.toFixed(3)}`]),
  );
}

/** Parts and wires in another order. */
function shuffled(document: string, random: Random): string {
  return document.replaceAll(/((?:^ {2}[\w-]+: \{.*\}\n)+)/gm, (block, _lines: string, at: number) => {
    if (at < document.indexOf('\nparts:')) return block;
    const lines = block.trimEnd().split('\n');
    const keyed = lines.map((line) => ({ line, key: random.next() }));
    return `${keyed
      .toSorted((a, b) => a.key - b.key)
      .map(({ line }) => line)
      .join('\n')}\n`;
  });
}

type Edit = (document: string) => string | null;

const WIRES = '\nwires:\n';

const edits: Readonly<Record<string, Edit>> = {
  'a load more': (t) =>
    t.replace(
      WIRES,
      `\n  extra: { kind: load, at: p1, current: 3 A, label: Extra lamp }${WIRES}  zz-extra: { from: plus.99, to: extra.+, size: 2.5 mm2, length: 2 m }\n`,
    ),
  'a fuse in a wire': (t) => {
    const taps = [...t.matchAll(/^ {2}(w\d+[\w-]*): \{ from: (plus\.\d+), to: ([\w.+-]+), (.*)\}$/gm)];
    const [line, id, from, to, rest] = taps[taps.length >> 1] ?? [];
    if (line === undefined) return null;
    return t
      .replace(
        line,
        `  ${id}: { from: ${from}, to: new-fuse.line, ${rest}}\n  ${id}-b: { from: new-fuse.load, to: ${to}, ${rest}}`,
      )
      .replace(WIRES, `\n  new-fuse: { kind: fuse, at: p1, rating: 10 A, label: New fuse }${WIRES}`);
  },
  'a wire more': (t) =>
    t.replace(WIRES, `${WIRES}  zz-wire: { from: plus.98, to: feed.load, size: 6 mm2, length: 2 m }\n`),
  'a part less': (t) => {
    const loads = [...t.matchAll(/^ {2}(load-\d+): .*$/gm)];
    const id = loads[loads.length >> 1]?.[1];
    return id === undefined
      ? null
      : t
          .split('\n')
          .filter((line) => !new RegExp(`\\b${id}\\b`).test(line))
          .join('\n');
  },
  'a new name': (t) => t.replace('label: House fuse', 'label: Main fuse of the house bank'),
};

const at = (picture: Picture): readonly string[] =>
  picture.nodes.map(({ node, x, y }) => `${node.id} ${x} ${y}`);

describe('after a small edit', () => {
  it(
    'parts shift by 5 mm at most in the mean, and 3 % of pairs turn round',
    { timeout: 300_000 },
    async () => {
      const sum = noShift();
      for (let seed = 1; seed <= 10; seed += 1) {
        const random = new Random(seed);
        const document = makeBuild(seed, { parts: random.whole(15, 45), places: random.whole(3, 7) }).text;
        const drawer = draughtsman();
        const before = await drawer.screen(subjectFrom(document), { view: 'power', tidy: true });
        for (const edit of Object.values(edits)) {
          const edited = edit(document);
          if (edited === null || edited === document) continue;
          const after = await drawer.screen(subjectFrom(edited), { view: 'power' }, before.order);
          expect(prove(after.page.picture).faults).toEqual([]);
          compare(before.page.picture, after.page.picture, sum);
        }
      }
      expect(sum.parts).toBeGreaterThan(500);
      expect(sum.own / sum.parts).toBeLessThanOrEqual(5);
      expect(sum.swapped / sum.pairs).toBeLessThanOrEqual(0.03);
    },
  );

  it('that changes no box nothing moves, and nothing is laid out', async () => {
    const drawer = draughtsman();
    const first = await drawer.screen(subjectFrom(text), { view: 'all', tidy: true });
    const { runs } = drawer;
    const edited = text.replaceAll('rating: 250 A', 'rating: 300 A');
    const again = await drawer.screen(subjectFrom(edited), { view: 'all' }, first.order);
    expect(drawer.runs).toBe(runs);
    expect(again.svg).toContain('300');
    expect(at(again.page.picture)).toEqual(at(first.page.picture));
  });

  it('is seen at once on the old positions: what is gone is gone, what stays stays', async () => {
    const drawer = draughtsman();
    const first = await drawer.screen(subjectFrom(text), { view: 'power', tidy: true });
    const { runs } = drawer;
    const less = edits['a part less']?.(text) ?? '';
    const id =
      /^ {2}(load-\d+):/m.exec(
        text
          .split('\n')
          .filter((line) => !less.includes(line))
          .join('\n'),
      )?.[1] ?? '';
    const now = drawer.atOnce(subjectFrom(less.replace('label: House fuse', 'label: Bank fuse')), first, {
      view: 'power',
    });
    expect(drawer.runs).toBe(runs);
    expect(now.svg).toContain('Bank fuse');
    expect(first.svg).toContain(`data-part="${id}"`);
    expect(now.svg).not.toContain(`data-part="${id}"`);
    const was = new Set(at(first.page.picture));
    for (const place of at(now.page.picture)) expect(was.has(place)).toBe(true);
    expect(prove(now.page.picture).worstEnd).toBeLessThan(0.005);
  });

  it('an order from an unknown source is only a hint', async () => {
    const order: Order = {
      version: 1,
      views: {
        power: { screen: { nodes: ['nobody', 'plus'], sides: { plus: { west: ['none'], east: [] } } } },
      },
    };
    const screen = await draughtsman().screen(subjectFrom(text), { view: 'power' }, order);
    expect(prove(screen.page.picture).faults).toEqual([]);
  });
});
