/** The test of this project: a server and a page; nothing may go to another host, nothing may stand in the console. */
import { expect, test as base, type BrowserContext, type Page } from '@playwright/test';
import { Server } from './server.ts';

export const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const;
export const DESK = { viewport: { width: 1440, height: 900 } } as const;

export interface Watch {
  readonly errors: string[];
  readonly elsewhere: string[];
  /** What the console says of a server that was killed on purpose is expected. */
  serverGoes: boolean;
}

/** Notes everything that must not happen. */
export function watch(context: BrowserContext, allowed: RegExp): Watch {
  const seen: Watch = { errors: [], elsewhere: [], serverGoes: false };
  context.on('request', (request) => {
    if (!allowed.test(request.url())) seen.elsewhere.push(request.url().slice(0, 200));
  });
  context.on('console', (message) => {
    if (message.type() !== 'error') return;
    const unreachable = /ERR_CONNECTION|ERR_EMPTY_RESPONSE|ERR_INCOMPLETE_CHUNKED|ERR_FAILED|net::/.test(
      message.text(),
    );
    // A refused save (409) is answered on the screen; the browser notes every such answer.
    const refused = /status of 409|status of 404/.test(message.text());
    if (!(seen.serverGoes && unreachable) && !refused) seen.errors.push(message.text());
  });
  context.on('weberror', (error) => seen.errors.push(String(error.error())));
  return seen;
}

interface Fixtures {
  readonly server: Server;
  readonly seen: Watch;
}

export const test = base.extend<Fixtures>({
  // oxlint-disable-next-line no-empty-pattern -- the framework wants the pattern
  server: async ({}, use) => {
    const server = new Server();
    await server.start();
    await use(server);
    await server.end();
  },
  seen: async ({ context, server }, use) => {
    const seen = watch(context, new RegExp(`^(?:${server.url.replace(/[.]/g, '\\.')}|blob:|data:)`));
    await use(seen);
    expect(seen.elsewhere, 'requests to another host').toEqual([]);
    expect(seen.errors, 'errors in the console').toEqual([]);
  },
});

export { expect, type Page };

/** Waits until the newest text is judged and its first answer stands. */
export async function answered(page: Page): Promise<void> {
  await expect(page.locator('.answer-rows li').first().locator('.value')).not.toHaveText('');
  await expect(page.locator('.judging')).toHaveCount(0);
}

/** Waits until everything is safe on the disk. */
export async function saved(page: Page): Promise<void> {
  await expect(page.locator('.cell.saved .caption')).toHaveText('Saved here');
}

export const idOf = (page: Page): string => /#\/([a-z0-9-]+)\//.exec(page.url())?.[1] ?? '';
