/** Parts and ends of wires dragged on the drawing: a place, an end, an order; the order is kept with the build. */
import { example, judged, openBuild } from './support/build-file.ts';
import { DESK, expect, idOf, saved, test, type Page } from './support/test.ts';

test.use(DESK);

const TEXT = example('river-survey-van');

const part = (page: Page, id: string) => page.locator(`.drawing-ink g[data-part="${id}"] :not(text)`).first();

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Where a part stands on the screen; null while the drawing is being put up. */
const seenAt = async (page: Page, id: string): Promise<Spot | null> =>
  await page.evaluate((wanted) => {
    const shape = document.querySelector(`.drawing-ink g[data-part="${wanted}"] :not(text)`);
    if (shape === null) return null;
    const { x, y, width, height } = shape.getBoundingClientRect();
    return { x: x + width / 2, y: y + height / 2 };
  }, id);

/** Where it stands once it stands still. */
async function middleOf(page: Page, id: string): Promise<Spot> {
  let last: Spot | null = null;
  await expect
    .poll(
      async () => {
        const now = await seenAt(page, id);
        const still = now !== null && last !== null && now.x === last.x && now.y === last.y;
        last = now;
        return still;
      },
      { intervals: [400] },
    )
    .toBe(true);
  return last ?? { x: 0, y: 0 };
}

async function drag(page: Page, from: Spot, to: Spot): Promise<void> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 4 });
  await page.mouse.move(to.x, to.y, { steps: 4 });
  await expect(page.locator('.dragged')).toBeVisible();
  await page.mouse.up();
}

const near = (spots: readonly Spot[], to: Spot): Spot =>
  spots.toSorted((a, b) => Math.hypot(a.x - to.x, a.y - to.y) - Math.hypot(b.x - to.x, b.y - to.y))[0] ?? to;

const textOf = async (page: Page, server: { get<T>(path: string): Promise<T> }): Promise<string> =>
  (await server.get<{ revision: { text: string } }>(`api/builds/${idOf(page)}`)).revision.text;

test('a part dragged above another one stands there, after a reload too; undo puts it back; the text is not touched', async ({
  page,
  server,
  seen,
}) => {
  await openBuild(page, server, TEXT, 'wiring');
  const before = await textOf(page, server);
  const loads = ['sonar', 'survey-computer'] as const;
  const [sonar, computer] = [await middleOf(page, 'sonar'), await middleOf(page, 'survey-computer')];
  const [first, second] = sonar.y < computer.y ? loads : ([loads[1], loads[0]] as const);
  const target = await middleOf(page, first);
  await drag(page, await middleOf(page, second), { x: target.x, y: target.y - 30 });
  await expect(page.locator('.said')).toContainText('is drawn above');
  const turned = async (): Promise<boolean> => {
    const [a, b] = [await seenAt(page, first), await seenAt(page, second)];
    return a !== null && b !== null && b.y < a.y;
  };
  await expect.poll(turned).toBe(true);
  await expect
    .poll(async () => await server.get(`api/builds/${idOf(page)}/drawing-order`))
    .toMatchObject({ order: { views: { all: { screen: { firm: true } } } } });
  await page.reload();
  await expect(page.locator('.drawing-ink svg')).toBeVisible();
  await expect.poll(turned).toBe(true);
  expect(await textOf(page, server)).toBe(before);
  await page.getByRole('button', { name: /^Undo/ }).first().click();
  await expect.poll(turned).toBe(false);
  // The same by pressing.
  await part(page, second).click({ force: true });
  await page.getByRole('button', { name: 'Higher' }).click();
  await expect(page.locator('.said')).toContainText('is drawn above');
  expect(seen.errors).toEqual([]);
});

test('a part dragged into another place stands there in the build; Escape lets go without a change', async ({
  page,
  server,
  seen,
}) => {
  await openBuild(page, server, TEXT, 'wiring');
  const from = await middleOf(page, 'sonar');
  const to = await middleOf(page, 'charger');
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(to.x, to.y, { steps: 6 });
  await expect(page.locator('.dragged')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.locator('.dragged')).toHaveCount(0);
  await page.mouse.up();
  expect(await textOf(page, server)).toBe(TEXT);
  await drag(page, from, { x: to.x, y: from.y });
  await expect(page.locator('.said')).toContainText('stands in');
  await saved(page);
  expect(await textOf(page, server)).not.toBe(TEXT);
  await judged(page);
  expect(seen.errors).toEqual([]);
});

test('an end of a wire is dragged onto another terminal', async ({ page, server, seen }) => {
  const text = example('faulty-camper');
  await openBuild(page, server, text, 'wiring');
  // The fridge's feed leaves the strip; it is taken there and let go on the battery's own positive post.
  const ends = async (wire: string): Promise<readonly Spot[]> =>
    await page.locator(`.drawing-ink g[data-wire="${wire}"] path.wire`).evaluate((path: SVGPathElement) => {
      const at = path.getScreenCTM();
      const spots = [path.getPointAtLength(0), path.getPointAtLength(path.getTotalLength())];
      return spots.map((spot) => {
        const on = spot.matrixTransform(at ?? undefined);
        return { x: on.x, y: on.y };
      });
    });
  const fridge = await ends('fridge-1');
  const house = await middleOf(page, 'house-battery');
  const strip = await middleOf(page, 'bank-strip');
  const bank = near(await ends('bank'), house);
  await drag(page, near(fridge, strip), bank);
  await expect(page.locator('.said')).toContainText('ends at house-battery.+ now');
  await saved(page);
  expect(await textOf(page, server)).toMatch(/fridge-1:.*house-battery\.\+/);
  expect(seen.errors).toEqual([]);
});
