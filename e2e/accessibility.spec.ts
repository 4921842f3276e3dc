import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { answered, DESK, expect, PHONE, test, type Page } from './support/test.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const SHEETS = ['first', 'survey', 'wiring', 'try-it'] as const;
const THEMES = ['light', 'dark', 'glare'] as const;

interface Violation {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly { readonly target: readonly string[]; readonly failureSummary: string }[];
}

async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  const found = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(node: Document): Promise<{ violations: Violation[] }> };
    };
    return (await axe.run(document)).violations;
  });
  return found.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.target.join(' ')}: ${node.failureSummary.slice(0, 300)}`),
  );
}

async function settled(page: Page, sheet: (typeof SHEETS)[number]): Promise<void> {
  if (sheet === 'first') await answered(page);
  else await expect(page.locator('main h1').first()).toBeVisible();
  await expect(page.locator('.title-block .tally')).not.toContainText('none yet');
  await page.waitForTimeout(700);
}

for (const [name, size] of [
  ['desk', DESK],
  ['phone', PHONE],
] as const) {
  test.describe(name, () => {
    test.use(size);
    for (const sheet of SHEETS) {
      test(`${sheet} has no violation in three themes`, async ({ page, server, seen }) => {
        await page.goto(`${server.url}#/new/${sheet}`);
        await settled(page, sheet);
        for (const theme of THEMES) {
          await page.evaluate((wanted) => {
            document.documentElement.dataset['theme'] = wanted;
          }, theme);
          // Buttons take 90 ms to their new colours; what is in between is no theme.
          await page.waitForTimeout(300);
          expect(await violations(page), `${sheet}, ${theme}`).toEqual([]);
        }
        expect(seen.errors).toEqual([]);
      });
    }
  });
}

test.describe('between phone and desk', () => {
  test.use({ viewport: { width: 1000, height: 760 } });

  test('the margin is drawn up by its heading; a finding with its working has no violation', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(`${server.url}#/example-faulty-camper/wiring`);
    await settled(page, 'wiring');
    const margin = page.getByRole('complementary', { name: 'Margin' });
    await expect(margin.locator('.finding-row').first()).toBeHidden();
    await margin.getByRole('button', { name: /dangers/ }).click();
    await margin.locator('.finding-row').first().click();
    await expect(margin.locator('.working')).toBeVisible();
    for (const theme of THEMES) {
      await page.evaluate((wanted) => {
        document.documentElement.dataset['theme'] = wanted;
      }, theme);
      await page.waitForTimeout(300);
      expect(await violations(page), theme).toEqual([]);
    }
    expect(seen.errors).toEqual([]);
  });
});

test.describe('keyboard', () => {
  test.use(DESK);

  test('digits change sheets, / finds, f shows findings, Escape lets go; silent in fields', async ({
    page,
    server,
    seen,
  }) => {
    await page.goto(server.url);
    await answered(page);
    await page.keyboard.press('2');
    await expect(page).toHaveURL(/\/survey$/);
    await page.keyboard.press('1');
    await expect(page).toHaveURL(/\/first$/);
    await page.keyboard.press('f');
    await expect(page.getByRole('heading', { name: 'Findings' })).toBeVisible();
    await page.keyboard.press('Escape');
    await page.keyboard.press('/');
    const field = page.getByRole('searchbox');
    await field.fill('2');
    await expect(page).toHaveURL(/\/first$/);
    await field.fill('house-fuse');
    await expect(page.getByRole('button', { name: /house-fuse/ }).first()).toBeVisible();
    expect(seen.errors).toEqual([]);
  });
});
