import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { row } from './sheet-page.ts';
import { drop, fieldfare, notice } from './shelf-page.ts';
import { nextFrame, openApp, runAxe } from './support.ts';

/** Goes to a page by the list, wherever that is. */
async function go(page: Page, name: string): Promise<void> {
  const button = page.locator('.nav-button');
  if (await button.isVisible()) await button.click();
  await page.locator('.nav').getByRole('button', { name, exact: true }).click();
  await page.locator('.page h2').first().waitFor();
}

const PHONE = { width: 390, height: 844 };
/** A window of 1440 by 900 pixels, magnified to 200 %. */
const MAGNIFIED = { width: 720, height: 450 };

/** Nothing lies outside the page, on a phone or magnified; what is touched is large enough for a thumb; axe finds nothing. */
async function check(page: Page, part: string): Promise<void> {
  const isWhole = () => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);
  await page.setViewportSize(MAGNIFIED);
  await nextFrame(page);
  expect(await isWhole(), 'magnified').toBe(true);
  await page.setViewportSize(PHONE);
  await nextFrame(page);
  expect(await isWhole(), 'on a phone').toBe(true);
  await runAxe(page);
  const small = await page
    .locator(`${part} button:visible`)
    .evaluateAll((all) =>
      all.filter((one) => one.getBoundingClientRect().height < 43.5).map((one) => one.textContent),
    );
  expect(small, 'too small for a thumb').toEqual([]);
}

test('the shelf, a visitor, versions and comparing: in the dark, on a phone, and magnified', async () => {
  const page = await openApp({ dark: true, ...PHONE, touch: true });
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
