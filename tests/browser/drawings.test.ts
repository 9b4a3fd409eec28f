// A drawing and the sheet find each other, in the built app on the notebook that opens first.
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { editor, editorIsHere, row, standOn } from './sheet-page.ts';
import { axeFaults, openApp } from './support.ts';

/** The name of the row that has the keyboard. */
const rowInHand = (page: Page) =>
  page.evaluate(() => document.activeElement?.closest('.row')?.querySelector('.name .nm')?.textContent ?? '');

test('a measurement focuses its cell, and the cell marks its measurement', async () => {
  const page = await openApp({ height: 1400 });
  const schematic = page.getByRole('group', { name: /pullover/i });
  const chest = schematic.getByRole('button', { name: /^chest .* around$/ });
  await chest.waitFor();
  await chest.click();
  await expect.poll(() => rowInHand(page)).toBe('chest you get');
  expect(await chest.getAttribute('aria-pressed')).toBe('true');
  const column = await page.evaluate(() => document.activeElement?.textContent ?? '');
  expect(await chest.getAttribute('aria-label')).toContain(column.replace(/\s.*$/, ''));

  await schematic.getByRole('button', { name: /^neck / }).focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => rowInHand(page)).toBe('neck you get');

  await standOn(page, 'body length you get');
  const picked = schematic.locator('[role="button"][aria-pressed="true"]');
  await expect.poll(() => picked.count()).toBe(1);
  expect(await picked.getAttribute('aria-label')).toMatch(/^body /);
  expect(await schematic.locator('.dimension.picked').count()).toBeGreaterThan(0);

  const caption = page.locator('figure', { has: schematic }).locator('figcaption');
  expect(await caption.textContent()).toContain('In dashes: your own chest, 40 in around.');
  expect(await axeFaults(page)).toEqual([]);

  await editorIsHere(page);
  await standOn(page, 'wrist');
  await page.keyboard.press('Enter');
  await editor(page).waitFor();
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Enter');
  await row(page, 'wrist').waitFor();
  const left = page.locator('.drawing-left-out');
  await expect.poll(() => left.allTextContents()).toEqual(['“wrist” is empty.']);
  expect(await chest.count()).toBe(1);
});

test('the calf of a sock is drawn for a long one, and a short one has no empty place for it', async () => {
  const page = await openApp({ height: 1400 });
  await page.locator('.nav').getByRole('button', { name: 'Fit a sock', exact: true }).click();
  await page.getByRole('group', { name: /shaping/i }).waitFor();
  const calf = page.getByRole('region', { name: 'The calf, round by round' });
  expect(await calf.count()).toBe(0);
  await page.locator('.head', { hasText: 'Imke' }).click();
  await calf.getByRole('group', { name: /shaping/i }).waitFor();
});
