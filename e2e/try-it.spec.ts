import { openSession, printValue } from '../packages/engine/dist/index.js';
import { example, openBuild } from './support/build-file.ts';
import { DESK, expect, PHONE, test, type Page } from './support/test.ts';

const TEXT = example('beekeepers-van');

const hand = (page: Page, name: string, position: string) =>
  page
    .locator('.turnable')
    .filter({ has: page.locator('.caption', { hasText: name }) })
    .getByRole('button', { name: position, exact: true });
const reading = (page: Page, letter: string) =>
  page
    .locator('.probe-reading')
    .filter({ has: page.locator('.probe-letter', { hasText: letter }) })
    .locator('.probe-value');
const state = (page: Page) => page.locator('.hands-state b');

async function start(page: Page): Promise<void> {
  await hand(page, 'Key', 'on').click();
  await hand(page, 'Key', 'crank').click();
  await hand(page, 'Engine', 'idling').click();
}

async function layJoint(page: Page, milliohm: number): Promise<void> {
  await page.getByRole('button', { name: 'Add a trouble' }).click();
  await page.locator('.trouble-form select').nth(1).selectOption('feed-3@to');
  await page.getByRole('button', { name: 'Lay it on' }).click();
  await page.locator('.ohms input').fill(`${milliohm} mΩ`);
  await page.keyboard.press('Enter');
}

test.describe('at the desk', () => {
  test.use(DESK);

  test('shows what the engine computes, state by state', async ({ page, server, seen }) => {
    const session = openSession(TEXT);
    const { operation } = session.judge();
    const solvedIn = (id: 'driving' | 'parked') =>
      operation
        .solve(operation.condition(id, 'typical-quiet'))
        .find((s) => id === 'parked' || s.isOn('charger'));
    const driving = solvedIn('driving');
    const parked = solvedIn('parked');
    await openBuild(page, server, TEXT, 'try-it');
    await expect(reading(page, 'A')).toHaveText(
      printValue(parked?.volts('charger.in+', 'charger.in-') ?? null, 'V'),
    );
    await start(page);
    await hand(page, 'Engine', 'driving').click();
    await expect(state(page)).toHaveText('driving');
    await hand(page, 'Time', '× 60').click();
    await expect(page.locator('.happening h2')).toHaveText('It charges.');
    await expect(reading(page, 'A')).toHaveText(
      printValue(driving?.volts('charger.in+', 'charger.in-') ?? null, 'V'),
    );
    await expect(reading(page, 'B')).toHaveText(printValue(driving?.wireAmps('feed-3') ?? null, 'A'));
    // The owner's switch stops it.
    await hand(page, 'Hold switch', 'off').click();
    await expect(page.locator('.happening h2')).toHaveText('Nothing charges.');
    await hand(page, 'Key', 'off').click();
    await expect(state(page)).toHaveText('after-run');
    expect(seen.errors).toEqual([]);
  });

  test('a combination that is no state says so', async ({ page, server, seen }) => {
    await openBuild(page, server, TEXT, 'try-it');
    await hand(page, 'Engine', 'idling').click();
    await expect(state(page)).toHaveText('No such state: engine idling with the key off.');
    await hand(page, 'Key', 'on').click();
    await expect(state(page)).toHaveText('idling');
    expect(seen.errors).toEqual([]);
  });

  test('hunting is seen and explained: window, duty and period of the engine', async ({
    page,
    server,
    seen,
  }) => {
    const session = openSession(TEXT);
    session.judge();
    const live = session.live();
    const setting = {
      ...live.resting,
      state: 'idling' as const,
      troubles: [{ type: 'joint' as const, wire: 'feed-3', end: 'to' as const, ohms: 0.04 }],
    };
    const forecast = live.forecast(setting, live.start);
    const charger = forecast.cycling[0];
    const window = live
      .window(setting, live.start, 'charger')
      ?.spans.find((span) => span.outcome === 'cycle');
    if (charger === undefined || window === undefined) throw new Error('this one hunts');
    await openBuild(page, server, TEXT, 'try-it');
    await start(page);
    await layJoint(page, 40);
    const told = page.locator('.happening');
    await expect(told.locator('h2')).toHaveText('It hunts. It will not settle.');
    await expect(told).toContainText(
      `pulls the input of Charger to ${printValue(charger.inputOn, 'V')}, under its stop at 12.00`,
    );
    await expect(told).toContainText(
      `On ${printValue(charger.onMs, 'ms', true)}, off ${printValue(charger.offMs, 'ms', true)}`,
    );
    await expect(told).toContainText(`In the mean it gives ${printValue(charger.meanOut, 'A')}`);
    await expect(page.locator('.source')).toContainText(
      `It hunts from ${printValue(window.from, 'V')} to ${printValue(window.to, 'V')}.`,
    );
    await expect(page.locator('.drawing-over .tag')).toContainText('hunting');
    // Seen on the strip: sixty times as fast, the charger goes on and off and on again.
    await hand(page, 'Time', '× 60').click();
    await expect(page.locator('.events li')).toHaveCount(6);
    await hand(page, 'Time', 'hold').click();
    await expect(page.locator('.events')).toContainText('Charger on');
    // The slider takes the source over the window: it holds.
    const slider = page.locator('.source-slider input');
    await slider.fill(String(Math.ceil(window.to * 10) / 10 + 0.2));
    await hand(page, 'Time', '× 60').click();
    await expect(told.locator('h2')).toHaveText('It charges.');
    expect(seen.errors).toEqual([]);
  });

  test('a broken wire, a stuck contact and a pulled fuse are laid on and taken away', async ({
    page,
    server,
    seen,
  }) => {
    await openBuild(page, server, TEXT, 'try-it');
    await start(page);
    await hand(page, 'Time', '× 60').click();
    const title = page.locator('.happening h2');
    await expect(title).toHaveText('It charges.');
    const lay = async (sort: string, where: string): Promise<void> => {
      await page.getByRole('button', { name: 'Add a trouble' }).click();
      await page.locator('.trouble-form select').first().selectOption(sort);
      await page.locator('.trouble-form select').nth(1).selectOption(where);
      await page.getByRole('button', { name: 'Lay it on' }).click();
    };
    const away = () => page.locator('.trouble').getByRole('button', { name: 'Take away' }).first().click();
    for (const [sort, where] of [
      ['open-wire', 'enable'],
      ['stuck', 'run-relay@open'],
      ['pulled', 'feed-fuse'],
    ] as const) {
      await lay(sort, where);
      await expect(title).toHaveText('Nothing charges.');
      await away();
      await expect(title).toHaveText('It charges.');
    }
    // Stuck closed, it does not stop with the engine.
    await lay('stuck', 'run-relay@closed');
    await hand(page, 'Key', 'off').click();
    await hand(page, 'Vehicle', 'asleep').click();
    await expect(state(page)).toHaveText('parked');
    await expect(title).toHaveText('It charges.');
    expect(seen.errors).toEqual([]);
  });

  test('probes anywhere: needles pressed on the drawing, and a clamp from the list', async ({
    page,
    server,
    seen,
  }) => {
    const session = openSession(TEXT);
    const { operation } = session.judge();
    const driving = operation
      .solve(operation.condition('driving', 'typical-quiet'))
      .find((s) => s.isOn('charger'));
    await openBuild(page, server, TEXT, 'try-it');
    await start(page);
    await hand(page, 'Engine', 'driving').click();
    await hand(page, 'Time', '× 60').click();
    await expect(page.locator('.happening h2')).toHaveText('It charges.');
    await page.keyboard.press('p');
    await page.getByLabel('Plus needle').selectOption('feed-fuse.line');
    await page.getByLabel('Minus needle').selectOption('feed-fuse.load');
    await page.keyboard.press('Escape');
    const across = (driving?.volts('feed-fuse.line', 'feed-fuse.load') ?? 0) * 1000;
    await expect(reading(page, 'C')).toHaveText(new RegExp(`^${Math.round(across)}.mV$`));
    await page.keyboard.press('p');
    await page.getByRole('button', { name: 'Amperes' }).click();
    await page.getByLabel('Clamp round').selectOption('bank');
    await page.keyboard.press('Escape');
    await expect(reading(page, 'D')).toHaveText(printValue(driving?.wireAmps('bank') ?? null, 'A'));
    // Pressed in turn on the drawing.
    await page.locator('.wiring-tools').getByRole('button', { name: 'Part', exact: true }).click();
    await page.keyboard.press('p');
    const spots = page.locator('.drawing-over .terminal-spot');
    await expect(spots.first()).toBeAttached();
    for (const i of [0, 1]) {
      const box = await spots.nth(i).boundingBox();
      if (box === null) throw new Error('a spot has a place');
      await spots.nth(i).evaluate((element) => element.scrollIntoView({ block: 'center', inline: 'center' }));
      const now = await spots.nth(i).boundingBox();
      await page.mouse.click((now?.x ?? box.x) + box.width / 2, (now?.y ?? box.y) + box.height / 2);
    }
    await expect(reading(page, 'E')).toHaveText(/V$/);
    expect(seen.errors).toEqual([]);
  });

  test('is kept as a note in the build', async ({ page, server, seen }) => {
    await openBuild(page, server, TEXT, 'try-it');
    await start(page);
    await layJoint(page, 40);
    await expect(page.locator('.happening h2')).toHaveText('It hunts. It will not settle.');
    await page.locator('.happening h2').click();
    await page.keyboard.press('n');
    await expect(page.locator('.said')).toContainText('Kept as a note.');
    await page.keyboard.press('3');
    await page.locator('.wiring-tools').getByRole('button', { name: 'Text', exact: true }).click();
    await expect(page.getByRole('textbox', { name: 'Text of the build' })).toHaveValue(
      /notes: .*Tried \d{4}-\d\d-\d\d: idling.*It hunts/s,
    );
    await expect(page.locator('.text-errors')).toContainText('It reads.');
    expect(seen.errors).toEqual([]);
  });

  test('by keys alone', async ({ page, server, seen }) => {
    await openBuild(page, server, TEXT, 'try-it');
    await expect(state(page)).toHaveText('parked');
    await page.keyboard.press('k');
    await expect(state(page)).toHaveText('ignition on');
    await page.keyboard.press('k');
    await expect(state(page)).toHaveText('cranking');
    await page.keyboard.press('e');
    await expect(state(page)).toHaveText('idling');
    await page.keyboard.press('.');
    await expect(state(page)).toHaveText('driving');
    await page.keyboard.press('s');
    await expect(hand(page, 'Hold switch', 'off')).toHaveAttribute('aria-pressed', 'true');
    await page.keyboard.press(' ');
    await expect(hand(page, 'Time', 'hold')).toHaveAttribute('aria-pressed', 'true');
    expect(seen.errors).toEqual([]);
  });
});

test.describe('on the phone', () => {
  test.use(PHONE);

  test('hands are turned, words follow, nothing is wider than the screen', async ({ page, server, seen }) => {
    await openBuild(page, server, TEXT, 'try-it');
    await start(page);
    await expect(state(page)).toHaveText('idling');
    await expect(page.locator('.happening')).toContainText('Charger');
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    expect(seen.errors).toEqual([]);
  });
});
