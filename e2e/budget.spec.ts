import { answered, expect, PHONE, test } from './support/test.ts';

test.use({ ...PHONE, serviceWorkers: 'block' });

/** What the layout library and the engine weigh is theirs: they follow in workers, after the screen stands. */
const FOLLOWS = /elk-worker|\/worker-|\/desk-/;

test('the first load is under 250 kB compressed, fonts included, before the engine and the layout library', async ({
  page,
  server,
  seen,
}) => {
  const loaded: { readonly url: string; readonly bytes: number }[] = [];
  page.on('requestfinished', (request) => {
    void request
      .sizes()
      .then(({ responseBodySize }) => loaded.push({ url: request.url(), bytes: responseBodySize }));
  });
  await page.goto(server.url);
  await answered(page);
  const first = loaded.filter(({ url }) => !FOLLOWS.test(url));
  const sum = first.reduce((all, { bytes }) => all + bytes, 0);
  const fonts = first.filter(({ url }) => url.endsWith('.woff2')).reduce((all, { bytes }) => all + bytes, 0);
  console.log(`first load ${Math.round(sum / 1000)} kB, of it fonts ${Math.round(fonts / 1000)} kB`);
  expect(first.some(({ url }) => url.endsWith('.woff2'))).toBe(true);
  expect(sum).toBeLessThan(250_000);
  expect(seen.errors).toEqual([]);
});
