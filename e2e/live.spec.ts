/** An edit of a build of 60 parts, from the key that ends it to the new drawing and to the new findings. */
import { generate } from '../tests/documents/generate.ts';
import { openBuild } from './support/build-file.ts';
import { DESK, expect, test } from './support/test.ts';

test.use(DESK);

interface Heard {
  readonly key: number;
  drawn: number;
  /** The first findings of the new text. */
  first: number;
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
      all.push({ key: event.timeStamp, drawn: 0, first: 0, judging: false, judged: 0 });
    };
    addEventListener('keydown', typed, true);
    new MutationObserver((records) => {
      const last = all.at(-1);
      const drawing = records.some(({ target }) => (target as Element).closest?.('.drawing-ink') != null);
      if (last !== undefined && last.drawn === 0 && drawing) last.drawn = performance.now();
      const far = document.querySelector('.how-far')?.textContent ?? '';
      if (last !== undefined && last.first === 0 && /again: [1-9]/.test(far)) last.first = performance.now();
      const judging = document.querySelector('.cell.tally .caption')?.textContent !== 'Findings';
      if (last === undefined || last.judged > 0) return;
      if (judging) last.judging = true;
      else if (last.judging) last.judged = performance.now();
    }).observe(document.body, { childList: true, characterData: true, subtree: true });
  });
  const ids = await page
    .locator('.drawing-ink g[data-part*="fuse"]')
    .evaluateAll((groups) => groups.map((group) => (group as SVGElement).dataset['part'] ?? ''));
  // What an edit does not change stays what it is in the page, and what has the focus keeps it.
  const things = page.locator('.drawing-ink g[data-part], .drawing-ink g[data-wire]');
  const count = await things.count();
  const before = await page
    .locator('.drawing-ink svg')
    .evaluateHandle((svg) => [...svg.querySelectorAll('g')]);
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
  const still = await before.evaluate((all) => all.filter((group) => group.isConnected).length / all.length);
  expect(still).toBeGreaterThan(0.6);
  expect(await things.count()).toBe(count);
  await expect(page.locator('.how-far')).toHaveText(/^All \d+ judged\.$/);
  const heard = await page.evaluate(() => (window as unknown as { heard: Heard[] }).heard);
  const row = (of: (one: Heard) => number): string =>
    heard
      .map((one) => Math.round(of(one) - one.key))
      .toSorted((a, b) => a - b)
      .join(' ');
  const [drawn, first, judged] = [row((one) => one.drawn), row((one) => one.first), row((one) => one.judged)];
  console.log(`key to drawing, ms: ${drawn}; to the first findings: ${first}; to all: ${judged}`);
  expect(heard.length).toBe(6);
  expect(heard.every((one) => one.drawn > one.key && one.first > one.key && one.judged >= one.first)).toBe(
    true,
  );
  expect(seen.errors).toEqual([]);
});

test('what is being typed shows nowhere before the key that ends it; let go, it never was', async ({
  page,
  server,
  seen,
}) => {
  await openBuild(page, server, generate(2, { parts: 20, owners: 1, supply: 'alternator' }), 'wiring');
  await expect(page.locator('.how-far')).toHaveText(/^All \d+ judged\.$/);
  const [id = ''] = await page
    .locator('.drawing-ink g[data-part*="fuse"]')
    .evaluateAll((groups) => groups.map((group) => (group as SVGElement).dataset['part'] ?? ''));
  const drawn = page.locator(`.drawing-ink g[data-part="${id}"]`);
  const findings = page.locator('.margin h2.sum');
  const before = [await drawn.textContent(), await findings.textContent()];
  await page.locator(`.drawing-ink [data-spot="${id}"]`).focus();
  await page.keyboard.press('Enter');
  const rating = page.getByRole('button', { name: /^rating: / }).first();
  const given = await rating.textContent();
  await rating.click();
  const field = page.getByLabel('Rating', { exact: true });
  await field.fill('1.5 A');
  // Long enough to be read, drawn and judged ahead.
  await page.waitForTimeout(700);
  expect([await drawn.textContent(), await findings.textContent()]).toEqual(before);
  await page.keyboard.press('Escape');
  await expect(rating).toHaveText(given ?? '');
  expect([await drawn.textContent(), await findings.textContent()]).toEqual(before);
  await rating.click();
  await field.fill('1.5 A');
  await page.waitForTimeout(700);
  await page.keyboard.press('Enter');
  await expect(drawn).toContainText(/1\.5\sA/);
  await expect(page.locator('.how-far')).toHaveText(/^All \d+ judged\.$/);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => await drawn.textContent()).toBe(before[0]);
  await expect.poll(async () => await findings.textContent()).toBe(before[1]);
  expect(seen.errors).toEqual([]);
});
