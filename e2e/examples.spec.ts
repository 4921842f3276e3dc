/** The demo and the other builds that come with the app, and everything as one archive, out and in again. */
import { readFileSync } from 'node:fs';
import { judged } from './support/build-file.ts';
import { answered, DESK, expect, idOf, PHONE, saved, test } from './support/test.ts';

test.describe('on a phone', () => {
  test.use(PHONE);

  test('the demo is one press away, and is still there after a reload', async ({ page, server, seen }) => {
    await page.goto(server.url);
    await page.getByRole('button', { name: 'Look at the demo build' }).click();
    await expect(page).toHaveURL(/#\/example-beekeepers-van\/wiring$/);
    await expect(page.locator('.drawing-ink svg')).toBeVisible();
    await page.reload();
    await expect(page.locator('.drawing-ink svg')).toBeVisible();
    await judged(page);
    expect(seen.errors).toEqual([]);
  });
});

test.describe('pressed before the desk is laid', () => {
  test.use(PHONE);

  test('what was pressed stands on the desk, not what the start would have laid there', async ({
    page,
    server,
    seen,
  }) => {
    for (let round = 0; round < 5; round += 1) {
      await page.goto('about:blank');
      await page.goto(server.url, { waitUntil: 'commit' });
      await page.getByRole('button', { name: 'Look at the demo build' }).click();
      await expect(page).toHaveURL(/#\/example-beekeepers-van\/wiring$/);
      await expect(page.getByRole('group', { name: /beekeeper.*: All wires/ })).toBeVisible();
    }
    expect(seen.errors).toEqual([]);
  });
});

test.describe('at the desk', () => {
  test.use(DESK);

  test('an example is looked at without being kept; changed, it is a build of one’s own', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(server.url);
    await answered(page);
    await page.locator('.cell.build').click();
    const margin = page.getByRole('complementary', { name: 'Margin' });
    await margin.getByRole('button', { name: /everything wrong/ }).click();
    await judged(page);
    await expect(page.locator('.cell.tally .value')).toContainText(/danger/);
    const { builds } = await server.get<{ builds: unknown[] }>('api/builds');
    expect(builds).toEqual([]);
    await page.getByRole('button', { name: /^Practice/ }).click();
    await margin.getByLabel('Title').fill('Mine now');
    await margin.getByLabel('Title').press('Enter');
    await saved(page);
    expect(idOf(page)).not.toContain('example');
    expect(seen.errors).toEqual([]);
  });

  test('everything goes out as one archive and comes in elsewhere; what is no archive is refused in words', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(`${server.url}#/example-beekeepers-van/wiring`);
    await page.getByRole('button', { name: /^Practice/ }).click();
    const margin = page.getByRole('complementary', { name: 'Margin' });
    await margin.getByLabel('Title').fill('Goes out');
    await margin.getByLabel('Title').press('Enter');
    await saved(page);
    await page.locator('.cell.build').click();
    const download = page.waitForEvent('download');
    await margin.getByRole('link', { name: 'Keep as one archive' }).click();
    const file = await download;
    expect(file.suggestedFilename()).toMatch(/^loomwright-.*\.tar$/);
    const bytes = readFileSync(await file.path());

    const take = async (buffer: Buffer): Promise<void> => {
      const chooser = page.waitForEvent('filechooser');
      await margin.getByRole('button', { name: 'Take in an archive' }).click();
      await (await chooser).setFiles({ name: 'all.tar', mimeType: 'application/x-tar', buffer });
    };
    await take(bytes);
    await expect(margin.getByText(/^Taken in\. Builds: 1 here already\./)).toBeVisible();
    const cut = Buffer.from(bytes);
    cut[600] = 1 + (cut[600] ?? 0);
    await take(cut);
    await expect(margin.getByRole('alert')).toContainText(/archive/);
    seen.errors.length = 0; // The browser notes the refusal; it stands on the screen.
  });
});
