/** What an edit adds to a drawing is set into it without the layout library: what stood stays, and the rules of a drawing hold. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Draughtsman, Screen, View } from '../../packages/engine/src/drawing/index.ts';
import { Random } from '../oracles/random.ts';
import { draughtsman, subjectFrom } from './draw.ts';
import { makeBuild } from './generate.ts';
import { prove } from './proof.ts';
import { compare, noShift } from './shift.ts';

const WIRES = '\nwires:\n';

/** Some of what a person adds; `at`: a place. */
const additions: Readonly<Record<string, (text: string, n: number, at: string) => string>> = {
  'a load and its wire': (text, n, at) =>
    text.replace(
      WIRES,
      `\n  extra-${n}: { kind: load, at: ${at}, current: 3 A, label: Extra lamp }${WIRES}  z${n}: { from: plus.9${n}, to: extra-${n}.+, size: 2.5 mm2, length: 2 m }\n`,
    ),
  'a load and both its wires': (text, n, at) =>
    text.replace(
      WIRES,
      `\n  extra-${n}: { kind: load, at: ${at}, power: 40 W, label: Extra fan }${WIRES}  z${n}: { from: plus.9${n}, to: extra-${n}.+, size: 2.5 mm2, length: 2 m }\n  y${n}: { from: extra-${n}.-, to: minus.9${n}, size: 2.5 mm2, length: 2 m }\n`,
    ),
  'a load behind its fuse': (text, n, at) =>
    text.replace(
      WIRES,
      `\n  extra-${n}: { kind: load, at: ${at}, current: 2 A, label: Extra sign }\n  guard-${n}: { kind: fuse, at: ${at}, rating: 5 A, label: Extra fuse }${WIRES}  z${n}: { from: plus.9${n}, to: guard-${n}.line, size: 1.5 mm2 }\n  y${n}: { from: guard-${n}.load, to: extra-${n}.+, size: 1.5 mm2 }\n  x${n}: { from: extra-${n}.-, to: ground.stud, size: 1.5 mm2 }\n`,
    ),
  'a wire between bars': (text, n) =>
    text.replace(
      WIRES,
      `${WIRES}  z${n}: { from: minus.9${n}, to: ground.stud, size: 6 mm2, length: 2 m }\n`,
    ),
  'a switch at a signal': (text, n, at) =>
    text.replace(
      WIRES,
      `\n  extra-${n}: { kind: switch, at: ${at}, rating: 3 A, operated-by: owner, label: Extra switch }${WIRES}  z${n}: { from: run.out, to: extra-${n}.in, size: 1 mm2 }\n`,
    ),
};

const seen = ({ page }: Screen): string =>
  [...page.picture.nodes.map((n) => n.node.id), ...page.picture.wires.map((w) => w.edge.wire.id)].join();

interface Count {
  edits: number;
  laidOut: number;
}

/** The next drawing of a text, which keeps all rules; counted when it is another one and when the library made it. */
async function next(
  drawer: Draughtsman,
  text: string,
  { view, order, before }: { readonly view: View; readonly order: Screen['order']; readonly before: Screen },
  count: Count,
): Promise<Screen> {
  const options = { view, mode: 'slim' } as const;
  const { runs } = drawer;
  const now = await drawer.screen(subjectFrom(text), options, order);
  const proof = prove(now.page.picture);
  expect(proof.faults, text).toEqual([]);
  expect(proof.worstEnd).toBeLessThan(0.005);
  if (seen(now) !== seen(before)) {
    count.edits += 1;
    if (drawer.runs > runs) count.laidOut += 1;
  }
  return now;
}

const VIEWS = ['power', 'control', 'negative', 'all'] as const;

/** At most this share of additions needs the library. */
const LAID_OUT = 0.1;
/** Views of fewer wires have their parts side by side in one row: which one's lettering begins higher tells nothing. */
const FEWEST = 4;

describe.each(VIEWS)('view %s', (view) => {
  it('takes additions: all rules hold, parts shift by 5 mm at most in the mean, 3 % of pairs turn round', async () => {
    const sum = noShift();
    const count: Count = { edits: 0, laidOut: 0 };
    for (let seed = 1; seed <= (view === 'control' ? 16 : 6); seed += 1) {
      const random = new Random(seed);
      const places = random.whole(3, 6);
      const { text } = makeBuild(seed, { parts: random.whole(15, 32), places });
      const drawer = draughtsman();
      const first = await drawer.screen(subjectFrom(text), { view, mode: 'slim' });
      if (first.page.picture.wires.length < FEWEST) continue;
      for (const add of Object.values(additions)) {
        const more = add(text, 1, `p${random.whole(0, places - 1)}`);
        const { runs } = drawer;
        const now = await next(drawer, more, { view, order: first.order, before: first }, count);
        if (drawer.runs === runs) compare(first.page.picture, now.page.picture, sum);
      }
    }
    expect(count.edits).toBeGreaterThan(4);
    expect(count.laidOut / count.edits).toBeLessThanOrEqual(LAID_OUT);
    expect(sum.own / sum.parts).toBeLessThanOrEqual(5);
    expect(sum.swapped / sum.pairs).toBeLessThanOrEqual(0.03);
  });
});

describe('several additions, one after the other', () => {
  it('keep all rules, and taken back one by one they leave the very pictures that were', async () => {
    for (const seed of [1, 2]) {
      const random = new Random(seed);
      const { text } = makeBuild(seed, { parts: 22, places: 4 });
      const drawer = draughtsman();
      const screens = [await drawer.screen(subjectFrom(text), { view: 'all', mode: 'slim' })];
      const texts = [text];
      const count: Count = { edits: 0, laidOut: 0 };
      for (let n = 1; n <= 4; n += 1) {
        const before = screens.at(-1) as Screen;
        const add = random.pick(Object.values(additions));
        const more = add(texts.at(-1) ?? '', n, `p${random.whole(0, 3)}`);
        screens.push(await next(drawer, more, { view: 'all', order: before.order, before }, count));
        texts.push(more);
        if (count.laidOut > 0) break;
      }
      expect(count.edits - count.laidOut).toBeGreaterThan(1);
      const { runs } = drawer;
      let { order } = screens.at(-1) as Screen;
      for (let n = count.edits - count.laidOut - 1; n >= 0; n -= 1) {
        const back = await drawer.screen(subjectFrom(texts[n] ?? ''), { view: 'all', mode: 'slim' }, order);
        expect(back.svg, `seed ${seed}, ${n}`).toBe(screens[n]?.svg);
        ({ order } = back);
      }
      if (count.laidOut === 0) expect(drawer.runs).toBe(runs);
    }
  });

  it('are drawn alike twice', async () => {
    const { text } = makeBuild(4, { parts: 25, places: 5 });
    const [one, two] = await Promise.all(
      [1, 2].map(async () => {
        const drawer = draughtsman();
        const first = await drawer.screen(subjectFrom(text), { view: 'all' });
        const more = additions['a load and both its wires']?.(text, 1, 'p1') ?? '';
        const now = drawer.screenNow(subjectFrom(more), { view: 'all' }, first.order);
        expect(now).not.toBeNull();
        return now?.svg;
      }),
    );
    expect(two).toBe(one);
  });
});

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
const STEP = 5;

describe('the examples', () => {
  it('take a load at a terminal, and a second wire beside one', { timeout: 120_000 }, async () => {
    const sum = noShift();
    const count: Count = { edits: 0, laidOut: 0 };
    for (const name of examples) {
      const text = readFileSync(new URL(name, folder), 'utf8');
      const subject = subjectFrom(text);
      const wires = [...subject.wires.values()].filter((wire, i) => !wire.assumed && i % STEP === 0);
      for (const view of VIEWS) {
        const drawer = draughtsman();
        const first = await drawer.screen(subject, { view, mode: 'slim' });
        for (const { from, to } of wires) {
          const [start, end] = [`${from.part}.${from.terminal}`, `${to.part}.${to.terminal}`];
          const place = subject.parts.get(from.part)?.place ?? '';
          const loaded = `\n  zz: { kind: load, at: ${place}, current: 1 A, label: Extra lamp }${WIRES}  zz-w: { from: ${start}, to: zz.+, size: 1 mm2, length: 1 m }\n`;
          const doubled = `${WIRES}  zz-w: { from: ${start}, to: ${end}, size: 1 mm2, length: 1 m }\n`;
          for (const more of [loaded, doubled].map((added) => text.replace(WIRES, added))) {
            const { runs } = drawer;
            const now = await next(drawer, more, { view, order: first.order, before: first }, count);
            if (drawer.runs === runs) compare(first.page.picture, now.page.picture, sum);
          }
        }
      }
    }
    expect(count.edits - count.laidOut).toBeGreaterThan(30);
    expect(sum.own / sum.parts).toBeLessThanOrEqual(5);
    expect(sum.swapped / sum.pairs).toBeLessThanOrEqual(0.03);
    // A wire to a fuse in line turns whole chains round.
    expect(count.laidOut / count.edits).toBeLessThan(0.5);
  });
});
