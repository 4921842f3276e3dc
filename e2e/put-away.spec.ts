/** Builds are put away and brought back; nothing of them is lost. */
import type { BuildHead } from '../packages/app/src/store/api.ts';
import { example, openBuild } from './support/build-file.ts';
import { DESK, expect, idOf, PHONE, test, type Page } from './support/test.ts';
import type { Server } from './support/server.ts';

const TITLES = { first: "Beekeeper's van", second: 'Another job' } as const;

async function openList(page: Page, phone: boolean): Promise<void> {
  if (phone) await page.locator('.title-block .cell').first().click();
  await page.locator('.cell.build').click();
}

const heads = async (server: Server, archived: 'yes' | 'no'): Promise<readonly BuildHead[]> =>
  (await server.get<{ builds: readonly BuildHead[] }>(`api/builds?archived=${archived}`)).builds;

for (const [name, size] of [
  ['at the desk', DESK],
  ['on the phone', PHONE],
] as const)
  test.describe(name, () => {
    test.use(size);

    test('a build is put away, taken back at once, put away again, and brought back from the list of those', async ({
      page,
      server,
      seen,
    }) => {
      const text = example('beekeepers-van').replace(/^title:.*$/m, `title: ${JSON.stringify(TITLES.first)}`);
      await openBuild(page, server, text, 'wiring');
      const away = idOf(page);
      await page.goto('about:blank');
      await openBuild(page, server, text.replace(/^title:.*$/m, `title: ${TITLES.second}`), 'wiring');
      await openList(page, name === 'on the phone');
      const margin = page.getByRole('complementary', { name: 'Margin' });
      const button = (words: string) => margin.getByRole('button', { name: words, exact: true });
      // What is on the desk stays there.
      await expect(margin.getByRole('button', { name: `Put away ${TITLES.second}` })).toHaveAttribute(
        'aria-disabled',
        'true',
      );
      const line = margin.locator('.list-main', { hasText: TITLES.first });
      await button(`Put away ${TITLES.first}`).click();
      await expect(line).toHaveCount(0);
      await expect(margin.locator('.moved')).toContainText(`${TITLES.first} is put away`);
      expect((await heads(server, 'yes')).map(({ id }) => id)).toEqual([away]);
      await margin.locator('.moved').getByRole('button', { name: 'Undo' }).click();
      await expect(line).toBeVisible();
      expect(await heads(server, 'yes')).toEqual([]);

      await button(`Put away ${TITLES.first}`).click();
      await expect(line).toHaveCount(0);
      await button('1 build put away').click();
      await button(`Bring back ${TITLES.first}`).click();
      await expect(line).toBeVisible();
      const [back] = (await heads(server, 'no')).filter(({ id }) => id === away);
      expect(back).toMatchObject({ archived: null, head: 1 });
      await line.click();
      await expect(page.locator('.drawing-ink svg')).toBeVisible();
      await expect.poll(() => idOf(page)).toBe(away);
      expect(seen.errors).toEqual([]);
    });
  });
