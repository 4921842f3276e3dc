import { answered, DESK, expect, idOf, PHONE, saved, test } from './support/test.ts';
import { fact, giveSix } from './support/six.ts';

const ROWS = [
  'Cable, each way',
  'Fuse or breaker',
  'Does it hunt?',
  'Left over at hot idle',
  'Run signal needed?',
  'Driving gives, per hour',
];

test.describe('on a phone', () => {
  test.use(PHONE);

  test('nothing known still has an answer: six rows in their order, each with a mark and a value', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(server.url);
    await answered(page);
    await expect(page.locator('.fact .value').filter({ hasText: 'don’t know' })).toHaveCount(6);
    await expect(page.locator('.answer-row .name')).toHaveText(ROWS);
    for (const row of await page.locator('.answer-row').all()) {
      await expect(row.locator('.value')).not.toHaveText('');
      await expect(row.locator('.mark')).toHaveAttribute('aria-label', /met|open|advice|fault|danger/);
    }
    await expect(page.locator('.first-line b')).toHaveText(/Nothing found wrong; \d+ open: /);
    await expect(page.locator('.worth li')).toHaveCount(3);
    expect(seen.errors).toEqual([]);
  });

  test('blank to a first answer in at most ten presses and six typed values', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(server.url);
    const effort = await giveSix(page);
    expect(effort.presses).toBeLessThanOrEqual(10);
    expect(effort.typed).toBeLessThanOrEqual(6);
    await answered(page);
    await expect(page.locator('.answer-row').first().locator('.value')).toHaveText(/^\d+( to \d+)?\smm²$/);
    await saved(page);
    expect(seen.errors).toEqual([]);
  });

  test('every fact may be answered “don’t know”, and there is still an answer', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(server.url);
    let presses = 1;
    await fact(page, 'Feeds the 12/24 V net').click();
    const named = page.locator('.fact-slip-head b');
    for (const _ of [1, 2, 3, 4, 5, 6]) {
      const before = await named.textContent();
      const choice = page.locator('.choice').filter({ hasText: /don.t know/ });
      presses += 1;
      await choice.last().click();
      await expect(named).not.toHaveText(before ?? '');
    }
    expect(presses).toBeLessThanOrEqual(10);
    await answered(page);
    await expect(page.locator('.answer-row .name')).toHaveText(ROWS);
    for (const row of await page.locator('.answer-row').all())
      await expect(row.locator('.value')).not.toHaveText('');
    expect(seen.errors).toEqual([]);
  });

  test('the working is one press away', async ({ page, server, seen }) => {
    await page.goto(server.url);
    await answered(page);
    await page.locator('.answer-row', { hasText: 'Fuse or breaker' }).click();
    await expect(page.locator('.row-working .steps tr').first()).toBeVisible();
    expect(seen.errors).toEqual([]);
  });

  test('each choice says what it would do', async ({ page, server, seen }) => {
    await page.goto(server.url);
    await answered(page);
    await fact(page, 'Way back').click();
    const body = page.locator('.choice', { hasText: 'the body' }).locator('.effect');
    await expect(body).not.toHaveText('being tried', { timeout: 150_000 });
    await expect(body).not.toHaveText('');
    expect(seen.errors).toEqual([]);
  });

  test('nothing is wider than the screen', async ({ page, server, seen }) => {
    await page.goto(server.url);
    await answered(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(seen.errors).toEqual([]);
  });
});

test.describe('at the desk', () => {
  test.use(DESK);

  test('a first answer becomes a build that is kept, and the same screen reads the facts back', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(server.url);
    await giveSix(page);
    await answered(page);
    await saved(page);
    await page.getByRole('button', { name: 'Go on to the drawing' }).click();
    await expect(page).toHaveURL(/\/wiring$/);
    const { build } = await server.get<{ build: { head: number; draft: boolean } }>(
      `api/builds/${idOf(page)}`,
    );
    expect(build.draft).toBe(false);
    await page.reload();
    await page.getByRole('button', { name: '1 First answer' }).click();
    await expect(fact(page, 'House battery').locator('.value')).toHaveText('LiFePO4 200 Ah');
    await answered(page);
    expect(seen.errors).toEqual([]);
  });

  test('a first answer goes on to a drawing with no danger and no fault, in far fewer than forty presses', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(server.url);
    const { presses } = await giveSix(page);
    expect(presses + 1).toBeLessThanOrEqual(40);
    await answered(page);
    await page.getByRole('button', { name: 'Go on to the drawing' }).click();
    await expect(page.locator('.drawing-ink svg')).toBeVisible();
    await expect(page.getByRole('complementary', { name: 'Margin' }).locator('.sum')).toHaveText(
      /^Nothing found wrong/,
    );
    await expect(page.locator('.finding.danger')).toHaveCount(0);
    expect(seen.errors).toEqual([]);
  });

  test('a fact that cannot be read is refused in words, and nothing is changed', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(server.url);
    await answered(page);
    await fact(page, 'Vehicle battery, to charger').click();
    await page.locator('.typed input').fill('about so long');
    await page.locator('.typed input').press('Enter');
    await expect(page.getByRole('alert').filter({ hasText: /about so long/ })).toBeVisible();
    await expect(fact(page, 'Vehicle battery, to charger').locator('.value')).toHaveText('don’t know');
    expect(seen.errors).toEqual([]);
  });

  test('undo goes back through every fact, and forth again', async ({ page, server, seen }) => {
    await page.goto(server.url);
    await giveSix(page);
    const undo = page.getByRole('button', { name: /^Undo/ }).first();
    for (let i = 0; i < 12 && (await undo.getAttribute('aria-disabled')) !== 'true'; i += 1) {
      const before = await page.locator('.state-line').textContent();
      await undo.click();
      await expect(page.locator('.state-line')).not.toHaveText(before ?? '');
    }
    await expect(page.locator('.fact .value').filter({ hasText: 'don’t know' })).toHaveCount(6);
    await page.keyboard.press('Control+Shift+Z');
    await expect(fact(page, 'Feeds the 12/24 V net').locator('.value')).toHaveText('alternator');
    expect(seen.errors).toEqual([]);
  });
});
