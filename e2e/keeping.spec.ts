import type { BrowserContext } from '@playwright/test';
import type { Server } from './support/server.ts';
import { answered, DESK, expect, idOf, saved, test, type Page } from './support/test.ts';

test.use(DESK);

const rename = async (page: Page, title: string): Promise<void> => {
  const open = page.getByRole('complementary', { name: 'Margin' }).getByLabel('Title');
  if (!(await open.isVisible()))
    await page
      .locator('.title-block')
      .getByRole('button', { name: /^Practice/ })
      .click();
  await open.fill(title);
  await open.press('Enter');
};

const titleOf = async (server: { get<T>(path: string): Promise<T> }, page: Page): Promise<string> =>
  (await server.get<{ build: { title: string } }>(`api/builds/${idOf(page)}`)).build.title;

/** A build of this title, saved. */
async function begun(page: Page, server: Server, title: string): Promise<void> {
  await page.goto(server.url);
  await rename(page, title);
  await saved(page);
}

/** Another window on the build of this one. */
async function windowBeside(page: Page, context: BrowserContext, title: string): Promise<Page> {
  const second = await context.newPage();
  await second.goto(page.url());
  await expect(second.locator('.cell.build .value')).toHaveText(title);
  return second;
}

async function killed(server: Server, seen: { serverGoes: boolean }): Promise<void> {
  seen.serverGoes = true;
  await server.kill();
}

const keptHere = async (page: Page): Promise<void> =>
  await expect(page.locator('.cell.saved .caption')).toHaveText('Kept in this browser');

test('the server is killed and started again during edits: nothing is lost, and it goes by itself', async ({
  page,
  server,
  seen,
}) => {
  await begun(page, server, 'Before');
  await killed(server, seen);
  await rename(page, 'While it was gone');
  await keptHere(page);
  await expect(page.locator('.cell.saved')).toHaveClass(/device/);
  await server.start();
  await saved(page);
  expect(await titleOf(server, page)).toBe('While it was gone');
});

test('the window closes while the server is gone: the edit is there at the next start, and goes by itself', async ({
  page,
  context,
  server,
  seen,
}) => {
  await begun(page, server, 'Before');
  const address = page.url();
  await killed(server, seen);
  await rename(page, 'Kept here');
  await keptHere(page);
  await page.close();
  await server.start();
  const next = await context.newPage();
  await next.goto(address);
  await expect(next.locator('.cell.build .value')).toHaveText('Kept here');
  await saved(next);
  expect(await titleOf(server, next)).toBe('Kept here');
});

test('the page is opened again while the server is gone: the app is there, and so is the edit', async ({
  page,
  server,
  seen,
}) => {
  await begun(page, server, 'Before');
  await page.evaluate(async () => await navigator.serviceWorker.ready);
  await killed(server, seen);
  await rename(page, 'Without a server');
  await keptHere(page);
  await page.reload();
  await expect(page.locator('.cell.build .value')).toHaveText('Without a server');
  await answered(page);
  await server.start();
  await saved(page);
  expect(await titleOf(server, page)).toBe('Without a server');
});

test('two windows on one build: changes that do not meet go together by themselves', async ({
  page,
  context,
  server,
  seen,
}) => {
  await begun(page, server, 'One build');
  const second = await windowBeside(page, context, 'One build');
  await page.bringToFront();
  await rename(page, 'Renamed in the first');
  await expect(second.locator('.cell.build .value')).toHaveText('Renamed in the first');
  expect(seen.errors).toEqual([]);
});

test('two windows change the same value while the server is gone: both versions are shown, nothing overwritten', async ({
  page,
  context,
  server,
  seen,
}) => {
  await begun(page, server, 'One build');
  const second = await windowBeside(page, context, 'One build');
  await killed(server, seen);
  await rename(page, 'Mine');
  await rename(second, 'Theirs');
  await keptHere(page);
  await keptHere(second);
  await server.start();
  const [loser, winner] = await Promise.race([
    page
      .locator('.cell.saved', { hasText: 'Two versions' })
      .waitFor({ timeout: 60_000 })
      .then(() => [page, second] as const),
    second
      .locator('.cell.saved', { hasText: 'Two versions' })
      .waitFor({ timeout: 60_000 })
      .then(() => [second, page] as const),
  ]);
  await saved(winner);
  await loser.locator('.cell.saved').click();
  const table = loser.getByRole('complementary', { name: 'Margin' }).locator('table');
  await expect(table).toContainText('One build');
  await expect(table).toContainText('Mine');
  await expect(table).toContainText('Theirs');
  await loser.getByRole('button', { name: 'Save with yours' }).click();
  await saved(loser);
  const { revisions } = await server.get<{ revisions: { title: string }[] }>(
    `api/builds/${idOf(loser)}/revisions`,
  );
  expect(revisions.map((each) => each.title)).toEqual(
    expect.arrayContaining(['Mine', 'Theirs', 'One build']),
  );
});

test('a named revision is kept, and an earlier one can be taken back', async ({ page, server, seen }) => {
  await begun(page, server, 'First title');
  await rename(page, 'Second title');
  await expect(page.locator('.cell.build .value')).toHaveText('Second title');
  await page.keyboard.press('Escape');
  await page.locator('h1').first().click();
  await page.keyboard.press('Control+s');
  const margin = page.getByRole('complementary', { name: 'Margin' });
  await margin.getByLabel('Who are you?').fill('Kim');
  await margin.getByLabel('What this revision is for').fill('as agreed');
  await margin.getByRole('button', { name: 'Keep as a named revision' }).click();
  await expect(margin.getByText('Kim: as agreed')).toBeVisible();
  await margin.getByRole('button', { name: 'Take this one' }).last().click();
  await expect(page.locator('.cell.build .value')).toHaveText('First title');
  expect(seen.errors).toEqual([]);
});

test('builds go in and out as files; a bad one is refused line by line, and what was open stays open', async ({
  page,
  server,
  seen,
}) => {
  await page.goto(server.url);
  await answered(page);
  const open = async (name: string, text: string): Promise<void> => {
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Open a build file' }).first().click();
    await (await chooser).setFiles({ name, mimeType: 'application/yaml', buffer: Buffer.from(text) });
  };
  await open('bad.yaml', 'loomwright: 1\ntitle: Bad\nwires:\n  a: { from: x.+, to: y.-, size: 25 }\n');
  const margin = page.getByRole('complementary', { name: 'Margin' });
  await expect(margin.getByText('bad.yaml was not opened.')).toBeVisible();
  await expect(margin.getByText(/line 4, column \d+/).first()).toBeVisible();
  await expect(page.locator('.cell.build .value')).toHaveText('New build');
  await page.keyboard.press('Escape');

  const script = '<img src=x onerror=alert(1)><script>alert(2)</script>';
  await open(
    'hostile.yaml',
    `loomwright: 1\ntitle: ${JSON.stringify(script)}\npractice: europe\nsystems: { vehicle: 12 V, house: 12 V }\n`,
  );
  await expect(page.locator('.cell.build .value')).toHaveText(script);
  await saved(page);
  await page.locator('.cell.saved').click();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Keep a copy' }).click();
  expect((await download).suggestedFilename()).toMatch(/^[a-z0-9-]+\.yaml$/);
  expect(seen.errors).toEqual([]);
});
