import { chromium, type Page } from 'playwright-core';
import { expect, onTestFinished, test } from 'vitest';
import { findBrowser, launchOptions } from './find-browser.ts';
import { row } from './sheet-page.ts';
import { appUrl, nextFrame } from './support.ts';

/** The app in a browser whose letters are set twice as large as usual, the window as it was: WCAG 2.2, 1.4.4. */
async function openWithLargeLetters(width: number, height: number): Promise<Page> {
  const options = launchOptions(await findBrowser());
  const args = [...(options.args ?? []), '--blink-settings=defaultFontSize=32'];
  const browser = await chromium.launch({ ...options, args });
  onTestFinished(() => browser.close());
  const page = await browser.newPage({ viewport: { width, height }, reducedMotion: 'reduce' });
  await page.goto(appUrl());
  await row(page, 'stitch gauge').locator('.step').first().waitFor();
  return page;
}

/** The words of the visible elements that a selector names and that are cut off by the window. */
function cutOff(page: Page, selector: string): Promise<readonly string[]> {
  return page.locator(`:is(${selector}):visible`).evaluateAll((all) =>
    all
      .filter((one) => {
        const { left, right } = one.getBoundingClientRect();
        return left < 0 || right > innerWidth || (one as HTMLElement).offsetWidth < 40;
      })
      .map((one) => one.textContent),
  );
}

const isWhole = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);

test('with letters twice as large every button and column is in sight, and the drawings’ letters are larger too', async () => {
  const page = await openWithLargeLetters(1440, 900);
  expect(await isWhole(page)).toBe(true);
  expect(await cutOff(page, '.header button, .head.v, .heads .how')).toEqual([]);
  const title = await page.locator('.title').boundingBox();
  expect(title?.width).toBeGreaterThan(200);
  await page.getByRole('button', { name: 'Drawings', exact: true }).click();
  const label = page.locator('.drawing-text').first();
  await label.waitFor();
  await expect.poll(async () => (await label.boundingBox())?.height).toBeGreaterThan(28);
});

test('where the letters grow and the page is not told, the head goes on in a second line', async () => {
  const page = await openWithLargeLetters(2880, 900);
  await page.setViewportSize({ width: 2500, height: 900 });
  await page.evaluate(() => document.documentElement.style.setProperty('font-size', '52px'));
  await nextFrame(page);
  expect(await isWhole(page)).toBe(true);
  expect(await cutOff(page, '.header button')).toEqual([]);
});

test('on a phone with letters twice as large the hint leaves room for the sheet, and the tabs have large letters', async () => {
  const page = await openWithLargeLetters(390, 844);
  expect(await isWhole(page)).toBe(true);
  expect(await cutOff(page, '.header button, .phone-tabs button')).toEqual([]);
  const hint = await page.locator('.hint').boundingBox();
  expect(hint?.height).toBeLessThan(844 / 5);
  const letters = page.locator('.phone-tabs button').first();
  expect(await letters.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize))).toBeGreaterThan(
    24,
  );
});
