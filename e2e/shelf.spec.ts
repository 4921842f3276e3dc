import { crc32, deflateSync } from 'node:zlib';
import { answered, DESK, expect, saved, test } from './support/test.ts';
import { fact } from './support/six.ts';

test.use(DESK);

test('sizes put on the shelf serve the next build', async ({ page, server, seen }) => {
  await page.goto(server.url);
  await fact(page, 'Sizes in stock').click();
  await page.locator('.typed input').fill('16 25 50 mm2');
  await page.locator('.typed input').press('Enter');
  await expect(fact(page, 'Sizes in stock').locator('.value')).toHaveText('16 25 50 mm²');
  await saved(page);
  await page.locator('.cell.build').click();
  const margin = page.getByRole('complementary', { name: 'Margin' });
  await margin.getByRole('button', { name: 'These sizes' }).click();
  const use = margin.getByRole('button', { name: 'Use here Sizes in stock' });
  await expect(use).toBeVisible();
  await margin.getByRole('button', { name: 'New build', exact: true }).first().click();
  await expect(fact(page, 'Sizes in stock').locator('.value')).toHaveText('don’t know');
  await page.locator('.cell.build').click();
  await use.click();
  await expect(fact(page, 'Sizes in stock').locator('.value')).toHaveText('16 25 50 mm²');
  expect(seen.errors).toEqual([]);
});

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

/** A grey PNG of 2 x 2 pixels (PNG specification, third edition: signature, IHDR, IDAT, IEND). */
function png(): Buffer {
  const head = Buffer.from([0, 0, 0, 2, 0, 0, 0, 2, 8, 0, 0, 0, 0]);
  const rows = deflateSync(Buffer.from([0, 90, 180, 0, 180, 90]));
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([signature, chunk('IHDR', head), chunk('IDAT', rows), chunk('IEND', Buffer.alloc(0))]);
}

test('a photo is kept on a place; what is no photo is refused in words', async ({ page, server, seen }) => {
  await page.goto(server.url);
  await answered(page);
  await fact(page, 'Way back').click();
  await page.locator('.choice', { hasText: 'a cable' }).click();
  await saved(page);
  await page.keyboard.press('Escape');
  await page.keyboard.press('2');
  await page.getByRole('button', { name: 'Photos' }).click();
  const file = page.locator('input[type=file]');
  await file.setInputFiles({
    name: 'script.png',
    mimeType: 'image/png',
    buffer: Buffer.from('<script>alert(1)</script>'),
  });
  await page.getByRole('button', { name: 'Add', exact: true }).click();
  await expect(page.locator('.add-line .mend')).toBeVisible();
  seen.errors.length = 0; // The browser notes the refusal; it stands on the screen.
  await file.setInputFiles({ name: 'fuse.png', mimeType: 'image/png', buffer: png() });
  await page.getByLabel('Caption').fill('the fuse');
  await page.getByRole('button', { name: 'Add', exact: true }).click();
  await expect(page.getByRole('img', { name: 'the fuse' })).toBeVisible();
  await expect
    .poll(async () => await page.locator('.photos img').evaluate((img: HTMLImageElement) => img.naturalWidth))
    .toBe(2);
  expect(seen.errors).toEqual([]);
});
