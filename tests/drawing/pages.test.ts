/** Books of the examples and what they say: references, title block, lettering, ids, draft, references, hostile text. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { draftReason, readOrder, type BookOptions } from '../../packages/engine/src/drawing/index.ts';
import { CAPITAL_HEIGHT } from '../../packages/engine/src/drawing/text/advance-widths.ts';
import { contactOf } from '../../packages/engine/src/drawing/sheet/node-ink.ts';
import { zoneOf } from '../../packages/engine/src/drawing/page/frame-ink.ts';
import { coreOf } from '../../packages/engine/src/drawing/sheet/picture.ts';
import { PAPERS } from '../../packages/engine/src/drawing/page/paper.ts';
import { draughtsman, subjectFrom } from './draw.ts';
import { makeBuild } from './generate.ts';
import { prove } from './proof.ts';

const OPTIONS: BookOptions = {
  paper: 'A4',
  views: ['power', 'control', 'negative'],
  date: '2026-01-31',
  draft: null,
};
const examples = readdirSync(new URL('../../examples/', import.meta.url)).filter((name) =>
  name.endsWith('.yaml'),
);
const example = (name: string): string =>
  readFileSync(new URL(`../../examples/${name}`, import.meta.url), 'utf8');
const big = makeBuild(3, { parts: 60, places: 6 }).text;

describe.each(examples)('%s', (name) => {
  it.each(['A4', 'Letter'] as const)(
    'is drawn on %s without a fault and with every wire once',
    async (paper) => {
      const subject = subjectFrom(example(name));
      const book = await draughtsman().book(subject, { ...OPTIONS, paper });
      for (const page of book.pages) {
        const proof = prove(page.page.picture);
        expect(proof.faults).toEqual([]);
        expect(proof.worstEnd).toBeLessThan(0.005);
      }
      const drawn = book.pages.flatMap((page) => page.page.picture.wires.map((wire) => wire.edge.wire.id));
      expect(drawn.toSorted()).toEqual([...subject.wires.keys()].toSorted());
    },
  );

  it('is drawn for a screen, all wires at once, without a fault', async () => {
    const screen = await draughtsman().screen(subjectFrom(example(name)), { view: 'all' });
    expect(prove(screen.page.picture).faults).toEqual([]);
  });
});

describe('a book', () => {
  it('letters nothing smaller than 2 mm', async () => {
    const book = await draughtsman().book(subjectFrom(big), OPTIONS);
    for (const { svg } of book.pages) {
      const sizes = [...svg.matchAll(/font-size="([\d.]+)"/g)].map((match) => Number(match[1]));
      expect(sizes.length).toBeGreaterThan(3);
      expect((Math.min(...sizes) * CAPITAL_HEIGHT) / 1000).toBeGreaterThanOrEqual(2);
    }
  });

  it('is black and white but for the tint of places, which says nothing that a rule and a name do not', async () => {
    const book = await draughtsman().book(subjectFrom(big), OPTIONS);
    const colours = new Set(
      book.pages.flatMap(({ svg }) => [...svg.matchAll(/#[0-9a-f]{3,6}/g)].map((m) => m[0])),
    );
    expect([...colours].toSorted()).toEqual(['#000', '#f1efe9', '#fff']);
  });

  it('refers from each part that is cut to where else it is seen, with page and zone', async () => {
    const book = await draughtsman().book(subjectFrom(big), OPTIONS);
    let seen = 0;
    for (const page of book.pages) {
      const others = book.pages.filter((other) => other.view === page.view && other !== page);
      for (const placed of page.page.picture.nodes) {
        const { id } = placed.node;
        const places = others.flatMap((other) =>
          other.page.picture.nodes.filter((n) => n.node.id === id).map((n) => ({ n, other })),
        );
        const reference = page.references.get(id) ?? '';
        expect(reference === '').toBe(places.length === 0);
        for (const [, number = '', zone = ''] of reference.matchAll(/(\d+)\/([A-D][1-6])/g)) {
          const target = places.find(({ other }) => other.number === Number(number));
          expect(target, reference).toBeDefined();
          if (target === undefined) continue;
          const core = coreOf(target.n);
          expect(zone).toBe(zoneOf(PAPERS.A4, (core.left + core.right) / 2, (core.top + core.bottom) / 2));
          expect(page.svg).toContain(reference);
          seen += 1;
        }
      }
    }
    expect(seen).toBeGreaterThan(3);
  });

  it('stays inside its frame', async () => {
    for (const paper of ['A4', 'Letter'] as const) {
      const book = await draughtsman().book(subjectFrom(big), { ...OPTIONS, paper });
      const { width, height } = PAPERS[paper];
      for (const { page } of book.pages) {
        for (const { x, y, frame } of page.picture.nodes) {
          expect(x).toBeGreaterThan(20);
          expect(x + frame.width).toBeLessThan(width - 10);
          expect(y).toBeGreaterThan(10);
          expect(y + frame.height).toBeLessThan(height - 25);
        }
      }
    }
  });

  it('has every wire end where its path ends, and unique ids', async () => {
    const book = await draughtsman().book(subjectFrom(big), OPTIONS);
    for (const { svg, page } of book.pages) {
      const ids = [...svg.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]);
      expect(new Set(ids).size).toBe(ids.length);
      for (const wire of page.picture.wires) {
        const [, d = ''] =
          new RegExp(` id="${wire.edge.wire.number}" class="[^"]*" d="([^"]+)"`).exec(svg) ?? [];
        const numbers = [...d.matchAll(/-?[\d.]+/g)].map((match) => Number(match[0]));
        const source = page.picture.nodes.find((n) => n.node.id === wire.edge.source.node);
        const target = page.picture.nodes.find((n) => n.node.id === wire.edge.target.node);
        if (source === undefined || target === undefined) throw new Error('a wire without an end');
        const [a, b] = [contactOf(source, wire.edge.source.port), contactOf(target, wire.edge.target.port)];
        if (wire.edge.wire.assumed) continue;
        // Printed in thousandths of a millimetre.
        const far = [...numbers.slice(0, 2), ...numbers.slice(-2)].map((at, i) =>
          Math.abs(at - ([a.x, a.y, b.x, b.y][i] ?? 0)),
        );
        expect(Math.max(...far)).toBeLessThan(0.001);
      }
    }
  });

  it('says DRAFT with the reason on every page while a danger stands, and not otherwise', async () => {
    const draft = draftReason([
      { verdict: 'danger', dangerFamily: true },
      { verdict: 'open', dangerFamily: true },
      { verdict: 'open', dangerFamily: false },
    ]);
    expect(draft).toBe('1 danger and 1 open that could be a danger: do not build from this page.');
    expect(
      draftReason([
        { verdict: 'fault', dangerFamily: true },
        { verdict: 'open', dangerFamily: false },
      ]),
    ).toBeNull();
    const marked = await draughtsman().book(subjectFrom(big), { ...OPTIONS, draft });
    for (const { svg, page } of marked.pages) {
      expect(svg).toContain('>DRAFT<');
      expect(svg).toContain(draft);
      expect(prove(page.picture).faults).toEqual([]);
    }
    const plain = await draughtsman().book(subjectFrom(big), OPTIONS);
    for (const { svg } of plain.pages) expect(svg).not.toContain('DRAFT');
  });

  it('runs the layout library a bounded number of times', async () => {
    const drawer = draughtsman();
    const book = await drawer.book(subjectFrom(big), OPTIONS);
    expect(drawer.runs).toBeLessThanOrEqual(6 * book.pages.length);
    // Drawn again, nothing is laid out again.
    const before = drawer.runs;
    await drawer.book(subjectFrom(big), OPTIONS);
    expect(drawer.runs).toBe(before);
  });

  it('prints hostile text as text', async () => {
    const nasty = `<script>alert(1)</script>&"'>`;
    const text = big
      .replace('title: Generated 3', `title: '${nasty.replaceAll("'", "''")}'`)
      .replaceAll('label: DC charger', `label: '${nasty.replaceAll("'", "''")}'`)
      .replaceAll('label: "Engine bay"', `label: '${nasty.replaceAll("'", "''")}'`)
      .replace('colour: RD', `colour: '<b onload=x>'`);
    const book = await draughtsman().book(subjectFrom(text), { ...OPTIONS, date: nasty, draft: nasty });
    const vehicle = await draughtsman().overview(subjectFrom(text));
    const more = vehicle.type === 'sheet' ? [vehicle.map, vehicle.screen.svg] : [vehicle.vehicle.svg];
    for (const svg of [...book.pages.map((page) => page.svg), ...more]) {
      expect(svg).not.toMatch(/<script|<b\b|onload=x>/);
      const tags = [...svg.matchAll(/<\/?([A-Za-z]+)/g)].map((match) => match[1]);
      expect(
        [...new Set(tags)].filter(
          (tag) => !['svg', 'g', 'path', 'rect', 'circle', 'text', 'tspan'].includes(tag ?? ''),
        ),
      ).toEqual([]);
    }
  });
});

describe('a stored order', () => {
  it('is read back, and refused when it is none', async () => {
    const { order } = await draughtsman().book(subjectFrom(big), OPTIONS);
    expect(readOrder(JSON.parse(JSON.stringify(order)))).toEqual(order);
    for (const bad of [null, 3, 'order', [], {}, { version: 2, views: {} }, { version: 1, views: 4 }]) {
      expect(readOrder(bad)).toBeNull();
    }
    const damaged = readOrder({
      version: 1,
      views: { power: { pages: [{ wires: ['a'], kept: { nodes: [1], sides: {} } }] } },
    });
    expect(damaged).toEqual({ version: 1, views: { power: {} } });
  });

  it('keeps which wires stand on which page', async () => {
    const first = await draughtsman().book(subjectFrom(big), OPTIONS);
    const again = await draughtsman().book(subjectFrom(big), OPTIONS, first.order);
    const wires = (book: typeof first) =>
      book.pages.map((page) => page.page.picture.wires.map((w) => w.edge.wire.id).toSorted());
    expect(wires(again)).toEqual(wires(first));
    for (const page of again.pages) expect(prove(page.page.picture).faults).toEqual([]);
  });

  it('that fits another build not at all does no harm', async () => {
    const { order } = await draughtsman().book(subjectFrom(big), OPTIONS);
    const other = subjectFrom(makeBuild(8, { parts: 25, places: 4 }).text);
    const book = await draughtsman().book(other, OPTIONS, order);
    const drawn = book.pages.flatMap((page) => page.page.picture.wires.map((wire) => wire.edge.wire.id));
    expect(drawn.toSorted()).toEqual([...other.wires.keys()].toSorted());
    for (const page of book.pages) expect(prove(page.page.picture).faults).toEqual([]);
  });
});
