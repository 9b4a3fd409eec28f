// Getting where one wants to be: by Esc, by the link past the head, and with a thumb.
import { expect, test } from 'vitest';
import { numbers, openFieldfare, row, standOn, values } from './sheet-page.ts';
import { openApp } from './support.ts';

const PHONE = { width: 390, height: 844, touch: true };

test('Esc goes back on the one value that is tried, and the link past the head leads into the sheet', async () => {
  const page = await openApp();
  await row(page, 'stitch gauge').waitFor();
  const before = await numbers(page, 'stitch gauge');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.closest('[role=gridcell]'));
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('+');
  await page.locator('.trial-bar').waitFor();
  await page.keyboard.press('Escape');
  await page.locator('.trial-bar').waitFor({ state: 'detached' });
  expect(await numbers(page, 'stitch gauge')).toEqual(before);
});

test('of several that are tried Esc goes back on the one where she stands', async () => {
  const page = await openFieldfare();
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('+');
  await standOn(page, 'ease wanted');
  await page.keyboard.press('+');
  await standOn(page, 'neck');
  await page.keyboard.press('Escape');
  await standOn(page, 'ease wanted');
  expect(await numbers(page, 'ease wanted')).toEqual(['3¼']);
  await page.keyboard.press('Escape');
  await expect.poll(() => numbers(page, 'ease wanted')).toEqual(['3']);
  expect(await numbers(page, 'stitch gauge')).toEqual(['21½']);
});

test('with a thumb: the row that stands open is written in at the first touch, and your column’s name is in sight', async () => {
  const page = await openApp(PHONE);
  await values(page, 'stitch gauge').first().tap();
  await row(page, 'stitch gauge').locator('.editor').waitFor();
  await page.keyboard.press('Escape');
  await row(page, 'row gauge').locator('.n').tap(); // This one only opens.
  await row(page, 'row gauge')
    .getByRole('button', { name: /more|\+/ })
    .first()
    .waitFor();
  expect(await page.locator('.editor').count()).toBe(0);

  await page.locator('.nav-button').tap();
  await page.getByText('More to start from').tap();
  await page
    .getByRole('button', { name: /^Grow a shawl/ })
    .first()
    .tap();
  await row(page, 'planned rows').waitFor();
  const head = page.locator('.head.pick');
  await expect
    .poll(async () => {
      const box = await head.boundingBox();
      return box !== null && box.x >= 0 && box.x + box.width <= PHONE.width;
    })
    .toBe(true);
});
