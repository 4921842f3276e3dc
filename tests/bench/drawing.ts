/**
 * Speed of drawing, measured in one process: a book of pages of a 60-part build, one view laid out again after an edit in its kept
 * order, and an edit that moves nothing. Seconds depend on the machine; the counts of layouts do not.
 */
import { draughtsman, subjectFrom } from '../drawing/draw.ts';
import { makeBuild } from '../drawing/generate.ts';

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

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}

async function timed(name: string, aim: number, once: () => Promise<number>): Promise<DrawingRow> {
  const times: number[] = [];
  let layouts = 0;
  await once();
  for (let i = 0; i < ROUNDS; i += 1) {
    const start = performance.now();
    layouts = await once();
    times.push(performance.now() - start);
  }
  return { name, milliseconds: median(times), aim, layouts };
}

export async function benchDrawing(): Promise<readonly DrawingRow[]> {
  const text = makeBuild(3, { parts: 60, places: 6 }).text;
  const subject = subjectFrom(text);
  const edited = subjectFrom(
    text.replace(
      '\nwires:\n',
      '\n  extra: { kind: load, at: p1, current: 3 A }\nwires:\n  zz: { from: plus.99, to: extra.+, size: 2.5 mm2, length: 2 m }\n',
    ),
  );
  const reworded = subjectFrom(text.replaceAll('rating: 250 A', 'rating: 300 A'));
  const keeper = draughtsman();
  const first = await keeper.screen(subject, { view: 'power', tidy: true });
  return [
    await timed('book of a 60-part build', 3000, async () => {
      const drawer = draughtsman();
      await drawer.book(subject, {
        paper: 'A4',
        views: ['power', 'control', 'negative'],
        date: '',
        draft: null,
      });
      return drawer.runs;
    }),
    await timed('its power view after an edit', 150, async () => {
      const drawer = draughtsman();
      await drawer.screen(edited, { view: 'power', thoroughness: 1 }, first.order);
      return drawer.runs;
    }),
    await timed('its power view with other words', 20, async () => {
      const before = keeper.runs;
      await keeper.screen(reworded, { view: 'power' }, first.order);
      return keeper.runs - before;
    }),
  ];
}
