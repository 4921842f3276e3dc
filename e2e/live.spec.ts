/** An edit of a build of 60 parts, from the key that ends it to the new drawing and to the new findings. */
import { generate } from '../tests/documents/generate.ts';
import { openBuild } from './support/build-file.ts';
import { DESK, expect, test } from './support/test.ts';

test.use(DESK);

interface Heard {
  readonly key: number;
  drawn: number;
  judging: boolean;
  judged: number;
}

const RATINGS = ['20 A', '30 A', '40 A', '60 A'];

test('an edit of 60 parts is drawn and judged; how long each takes is printed', async ({
  page,
  server,
  seen,
}) => {
  await openBuild(page, server, generate(2, { parts: 60, owners: 2, supply: 'alternator' }), 'wiring');
  await page.evaluate(() => {
    const all: Heard[] = [];
    Object.assign(window, { heard: all });
    const typed = (event: KeyboardEvent): void => {
      if (event.key !== 'Enter' || !(event.target instanceof HTMLInputElement)) return;
      all.push({ key: event.timeStamp, drawn: 0, judging: false, judged: 0 });
    };
    addEventListener('keydown', typed, true);
    new MutationObserver((records) => {
      const last = all.at(-1);
      const drawing = records.some(({ target }) => (target as Element).closest?.('.drawing-ink') != null);
      if (last !== undefined && last.drawn === 0 && drawing) last.drawn = performance.now();
      const judging = document.querySelector('.cell.tally .caption')?.textContent !== 'Findings';
      if (last === undefined || last.judged > 0) return;
      if (judging) last.judging = true;
      else if (last.judging) last.judged = performance.now();
    }).observe(document.body, { childList: true, characterData: true, subtree: true });
  });
  const ids = await page
    .locator('.drawing-ink g[data-part*="fuse"]')
    .evaluateAll((groups) => groups.map((group) => (group as SVGElement).dataset['part'] ?? ''));
  for (const [i, id] of ids.slice(0, 6).entries()) {
    await page.locator(`.drawing-ink [data-spot="${id}"]`).focus();
    await page.keyboard.press('Enter');
    await page
      .getByRole('button', { name: /^rating: / })
      .first()
      .click();
    await page.getByLabel('Rating', { exact: true }).fill(RATINGS[i % RATINGS.length] ?? '');
    await page.keyboard.press('Enter');
    await expect
      .poll(async () => await page.evaluate(() => (window as unknown as { heard: Heard[] }).heard.at(-1)))
      .toMatchObject({ drawn: expect.any(Number), judging: true });
    await expect
      .poll(
        async () => await page.evaluate(() => (window as unknown as { heard: Heard[] }).heard.at(-1)?.judged),
      )
      .toBeGreaterThan(0);
    // What follows an edit by itself, such as facts worth getting, is not waited for by anyone.
    await page.waitForTimeout(800);
  }
  const heard = await page.evaluate(() => (window as unknown as { heard: Heard[] }).heard);
  const row = (of: (one: Heard) => number): string =>
    heard
      .map((one) => Math.round(of(one) - one.key))
      .toSorted((a, b) => a - b)
      .join(' ');
  console.log(`key to drawing, ms: ${row((one) => one.drawn)}; to findings: ${row((one) => one.judged)}`);
  expect(heard.length).toBe(6);
  expect(heard.every((one) => one.drawn > one.key && one.judged > one.key)).toBe(true);
  expect(seen.errors).toEqual([]);
});
