/** Whole books of generated builds: what is asserted of each is the same for all. */
import { expect, it } from 'vitest';
import { freeOn, needsOf, PAPERS } from '../../packages/engine/src/drawing/page/paper.ts';
import { crossingsOf } from '../../packages/engine/src/drawing/sheet/judge.ts';
import { Random } from '../oracles/random.ts';
import { draughtsman, subjectFrom } from './draw.ts';
import { makeBuild, type Made } from './generate.ts';
import { prove } from './proof.ts';

/** Of 10 to 60 parts in 3 to 8 places. */
export function generated(seed: number): Made {
  const random = new Random(seed);
  return makeBuild(seed, { parts: random.whole(10, 60), places: random.whole(3, 8) });
}

export interface Tally {
  pages: number;
  ends: number;
  crossings: number;
}

const VIEWS = ['power', 'control', 'negative'] as const;

export async function proveBook(seed: number, tally: Tally): Promise<void> {
  const paper = seed % 2 === 0 ? 'A4' : 'Letter';
  const subject = subjectFrom(generated(seed).text);
  const book = await draughtsman().book(subject, { paper, views: VIEWS, date: '2026-01-31', draft: null });
  const free = freeOn(PAPERS[paper], false);
  for (const page of book.pages) {
    const proof = prove(page.page.picture);
    expect(proof.faults, `seed ${seed}, page ${page.number}`).toEqual([]);
    expect(proof.worstEnd, `seed ${seed}, page ${page.number}`).toBeLessThan(0.005);
    const needs = needsOf(page.page);
    expect(needs.width, `seed ${seed}, page ${page.number}`).toBeLessThanOrEqual(free.width + 1e-6);
    expect(needs.height, `seed ${seed}, page ${page.number}`).toBeLessThanOrEqual(free.height + 1e-6);
    tally.pages += 1;
    tally.ends += proof.ends;
    tally.crossings += crossingsOf(page.page.picture);
  }
  const drawn = book.pages.flatMap((page) => page.page.picture.wires.map((wire) => wire.edge.wire.id));
  expect(drawn.toSorted(), `seed ${seed}: every wire once`).toEqual([...subject.wires.keys()].toSorted());
}

/** A hundred builds from a seed on, in tens. */
export function hundredBooks(from: number): void {
  const tally: Tally = { pages: 0, ends: 0, crossings: 0 };
  for (let first = from; first < from + 100; first += 10) {
    it(
      `builds ${first} to ${first + 9}: nothing overlaps, every end on its terminal, every page fits at full size`,
      { timeout: 600_000 },
      async () => {
        for (let seed = first; seed < first + 10; seed += 1) await proveBook(seed, tally);
      },
    );
  }
  it('are enough ends to mean something, and hardly a crossing', () => {
    expect(tally.ends).toBeGreaterThan(6000);
    expect(tally.crossings / tally.pages).toBeLessThan(0.2);
  });
}
