/**
 * Speed of drawing, measured in one process: a book of pages of a 60-part build, and its views on screen after edits. Milliseconds
 * depend on the machine; how often the layout library is run does not.
 */
import type { Draughtsman, Order, View } from '../../packages/engine/src/index.ts';
import { draughtsman, subjectFrom } from '../drawing/draw.ts';
import { makeBuild } from '../drawing/generate.ts';
import { median } from './judged.ts';

export interface DrawingRow {
  readonly name: string;
  /** Milliseconds, median. */
  readonly milliseconds: number;
  /** Not above this, ms, on a quiet machine with two cores. */
  readonly aim: number;
  /** Runs of the layout library. */
  readonly layouts: number;
}

const ROUNDS = 5;

/** Each round with a draughtsman of its own, made ready outside the time: what was drawn once is remembered. */
async function timed<T>(
  name: string,
  aim: number,
  ready: (drawer: Draughtsman) => Promise<T>,
  draw: (drawer: Draughtsman, from: T) => Promise<unknown>,
): Promise<DrawingRow> {
  const times: number[] = [];
  let layouts = 0;
  for (let i = 0; i <= ROUNDS; i += 1) {
    const drawer = draughtsman();
    const from = await ready(drawer);
    const { runs } = drawer;
    const start = performance.now();
    await draw(drawer, from);
    // The first round warms.
    if (i > 0) times.push(performance.now() - start);
    layouts = drawer.runs - runs;
  }
  return { name, milliseconds: median(times), aim, layouts };
}

const TEXT = makeBuild(3, { parts: 60, places: 6 }).text;

/** An edit, and how long its drawing may take, ms. */
const EDITS: Readonly<Record<string, readonly [text: string, aim: number]>> = {
  'one load and its wire more': [
    TEXT.replace(
      '\nwires:\n',
      '\n  extra: { kind: load, at: p1, current: 3 A }\nwires:\n  zz: { from: plus.99, to: extra.+, size: 2.5 mm2, length: 2 m }\n',
    ),
    150,
  ],
  'one load, its fuse and its three wires more': [
    TEXT.replace(
      '\nwires:\n',
      '\n  extra: { kind: load, at: p3, current: 3 A }\n  guard: { kind: fuse, at: p4, rating: 5 A }\nwires:\n  zx: { from: plus.99, to: guard.line, size: 2.5 mm2 }\n  zy: { from: guard.load, to: extra.+, size: 2.5 mm2 }\n  zz: { from: extra.-, to: minus.99, size: 2.5 mm2 }\n',
    ),
    150,
  ],
  'one wire more': [
    TEXT.replace(
      '\nwires:\n',
      '\nwires:\n  zz: { from: plus.99, to: feed.load, size: 6 mm2, length: 2 m }\n',
    ),
    150,
  ],
  'other words of the same length': [TEXT.replaceAll('rating: 250 A', 'rating: 300 A'), 20],
  'longer words on every wire': [TEXT.replaceAll(/size: [\d.]+ mm2/g, 'size: 120 mm2'), 50],
};

export async function benchDrawing(): Promise<readonly DrawingRow[]> {
  const subject = subjectFrom(TEXT);
  const rows = [
    await timed(
      'book of a 60-part build',
      3000,
      async () => await Promise.resolve(),
      async (drawer) =>
        await drawer.book(subject, {
          paper: 'A4',
          views: ['power', 'control', 'negative'],
          date: '',
          draft: null,
        }),
    ),
  ];
  for (const view of ['power', 'all'] satisfies readonly View[]) {
    for (const [edit, [text, aim]] of Object.entries(EDITS)) {
      const edited = subjectFrom(text);
      const ready = async (drawer: Draughtsman): Promise<Order> =>
        (await drawer.screen(subject, { view })).order;
      rows.push(
        await timed(`view ${view}, ${edit}`, aim, ready, async (drawer, order) => {
          await drawer.screen(edited, { view }, order);
        }),
      );
    }
  }
  return rows;
}
