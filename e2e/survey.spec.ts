import { DESK, expect, test } from './support/test.ts';

test.use(DESK);

test('candidates are judged as they are read', async ({ page, server, seen }) => {
  await page.goto(`${server.url}#/new/survey`);
  const table = page.locator('.survey-table');
  await expect(table).toBeVisible();
  await page.getByRole('button', { name: 'Add a supply point' }).click();
  await page.getByLabel('Its name, as marked').fill('F12');
  await page.getByLabel('What may be drawn').fill('5 A');
  await page.getByRole('button', { name: 'Add', exact: true }).click();
  const row = table.locator('tbody tr', { hasText: 'f12' });
  await expect(row.locator('.verdict b')).toHaveText('Open, missing');

  const cell = (state: string) => row.getByRole('button', { name: `f12, ${state}:` });
  await cell('ignition on').click();
  await expect(row.locator('.verdict b')).toHaveText('May not');
  await expect(row.locator('.verdict')).toContainText('ignition on');

  // Pressed once more it is dead; live only where the engine runs, dead elsewhere, it may serve once it is read here.
  await cell('ignition on').click();
  await expect(row.locator('.verdict b')).toHaveText('Open, missing');
  for (const state of ['idling', 'driving', 'overrun', 'ready']) {
    await cell(state).click();
    await expect(cell(state)).toContainText('live');
  }
  await page.getByRole('button', { name: 'Dead in all the rest' }).click();
  await expect(row.locator('.verdict b')).toHaveText('May serve, once read here');
  await page.getByRole('button', { name: 'Was read here under load' }).click();
  await expect(row.locator('.verdict b')).toHaveText('May serve');
  expect(seen.errors).toEqual([]);
});

test('a reading is typed where it stands, a wrong one refused in words', async ({ page, server, seen }) => {
  await page.goto(`${server.url}#/new/survey`);
  const cell = page.getByRole('button', { name: /^Posts, idling/ });
  await cell.click();
  const field = page.getByRole('textbox', { name: 'Posts, idling' });
  await field.fill('13.9');
  await field.press('Enter');
  await expect(page.locator('.value-cell .mend')).toBeVisible();
  await field.fill('13.9 V');
  await field.press('Enter');
  await expect(page.getByRole('textbox', { name: 'Posts, driving' })).toBeFocused();
  await expect(page.getByRole('button', { name: 'Posts, idling: 13.9 V', exact: true })).toBeVisible();
  expect(seen.errors).toEqual([]);
});

test('places and ways are changes on the document', async ({ page, server, seen }) => {
  await page.goto(`${server.url}#/new/survey`);
  await page.getByRole('button', { name: 'Places and ways' }).click();
  await page.getByLabel('A further place').fill('Roof box');
  await page.getByLabel('A further place').press('Enter');
  await expect(page.locator('.places-table').first()).toContainText('roof-box');
  await page.getByLabel('A further way, from').selectOption('dash');
  await page.locator('.add-line select').nth(1).selectOption('roof-box');
  await page.getByLabel('Length', { exact: true }).fill('2.5 m');
  await page.getByLabel('Length', { exact: true }).press('Enter');
  await expect(page.locator('.places-table').nth(1).locator('tbody tr')).toHaveCount(3);
  await page.keyboard.press('Escape');
  expect(seen.errors).toEqual([]);
});
