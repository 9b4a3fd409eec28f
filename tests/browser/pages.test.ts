import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { row } from './sheet-page.ts';
import { drop, notice } from './shelf-page.ts';
import { openApp, runAxe } from './support.ts';

const fieldfare = readFileSync(join(import.meta.dirname, '../data/fieldfare.ellwand.json'), 'utf8');

/** Goes to a page by the list, wherever that is. */
async function go(page: Page, name: string): Promise<void> {
  const button = page.locator('.nav-button');
  if (await button.isVisible()) await button.click();
  await page.locator('.nav').getByRole('button', { name, exact: true }).click();
  await page.locator('.page h2').first().waitFor();
}

/** What is wrong with the page as it stands: nothing lies outside it, and all that is touched is large enough. */
async function check(page: Page, part: string): Promise<void> {
  await runAxe(page);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'sideways').toBe(
    true,
  );
  if ((page.viewportSize()?.width ?? 0) > 400) return;
  const small = await page
    .locator(`${part} button:visible`)
    .evaluateAll((all) =>
      all.filter((one) => one.getBoundingClientRect().height < 43.5).map((one) => one.textContent),
    );
  expect(small, 'too small for a thumb').toEqual([]);
}

for (const [name, width, height] of [
  ['on a phone', 390, 844],
  ['at 200 % zoom', 720, 450],
] as const) {
  test(`the shelf, a visitor, versions and comparing, in the dark, ${name}`, async () => {
    const page = await openApp({ dark: true, width, height, touch: width < 400 });
    await row(page, 'stitch gauge').waitFor();
    await drop(page, 'Ada.ellwand.json', fieldfare);
    await page.locator('.visitor').waitFor();
    await check(page, '.visitor');
    await page.getByRole('button', { name: 'Keep a copy' }).click();
    await expect.poll(() => page.locator('.visitor').count()).toBe(0);
    await go(page, 'Versions');
    await page.getByRole('textbox', { name: /Keep it as it is now/ }).fill('before I ripped back');
    await page.getByRole('button', { name: 'Keep a version' }).click();
    await page.locator('.version').waitFor();
    await check(page, '.page');
    await drop(page, 'Ada.ellwand.json', fieldfare.replace('37 in', '38 in').replace('9 in *', '10 in *'));
    await page.getByRole('button', { name: 'Compare the two' }).click();
    await page.getByText('2 things differ').waitFor();
    await check(page, '.page');
    await page.getByRole('button', { name: 'Take it (chest' }).click();
    await notice(page, 'Taken over').waitFor();
    await check(page, '.app-notice');
    await go(page, 'All notebooks');
    await page.locator('.beginning').nth(8).waitFor();
    await check(page, '.page');
  });
}
