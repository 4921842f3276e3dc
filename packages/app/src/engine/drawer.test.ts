import { openSession, type Change, type Elk, type Session } from '@loomwright/engine';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { Drawer, type Drawn, type DrawWish } from './drawer.ts';

const require = createRequire(import.meta.url);
const ELK = require('elkjs/lib/elk.bundled.js') as new () => { layout: Elk };
const library = new ELK();

const file = new URL('../../../../examples/delivery-van.yaml', import.meta.url);
/** Without sizes that are searched for. */
const text = readFileSync(file, 'utf8').replaceAll('size: auto', 'size: 25 mm2');
const session = openSession(text);
const [fuse = ''] = [...(session.build?.parts.values() ?? [])].flatMap((part) =>
  part.kind === 'fuse' ? [part.id] : [],
);

/** A drawer with the build on view, as a screen keeps it. */
async function begun(of: Session = session) {
  let runs = 0;
  const drawer = new Drawer(async (graph) => {
    runs += 1;
    return await library.layout(graph);
  });
  const first: DrawWish = { view: 'all', sheet: true, auto: null, order: null };
  const drawn = await drawer.draw(of.subject(), first, false);
  return { drawer, drawn, wish: { ...first, order: drawn.order }, runs: () => runs };
}

const edited = (...changes: readonly Change[]): Session => {
  const next = session.edit(changes);
  if (next.build === null) throw new Error(next.diagnostics.map((each) => each.message).join());
  return next;
};
const markup = ({ cut }: Drawn): unknown => [cut.root, cut.skeleton, [...cut.pieces]];

describe('the drawer', () => {
  it('sketches nothing before anything is laid out, in another view or in another order', async () => {
    const { drawer, wish } = await begun();
    const empty = { drawn: null, final: false };
    const fresh = new Drawer(async (graph) => await library.layout(graph));
    expect(fresh.sketch(session.subject(), wish).sketch).toMatchObject(empty);
    expect(drawer.sketch(session.subject(), { ...wish, view: 'power' }).sketch).toMatchObject(empty);
    expect(drawer.sketch(session.subject(), { ...wish, order: null }).sketch).toMatchObject(empty);
    expect(
      drawer.sketch(session.subject(), { ...wish, order: { ...wish.order, views: {} } as typeof wish.order })
        .sketch,
    ).toMatchObject(empty);
  });

  it('sketches a changed rating as it would draw it, without the layout library', async () => {
    const { drawer, wish, runs } = await begun();
    const before = runs();
    const subject = edited({ set: ['parts', fuse, 'rating'], to: '30 A' }).subject();
    const { sketch, keep } = drawer.sketch(subject, wish);
    expect(sketch.final).toBe(true);
    expect(runs()).toBe(before);
    keep();
    const drawn = await drawer.draw(subject, wish, false);
    expect(sketch.drawn === null ? null : markup(sketch.drawn)).toEqual(markup(drawn));
    const piece = [...drawn.cut.pieces].find(([name]) => name === `part ${fuse}`);
    expect(piece?.[1]).toMatch(/>30\sA</);
  });

  it('remembers nothing of a sketch that was not kept', async () => {
    const { drawer, wish } = await begun();
    const typed = edited({ set: ['parts', fuse, 'rating'], to: '125 A' }).subject();
    const meant = edited({ set: ['parts', fuse, 'rating'], to: '25 A' }).subject();
    const made = drawer.sketch(meant, wish).sketch;
    drawer.sketch(typed, wish);
    const again = drawer.sketch(meant, wish).sketch;
    expect(again.final).toBe(true);
    expect(again.drawn === null ? null : markup(again.drawn)).toEqual(
      made.drawn === null ? null : markup(made.drawn),
    );
  });

  it('shows the words of an edit at once, and says whether all else is final', async () => {
    const [wire] = session.build?.wires.values() ?? [];
    if (wire === undefined) throw new Error('the example has wires');
    const second = { from: wire.from, to: wire.to, size: '25 mm2', length: '1 m' };
    const places = [...(session.build?.places.keys() ?? [])];
    const elsewhere = places.find((each) => each !== session.build?.parts.get(fuse)?.at) ?? '';
    for (const change of [
      { set: ['wires', 'second'], to: second },
      { set: ['parts', fuse, 'at'], to: elsewhere },
    ]) {
      const { drawer, wish } = await begun();
      const subject = edited(change, { set: ['parts', fuse, 'rating'], to: '30 A' }).subject();
      const { sketch, keep } = drawer.sketch(subject, wish);
      expect(sketch.drawn?.cut.pieces.get(`part ${fuse}`)).toMatch(/>30\sA</);
      keep();
      const drawn = await drawer.draw(subject, wish, false);
      expect(drawn.order).not.toBeNull();
      const same = JSON.stringify(sketch.drawn === null ? null : markup(sketch.drawn));
      expect(same === JSON.stringify(markup(drawn))).toBe(sketch.final);
      expect(sketch.drawn?.order === null).toBe(!sketch.final);
    }
  });
});
