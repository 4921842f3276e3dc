import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { test as plain } from '@playwright/test';
import { root } from './support/build.ts';
import { fact, giveSix } from './support/six.ts';
import { answered, expect, PHONE, watch } from './support/test.ts';

const file = pathToFileURL(join(root, 'dist', 'loomwright-pocket.html')).href;

plain.use(PHONE);

plain(
  'the pocket file works from disk: no server, no network, kept over a reload, out as a file',
  async ({ page, context }) => {
    const seen = watch(context, /^(?:file:|blob:|data:)/);
    await context.setOffline(true);
    await page.goto(file);
    await giveSix(page);
    await answered(page);
    await expect(page.locator('.first-line b')).toHaveText(/^Nothing found wrong/);
    await expect(page.locator('.cell.saved .caption')).toHaveText('Kept on this phone');
    await page.reload();
    await expect(fact(page, 'House battery').locator('.value')).toHaveText('LiFePO4 200 Ah');
    await answered(page);
    await page.locator('.cell.saved').click();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Keep a copy' }).click();
    expect((await download).suggestedFilename()).toBe('new-build.yaml');
    expect(seen.elsewhere).toEqual([]);
    expect(seen.errors).toEqual([]);
  },
);

plain('every sheet opens from the pocket file', async ({ page, context }) => {
  const seen = watch(context, /^(?:file:|blob:|data:)/);
  await page.goto(file);
  await answered(page);
  for (const sheet of ['survey', 'wiring', 'try-it']) {
    await page.goto(`${file}#/new/${sheet}`);
    await expect(page.locator('main h1').first()).toBeVisible();
  }
  expect(seen.elsewhere).toEqual([]);
  expect(seen.errors).toEqual([]);
});
