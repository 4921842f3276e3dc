/** Puts a build on the server and opens it on a sheet. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { randomUUID } from 'node:crypto';
import { root } from './build.ts';
import type { Server } from './server.ts';
import { expect, type Page } from './test.ts';

/** The text of an example. */
export const example = (name: string): string => readFileSync(join(root, 'examples', `${name}.yaml`), 'utf8');

export async function openBuild(
  page: Page,
  server: Server,
  text: string,
  sheet: 'wiring' | 'try-it',
): Promise<void> {
  const answer = await fetch(new URL('api/builds', server.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ saveId: randomUUID(), text }),
  });
  const { build } = (await answer.json()) as { build: { id: string } };
  await page.goto(`${server.url}#/${build.id}/${sheet}`);
  await expect(page.locator('.drawing-ink svg')).toBeVisible();
  await judged(page);
}

/** Waits until the newest text is judged. */
export async function judged(page: Page): Promise<void> {
  await expect(page.locator('.cell.tally .caption').first()).toHaveText('Findings');
  await expect(page.locator('.cell.tally .value').first()).not.toHaveText('none yet');
}
