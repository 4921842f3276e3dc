import { example, judged, openBuild } from './support/build-file.ts';
import { DESK, expect, PHONE, test, type Page } from './support/test.ts';

const margin = (page: Page) => page.getByRole('complementary', { name: 'Margin' });
const tools = (page: Page, name: string) =>
  page.locator('.wiring-tools').getByRole('button', { name, exact: true });
const part = (page: Page, id: string) => page.locator(`.drawing-ink g[data-part="${id}"]`);
const wire = (page: Page, id: string) => page.locator(`.drawing-ink g[data-wire="${id}"]`);

/** The feed fuse is too small for what the charger takes: one danger or fault with a remedy. */
const SMALL_FUSE = example('beekeepers-van').replace('rating: 80 A, interrupts', 'rating: 50 A, interrupts');

test.describe('at the desk', () => {
  test.use(DESK);

  test('the remedy of a finding: before and after, made, said, taken back', async ({
    page,
    server,
    seen,
  }) => {
    await openBuild(page, server, SMALL_FUSE, 'wiring');
    const row = margin(page).locator('.finding-row').filter({ hasText: 'F1' }).first();
    const title = await row.locator('.finding-rule').innerText();
    await row.click();
    // The finding shows on the drawing.
    await expect(page.locator('.drawing-ink .picked').first()).toBeVisible();
    const remedy = margin(page).locator('.remedy').first();
    await expect(remedy.getByRole('columnheader', { name: 'now' })).toBeVisible();
    await expect(remedy.locator('tbody tr').last()).toContainText('nothing new');
    await remedy.getByRole('button', { name: 'Make this change' }).click();
    await judged(page);
    await expect(page.locator('.said')).toContainText('Gone:');
    await expect(page.locator('.said')).toContainText(title.toLowerCase().slice(0, 20));
    await expect(
      margin(page)
        .locator('.finding')
        .filter({ hasText: title })
        .filter({ hasText: /(danger|fault), / }),
    ).toHaveCount(0);
    await page.locator('.said').getByRole('button', { name: /Undo/ }).click();
    await judged(page);
    await expect(margin(page).locator('.finding-rule').filter({ hasText: title }).first()).toBeVisible();
    expect(seen.errors).toEqual([]);
  });

  test('text and drawing edited in turn', async ({ page, server, seen }) => {
    await openBuild(page, server, example('beekeepers-van'), 'wiring');
    // Drawing to text: the slip changes the rating, the text has it.
    await tools(page, 'Sheet').click();
    await part(page, 'feed-fuse').click();
    await page.getByRole('button', { name: /^rating: 80 A/ }).click();
    await page.getByLabel('Rating', { exact: true }).fill('90 A');
    await page.keyboard.press('Enter');
    await expect(part(page, 'feed-fuse')).toContainText('90 A');
    await tools(page, 'Text').click();
    const text = page.getByRole('textbox', { name: 'Text of the build' });
    await expect(text).toHaveValue(/feed-fuse: .*rating: 90 A/);
    // Text to drawing: another rating typed there.
    await text.fill((await text.inputValue()).replace('rating: 90 A', 'rating: 100 A'));
    await tools(page, 'Drawing').click();
    await expect(part(page, 'feed-fuse')).toContainText('100 A');
    // An error stands at its line; the drawing keeps what could be read.
    await tools(page, 'Text').click();
    const broken = (await text.inputValue()).replace('rating: 100 A', 'rating: 100');
    await text.fill(broken);
    const line = broken.split('\n').findIndex((each) => each.includes('feed-fuse: ')) + 1;
    const errors = page.locator('.text-errors');
    await expect(errors).toContainText(`Line ${line}, column`);
    await expect(page.locator('.text-lines .bad')).toHaveText(String(line));
    await tools(page, 'Drawing').click();
    await expect(part(page, 'feed-fuse')).toContainText('100 A');
    await page.getByRole('button', { name: /^Undo/ }).first().click();
    await page.getByRole('button', { name: /^Undo/ }).first().click();
    await page.getByRole('button', { name: /^Undo/ }).first().click();
    await expect(part(page, 'feed-fuse')).toContainText('80 A');
    expect(seen.errors).toEqual([]);
  });

  test('completion offers what the schema and the build know', async ({ page, server, seen }) => {
    await openBuild(page, server, example('beekeepers-van'), 'wiring');
    await tools(page, 'Text').click();
    const text = page.getByRole('textbox', { name: 'Text of the build' });
    const caretAfter = async (find: string): Promise<void> => {
      await text.evaluate((area: HTMLTextAreaElement, wanted: string) => {
        const at = area.value.indexOf(wanted) + wanted.length;
        area.focus();
        area.setSelectionRange(at, at);
      }, find);
    };
    await caretAfter('isolator:        { kind: isolator, at: ');
    await page.keyboard.press('Control+Space');
    const list = page.getByRole('listbox', { name: 'Completions' });
    await expect(list.getByRole('option')).toHaveText([/bonnet/, /footwell/, /bulkhead/, /locker/]);
    await page.keyboard.press('Escape');
    await caretAfter('isolator:        { kind: isolator, at: bulkhead, rating: 150 A');
    await page.keyboard.type(', cra');
    await page.keyboard.press('Control+Space');
    await expect(list.getByRole('option').first()).toContainText('cranking');
    await page.keyboard.press('Enter');
    await page.keyboard.type('400 A');
    await expect(text).toHaveValue(/rating: 150 A, cranking: 400 A }/);
    await expect(page.locator('.text-errors')).toContainText('It reads.');
    await caretAfter('tap:      { from: isolator.in, to: ');
    await page.keyboard.press('Control+Space');
    await expect(list.getByRole('option').filter({ hasText: 'charger.in+' })).toHaveCount(1);
    expect(seen.errors).toEqual([]);
  });

  test('a part is added and wired by keys alone, changed, and taken away', async ({ page, server, seen }) => {
    await openBuild(page, server, example('beekeepers-van'), 'wiring');
    const press = async (...keys: readonly string[]): Promise<void> => {
      for (const key of keys) await page.keyboard.press(key);
    };
    const tabTo = async (name: RegExp): Promise<void> => {
      for (let i = 0; i < 120; i += 1) {
        const label = await page.evaluate(() => {
          const at = document.activeElement;
          return at?.getAttribute('aria-label') ?? at?.textContent ?? '';
        });
        if (name.test(label)) return;
        await page.keyboard.press('Tab');
      }
      throw new Error(`not reached by Tab: ${String(name)}`);
    };
    await tabTo(/^Add a part$/);
    await press('Enter');
    // Focus is in the form: the kind, the place, the name.
    await page.keyboard.type('load');
    await press('Tab');
    await page.keyboard.type('Locker');
    await press('Tab');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('lamp');
    await press('Enter');
    await expect(page.locator('.unwired')).toContainText('Lamp');
    // Two wires from the lists: part, terminal, part, terminal, size, each typed for.
    for (const ends of [
      ['house-fuse', 'load', 'lamp', '+'],
      ['lamp', '-', 'shunt', 'system'],
    ]) {
      await tabTo(/^Draw a wire$/);
      await press('Enter');
      for (const [i, word] of ends.entries()) {
        const select = page.locator('.slip-form select').nth(i);
        await expect(select).toBeFocused();
        await expect(select.locator(`option[value="${word}"]`)).toBeAttached();
        await page.keyboard.type(word);
        await expect(select).toHaveValue(word);
        await press('Tab');
      }
      await press('Enter');
      await expect(page.locator('.slip-head')).toContainText('W');
    }
    await expect(page.locator('.unwired')).toHaveCount(0);
    await expect(part(page, 'lamp')).toBeVisible();
    // Walked to on the drawing by arrows, opened by Enter.
    await page.locator('.drawing-ink [data-spot="lamp"]').focus();
    await press('Enter');
    await expect(page.locator('.slip-head')).toContainText('Lamp');
    await press('ArrowLeft');
    const there = await page.evaluate(
      () => (document.activeElement as SVGElement | null)?.dataset['spot'] ?? '',
    );
    expect(there).not.toBe('lamp');
    expect(there).not.toBe('');
    await page.getByRole('button', { name: /^Take away with 2 wires/ }).focus();
    await press('Enter');
    await expect(part(page, 'lamp')).toHaveCount(0);
    await press('Control+z');
    await expect(part(page, 'lamp')).toBeVisible();
    expect(seen.errors).toEqual([]);
  });

  test('the schedule under t: one row for each wire, with why it has its size', async ({
    page,
    server,
    seen,
  }) => {
    await openBuild(page, server, example('beekeepers-van'), 'wiring');
    await page.keyboard.press('t');
    const table = page.getByRole('table', { name: 'Conductor schedule' });
    await expect(table.locator('tbody tr')).toHaveCount(15);
    const feed = table.locator('tbody tr').nth(1);
    await expect(feed).toContainText('50 mm²');
    await expect(feed).toContainText('the next smaller size fails');
    await table.getByRole('button', { name: /^W3/ }).click();
    await page.keyboard.press('t');
    await expect(wire(page, 'feed-3')).toHaveClass(/picked/);
    await expect(margin(page)).toContainText('About W3');
    expect(seen.errors).toEqual([]);
  });

  test('sizes and lengths stand in the chosen units beside what was written', async ({
    page,
    server,
    seen,
  }) => {
    await openBuild(page, server, example('beekeepers-van'), 'wiring');
    await tools(page, 'Schedule').click();
    const first = page.locator('.schedule tbody tr').first();
    await expect(first).toContainText('mm²');
    await expect(first.locator('.beside')).toHaveCount(0);
    await page.getByRole('button', { name: /^Practice/ }).click();
    await margin(page).getByRole('button', { name: 'AWG, ft' }).click();
    await judged(page);
    await expect(first.locator('.beside').first()).toContainText('AWG');
    await expect(first.locator('.beside').last()).toHaveText(/(ft|in)$/);
    await expect(first).toContainText('mm²');
    expect(seen.errors).toEqual([]);
  });

  test('a finding is seen where it is worst', async ({ page, server, seen }) => {
    await openBuild(page, server, example('faulty-camper'), 'wiring');
    const row = margin(page)
      .locator('.finding')
      .filter({ hasText: 'No wire of the vehicle is fed from behind' });
    await row.locator('.finding-row').first().click();
    await expect(row).toContainText('worst in woken, charge-switch on, override on');
    await row.getByRole('button', { name: 'See it happen' }).click();
    await expect(page.locator('.hands-state b')).toHaveText('woken');
    const override = page.locator('.turnable').filter({ hasText: 'Override' });
    await expect(override.getByRole('button', { name: 'on', exact: true })).toHaveAttribute(
      'aria-pressed',
      'true',
    );
    expect(seen.errors).toEqual([]);
  });

  test('states show on the wires: filled, hollow, chevrons', async ({ page, server, seen }) => {
    await openBuild(page, server, example('beekeepers-van'), 'wiring');
    const state = page.getByRole('combobox', { name: 'State' });
    await state.selectOption('driving');
    await expect(wire(page, 'feed-3').locator('.chevrons')).toHaveCount(1);
    await expect(wire(page, 'enable').locator('.core')).toHaveCount(0);
    await state.selectOption('parked');
    await expect(wire(page, 'feed-3').locator('.chevrons')).toHaveCount(0);
    await expect(wire(page, 'enable').locator('.core')).toHaveCount(1);
    expect(seen.errors).toEqual([]);
  });
});

test.describe('on the phone', () => {
  test.use(PHONE);

  test('one place at a time, its list, a small edit', async ({ page, server, seen }) => {
    await openBuild(page, server, example('beekeepers-van'), 'wiring');
    const step = page.locator('.place-step');
    await expect(step).toContainText('Place 1 of 4');
    await expect(step).toContainText('Under the bonnet');
    await page.getByRole('button', { name: 'Place after' }).click();
    await page.getByRole('button', { name: 'Place after' }).click();
    await expect(step).toContainText('Load bulkhead');
    const list = page.locator('.phone-list');
    await expect(list.locator('.thing').first()).toContainText('Q1');
    await list.locator('.thing').first().click();
    await page.getByRole('button', { name: /^rating: 150 A/ }).click();
    await page.getByLabel('Rating', { exact: true }).fill('200 A');
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    await expect(page.getByRole('button', { name: /^rating: 200 A/ })).toBeVisible();
    const wide = await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);
    expect(wide).toBe(true);
    expect(seen.errors).toEqual([]);
  });
});
