/** Screens to look at, no tests: every sheet, four builds, three sizes, three themes and without colour, in e2e/shots. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './support/build.ts';
import { judged } from './support/build-file.ts';
import { giveSix } from './support/six.ts';
import { answered, DESK, expect, PHONE, test, type Page } from './support/test.ts';

const folder = join(root, 'e2e', 'shots');
mkdirSync(folder, { recursive: true });

const SIZES = [
  ['wide', DESK],
  ['middle', { viewport: { width: 1000, height: 760 } }],
  ['phone', PHONE],
] as const;
const SHEETS = ['first', 'survey', 'wiring', 'try-it'] as const;
const BUILDS = ['empty', 'six', 'beekeepers-van', 'faulty-camper'] as const;

async function putOnDesk(page: Page, url: string, build: (typeof BUILDS)[number]): Promise<void> {
  await page.goto(
    build === 'empty' || build === 'six' ? `${url}#/new/first` : `${url}#/example-${build}/first`,
  );
  if (build === 'six') await giveSix(page);
  await answered(page);
  await judged(page);
}

async function showSheet(page: Page, sheet: string, drawn: boolean): Promise<void> {
  await page.evaluate((wanted) => {
    history.pushState(null, '', location.hash.replace(/[^/]*$/, wanted));
    dispatchEvent(new PopStateEvent('popstate'));
  }, sheet);
  await expect(page.locator('main h1').first()).toBeVisible();
  if (sheet === 'try-it')
    for (const [hand, position] of [
      ['Key', 'on'],
      ['Engine', 'idling'],
    ] as const)
      await page
        .getByRole('group', { name: hand, exact: true })
        .getByRole('button', { name: position })
        .click();
  if (drawn && (sheet === 'wiring' || sheet === 'try-it'))
    await expect(page.locator('.drawing-ink svg')).toBeVisible();
  // Whatever is still being laid out or worked out is to be on the picture.
  await page.waitForTimeout(2500);
}

async function inTheme(page: Page, theme: string, path: string): Promise<void> {
  await page.evaluate((wanted) => {
    document.documentElement.dataset['theme'] = wanted === 'greyscale' ? 'light' : wanted;
    document.documentElement.style.filter = wanted === 'greyscale' ? 'grayscale(1)' : '';
  }, theme);
  await page.waitForTimeout(250);
  await page.screenshot({ path });
}

for (const [name, size] of SIZES) {
  test.describe(name, { tag: '@pictures' }, () => {
    test.use(size);
    for (const build of BUILDS) {
      test(`${build}: every sheet`, async ({ page, server, seen }) => {
        test.setTimeout(400_000);
        await putOnDesk(page, server.url, build);
        const themes =
          build === 'empty' || name === 'middle' ? ['light'] : ['light', 'dark', 'glare', 'greyscale'];
        for (const sheet of SHEETS) {
          await showSheet(page, sheet, build !== 'empty');
          for (const theme of themes)
            await inTheme(page, theme, join(folder, `${build}-${sheet}-${name}-${theme}.png`));
        }
        expect(seen.errors).toEqual([]);
      });
    }
  });
}
