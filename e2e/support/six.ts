/** Gives the six facts as a person would, and counts presses and typed values. */
import type { Locator } from '@playwright/test';
import { expect, type Page } from './test.ts';

export interface Effort {
  presses: number;
  typed: number;
}

/** The fact of that name. */
export const fact = (page: Page, name: string): Locator =>
  page.locator('.fact').filter({ has: page.locator('.caption').getByText(name, { exact: true }) });

export async function giveSix(page: Page): Promise<Effort> {
  const effort: Effort = { presses: 0, typed: 0 };
  const choose = async (label: string): Promise<void> => {
    effort.presses += 1;
    await page
      .locator('.choice')
      .filter({ has: page.getByText(label, { exact: true }) })
      .click();
  };
  const type = async (text: string): Promise<void> => {
    effort.typed += 1;
    const field = page.locator('.typed input');
    await field.fill(text);
    await field.press('Enter');
  };
  const stands = async (name: string, value: string): Promise<void> => {
    await expect(fact(page, name).locator('.value')).toHaveText(value);
  };
  effort.presses += 1;
  await fact(page, 'Feeds the 12/24 V net').click();
  await choose('alternator');
  await stands('Feeds the 12/24 V net', 'alternator');
  await choose('under the bonnet');
  await type('3.6 m');
  await stands('Vehicle battery, to charger', 'bonnet, 3.6 m');
  await choose('40 A');
  await stands('Charger', '40 A');
  await choose('LiFePO4');
  await choose('200 Ah');
  await stands('House battery', 'LiFePO4 200 Ah');
  await choose('a cable');
  await stands('Way back', 'a cable');
  await type('16 25 35 50 mm2');
  await stands('Sizes in stock', '16 25 35 50 mm²');
  return effort;
}
