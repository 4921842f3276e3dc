/** Other words in a drawing, and parts taken out of it, move nothing round: what needs more room gets it where it stands. */
import { describe, expect, it } from 'vitest';
import { heightened, widened } from '../../packages/engine/src/drawing/sheet/room.ts';
import type { Picture } from '../../packages/engine/src/drawing/sheet/picture.ts';
import { Random } from '../oracles/random.ts';
import { draughtsman, subjectFrom } from './draw.ts';
import { makeBuild } from './generate.ts';
import { prove } from './proof.ts';

const NAMES = [
  'Pump',
  'Reading light over the bench',
  'Main fuse of the house bank, behind the left wheel',
  'X',
];
const SIZES = ['1 mm2', '120 mm2', '2.5 mm2', 'unknown'];

/** One line of the text with other words. */
function reworded(text: string, random: Random): string {
  const lines = text.split('\n');
  const told = lines.flatMap((line, i) => (/^ {2}[\w-]+: \{.*(?:label|size):/.test(line) ? [i] : []));
  const at = random.pick(told);
  const line = lines[at] ?? '';
  lines[at] = line
    .replace(/label: (?:"[^"]*"|[^,}]*[^,} ])/, `label: "${random.pick(NAMES)}"`)
    .replace(/size: (?:unknown|[\d.]+ mm2)/, `size: ${random.pick(SIZES)}`);
  return lines.join('\n');
}

const idsIn = (text: string): readonly string[] =>
  [...text.matchAll(/^ {2}((?:load|f)-\d+): /gm)].map((match) => match[1] ?? '');

/** Without one load and its wires. */
function lessened(text: string, random: Random): string {
  const id = random.pick(idsIn(text));
  return text
    .split('\n')
    .filter((line) => !new RegExp(`\\b${id}\\b`).test(line))
    .join('\n');
}

const SAME = 1e-6;

/** Pairs of parts of one place that stood clearly one over the other and no longer do, or one before the other. */
function turned(before: Picture, after: Picture): readonly string[] {
  const now = new Map(after.nodes.map((placed) => [placed.node.id, placed]));
  const found: string[] = [];
  for (const a of before.nodes) {
    for (const b of before.nodes) {
      const [c, d] = [now.get(a.node.id), now.get(b.node.id)];
      if (c === undefined || d === undefined) continue;
      const [under, behind] = [a.y + a.frame.height <= b.y, a.x + a.frame.width <= b.x];
      if (under && c.y > d.y + SAME) found.push(`${a.node.id} was over ${b.node.id}`);
      if (behind && c.x > d.x + SAME) found.push(`${a.node.id} was before ${b.node.id}`);
    }
  }
  return found;
}

describe.each(['power', 'negative', 'all'] as const)('view %s', (view) => {
  it('keeps its order through edits of words, and where one is drawn without the library nothing overlaps', async () => {
    let laidOut = 0;
    let edits = 0;
    for (const seed of [1, 2, 3, 4]) {
      const random = new Random(seed);
      const drawer = draughtsman();
      let { text } = makeBuild(seed, { parts: 25, places: 5 });
      let screen = await drawer.screen(subjectFrom(text), { view, mode: 'slim' });
      for (let i = 0; i < 25; i += 1) {
        text = i % 6 === 5 ? lessened(text, random) : reworded(text, random);
        const subject = subjectFrom(text);
        const now = drawer.screenNow(subject, { view, mode: 'slim' }, screen.order);
        edits += 1;
        if (now === null) laidOut += 1;
        else expect(turned(screen.page.picture, now.page.picture), `${seed}, edit ${i}`).toEqual([]);
        screen = now ?? (await drawer.screen(subject, { view, mode: 'slim' }, screen.order));
        const proof = prove(screen.page.picture);
        expect(proof.faults, `build ${seed}, edit ${i}`).toEqual([]);
        expect(proof.worstEnd).toBeLessThan(0.005);
      }
    }
    expect(laidOut / edits).toBeLessThan(0.2);
  });
});

describe('room', () => {
  it('made anywhere leaves every wire on its terminals and nothing over anything', async () => {
    for (const seed of [1, 2, 3]) {
      const random = new Random(seed);
      const subject = subjectFrom(makeBuild(seed, { parts: 30, places: 5 }).text);
      let { picture } = (await draughtsman().screen(subject, { view: 'all' })).page;
      for (let i = 0; i < 40; i += 1) {
        const at = random.whole(0, 300);
        const by = random.whole(1, 12);
        picture = random.chance(0.5) ? widened(picture, at, by) : heightened(picture, at, by);
        const proof = prove(picture);
        expect(proof.faults, `build ${seed}, line ${i}`).toEqual([]);
        expect(proof.worstEnd).toBeLessThan(0.005);
      }
    }
  });

  it('a part taken away and put back stands where it stood', async () => {
    const { text } = makeBuild(6, { parts: 30, places: 5 });
    const drawer = draughtsman();
    const first = await drawer.screen(subjectFrom(text), { view: 'all' });
    const { runs } = drawer;
    const less = await drawer.screen(
      subjectFrom(lessened(text, new Random(6))),
      { view: 'all' },
      first.order,
    );
    expect(less.page.picture.nodes.length).toBeLessThan(first.page.picture.nodes.length);
    const back = await drawer.screen(subjectFrom(text), { view: 'all' }, less.order);
    expect(back.svg).toBe(first.svg);
    expect(drawer.runs).toBe(runs);
  });

  it('that words no longer need is given back', async () => {
    const { text } = makeBuild(3, { parts: 30, places: 5 });
    const drawer = draughtsman();
    const first = await drawer.screen(subjectFrom(text), { view: 'power' });
    const { runs } = drawer;
    const long = text
      .replace(/size: [\d.]+ mm2/, 'size: 120 mm2')
      .replace('label: House fuse', `label: ${NAMES[2]?.replaceAll(',', '')}`);
    const grown = await drawer.screen(subjectFrom(long), { view: 'power' }, first.order);
    expect(grown.svg).not.toBe(first.svg);
    const back = await drawer.screen(subjectFrom(text), { view: 'power' }, grown.order);
    expect(back.svg).toBe(first.svg);
    expect(drawer.runs).toBe(runs);
  });
});
