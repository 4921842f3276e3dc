/** Screens to look at: wide and phone, three themes, and without colour. They are written to e2e/shots. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './support/build.ts';
import { giveSix } from './support/six.ts';
import { answered, DESK, expect, PHONE, test } from './support/test.ts';

const folder = join(root, 'e2e', 'shots');
mkdirSync(folder, { recursive: true });

for (const [name, size] of [
  ['wide', DESK],
  ['phone', PHONE],
] as const) {
  test.describe(name, () => {
    test.use(size);
    test('every sheet in every theme', async ({ page, server, seen }) => {
      test.setTimeout(400_000);
      await page.goto(server.url);
      await giveSix(page);
      await answered(page);
      for (const sheet of ['first', 'survey', 'wiring', 'try-it']) {
        await page.evaluate(
          (wanted) => history.pushState(null, '', location.hash.replace(/[^/]*$/, wanted)),
          sheet,
        );
        await page.evaluate(() => dispatchEvent(new PopStateEvent('popstate')));
        await expect(page.locator('main h1').first()).toBeVisible();
        await page.waitForTimeout(2500);
        for (const theme of ['light', 'dark', 'glare']) {
          await page.evaluate((wanted) => {
            document.documentElement.dataset['theme'] = wanted;
          }, theme);
          await page.waitForTimeout(150);
          await page.screenshot({ path: join(folder, `${sheet}-${name}-${theme}.png`) });
        }
        await page.evaluate(() => {
          document.documentElement.dataset['theme'] = 'light';
          document.documentElement.style.filter = 'grayscale(1)';
        });
        await page.screenshot({ path: join(folder, `${sheet}-${name}-greyscale.png`) });
        await page.evaluate(() => document.documentElement.style.removeProperty('filter'));
      }
      expect(seen.errors).toEqual([]);
    });
  });
}
