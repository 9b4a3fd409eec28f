import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { numbers, row, standOn } from './sheet-page.ts';
import { begin, choose, chooseIn, drop, goTo, isSaved, mine, notice, saved, write } from './shelf-page.ts';
import { openApp, runAxe } from './support.ts';

const shelfList = (page: Page) => page.locator('.page .shelf-list').first();
const titles = (page: Page) =>
  shelfList(page)
    .locator('.shelf-words')
    .evaluateAll((all) => all.map((one) => one.firstChild?.textContent ?? ''));

/** Opens the app with two notebooks on the shelf, the second open. */
async function openTwo(): Promise<Page> {
  const page = await openApp();
  await row(page, 'stitch gauge').waitFor();
  await begin(page, 'Edge a shawl', 'Kittiwake shawl');
  return page;
}

test('the list of notebooks: made, renamed, copied, put away, deleted, each with a way back', async () => {
  const page = await openTwo();
  const shawl = 'Kittiwake shawl, the edging';
  await expect.poll(() => mine(page)).toEqual([shawl, 'Samphire pullover']);

  // The open one by its own title, taken back and done again.
  await page.locator('h1').getByRole('button').click();
  await page.keyboard.type('For Wren');
  await page.keyboard.press('Enter');
  await expect.poll(() => mine(page)).toEqual(['For Wren', 'Samphire pullover']);
  await page.keyboard.press('ControlOrMeta+z');
  await expect.poll(() => mine(page)).toEqual([shawl, 'Samphire pullover']);
  await page.keyboard.press('ControlOrMeta+y');
  await expect.poll(() => mine(page)).toEqual(['For Wren', 'Samphire pullover']);

  // One that is not open, by the list; undo takes it back once it is open.
  await choose(page, 'Samphire pullover', 'rename');
  await page.keyboard.type('For Jay');
  await page.keyboard.press('Enter');
  await expect.poll(() => mine(page)).toEqual(['For Wren', 'For Jay']);
  await page.locator('.nav').getByRole('button', { name: 'For Jay', exact: true }).click();
  await page.locator('h1', { hasText: 'For Jay' }).waitFor();
  expect(await page.locator('.header .undo').isEnabled()).toBe(true);

  // By its file.
  await page.locator('.header').getByRole('button', { name: 'File', exact: true }).click();
  const file = page.getByRole('textbox', { name: 'this notebook’s file' });
  await file.waitFor();
  const text = await page.evaluate(() => document.querySelector('.cm-content')?.textContent ?? '');
  expect(text).toContain('"For Jay"');
  await page.getByText('"For Jay"', { exact: true }).dblclick();
  await page.keyboard.type('Dunlin');
  await page.getByRole('button', { name: 'Keep the change' }).click();
  await expect.poll(async () => (await mine(page)).join()).toContain('Dunlin');
  const dunlin = (await mine(page))[1] ?? '';

  await choose(page, 'For Wren', 'make a copy');
  await expect.poll(() => mine(page)).toEqual(['For Wren (copy)', 'For Wren', dunlin]);

  // The open one put away: the next opens, and undo opens it again.
  await choose(page, dunlin, 'put it away');
  await page.locator('h1', { hasText: 'For Wren (copy)' }).waitFor();
  await expect.poll(() => mine(page)).toEqual(['For Wren (copy)', 'For Wren']);
  await notice(page, 'is put away').getByRole('button', { name: 'Undo' }).click();
  await page.locator('h1', { hasText: dunlin }).waitFor();
  await expect.poll(() => mine(page)).toEqual(['For Wren (copy)', 'For Wren', dunlin]);

  await choose(page, 'For Wren', 'delete');
  await expect.poll(() => mine(page)).toEqual(['For Wren (copy)', dunlin]);
  await notice(page, 'can be put back for a month').getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => mine(page)).toEqual(['For Wren (copy)', 'For Wren', dunlin]);
  await isSaved(page);
  await page.reload();
  await expect.poll(() => mine(page)).toEqual(['For Wren (copy)', 'For Wren', dunlin]);
});

test('the page of all notebooks, by the keyboard alone', async () => {
  const page = await openTwo();
  await goTo(page, 'All notebooks');
  await page.locator('.beginning').nth(8).waitFor();
  await runAxe(page);
  const shawl = page.locator('.shelf-entry', { hasText: 'Kittiwake' });
  const focus = () => page.evaluate(() => document.activeElement?.textContent ?? '');

  // Moved, with the keyboard staying on it.
  await shawl.locator('.shelf-words').focus();
  await page.keyboard.press('Alt+ArrowDown');
  await expect.poll(() => titles(page)).toEqual(['Samphire pullover', 'Kittiwake shawl, the edging']);
  await expect.poll(focus).toContain('Kittiwake');

  // Renamed, through its menu; then back on its line.
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.getByRole('menuitem', { name: 'rename' }).waitFor();
  await expect.poll(focus).toBe('rename');
  await page.keyboard.press('Enter');
  await page.getByRole('textbox', { name: /another title/ }).waitFor();
  await page.keyboard.type('Turnstone');
  await page.keyboard.press('Enter');
  await expect.poll(() => titles(page)).toEqual(['Samphire pullover', 'Turnstone']);
  await expect.poll(focus).toContain('Turnstone');

  // Put away, and taken out again.
  await chooseIn(shelfList(page), 'Samphire pullover', 'put it away');
  await expect.poll(() => titles(page)).toEqual(['Turnstone']);
  await page.locator('summary', { hasText: 'Put away (1)' }).focus();
  await page.keyboard.press('Enter');
  await runAxe(page);
  await chooseIn(page.locator('.folded'), 'Samphire pullover', 'take it out again');
  await expect.poll(() => titles(page)).toEqual(['Samphire pullover', 'Turnstone']);

  // Deleted, and put back from the page.
  await chooseIn(shelfList(page), 'Samphire pullover', 'delete');
  await page.locator('summary', { hasText: 'Deleted' }).click();
  await page.getByRole('button', { name: 'Put back Samphire pullover' }).click();
  await expect.poll(() => titles(page)).toEqual(['Samphire pullover', 'Turnstone']);
  await page.getByRole('button', { name: 'Back to the sheet' }).focus();
  await page.keyboard.press('Enter');
  await page.locator('[role=grid]').waitFor();
});

test('undo and redo reach back through a reload; ticks have an undo of their own, which does too', async () => {
  const page = await openApp();
  const gauge = row(page, 'stitch gauge');
  await gauge.waitFor();
  const now = () => numbers(page, 'stitch gauge');
  const was = await now();
  await standOn(page, 'stitch gauge');
  await write(page, '18 st / 4 in');
  await standOn(page, 'stitch gauge');
  await write(page, '17 st / 4 in');
  // The last step: before the first ones a warning comes and goes with the gauge.
  const step = page.locator('.aside').getByRole('checkbox').last();
  await step.check();
  await isSaved(page);
  await page.reload();
  await gauge.waitFor();
  await expect.poll(() => step.isChecked()).toBe(true);
  const undo = page.locator('.header .undo');
  await undo.click();
  await expect.poll(now).toEqual(['18']);
  expect(await step.isChecked()).toBe(true); // Undo of edits leaves the ticks alone.
  await page
    .locator('.aside')
    .getByRole('button', { name: /^Undo|take back/i })
    .first()
    .click();
  await expect.poll(() => step.isChecked()).toBe(false);
  await isSaved(page);
  await page.reload();
  await gauge.waitFor();
  expect(await step.isChecked()).toBe(false);
  await undo.click();
  await expect.poll(now).toEqual(was);
  expect(await undo.isDisabled()).toBe(true);
  await page.locator('.header .redo').click();
  await page.locator('.header .redo').click();
  await expect.poll(now).toEqual(['17']);
});

test('the whole shelf as one file, and back, merged by what is the same', async () => {
  const page = await openTwo();
  await goTo(page, 'All notebooks');
  const [name, text] = await saved(page, () =>
    page.getByRole('button', { name: 'Save all notebooks as a file' }).click(),
  );
  expect(name).toBe('all notebooks.ellwand-shelf.json');
  // One changed since, one deleted since.
  await chooseIn(shelfList(page), 'Kittiwake shawl, the edging', 'rename');
  await page.keyboard.type('Later');
  await page.keyboard.press('Enter');
  await expect.poll(() => titles(page)).toEqual(['Later', 'Samphire pullover']);
  await drop(page, name, text);
  const offer = notice(page, 'is a whole shelf with “Kittiwake shawl, the edging”, “Samphire pullover”');
  await offer.getByRole('button', { name: 'Take them in' }).click();
  await notice(
    page,
    'Taken in: 1 left as they are here, the file’s kept as a version; 1 the same already',
  ).waitFor();
  expect(await titles(page)).toEqual(['Later', 'Samphire pullover']);

  // Into an empty one.
  const other = await openApp();
  await row(other, 'stitch gauge').waitFor();
  await drop(other, name, text);
  await notice(other, 'is a whole shelf').getByRole('button', { name: 'Take them in' }).click();
  await notice(other, 'Taken in: 2 added').waitFor();
  await expect.poll(async () => (await mine(other)).length).toBe(3);

  // A later state comes in while the notebook is open: the sheet follows, and undo takes it back.
  await other
    .locator('.nav')
    .getByRole('button', { name: 'Kittiwake shawl, the edging', exact: true })
    .click();
  await other.locator('h1', { hasText: 'Kittiwake' }).waitFor();
  const [, later] = await saved(page, () =>
    page.getByRole('button', { name: 'Save all notebooks as a file' }).click(),
  );
  await drop(other, name, later);
  await notice(other, 'is a whole shelf').getByRole('button', { name: 'Take them in' }).click();
  await notice(other, 'brought up to date').waitFor();
  await other.locator('h1', { hasText: 'Later' }).waitFor();
  await other.locator('.header .undo').click();
  await other.locator('h1', { hasText: 'Kittiwake' }).waitFor();
});

test('what is begun after centimetres were chosen is in centimetres, a blank page too', async () => {
  const page = await openApp();
  await row(page, 'stitch gauge').waitFor();
  const units = page.locator('.header .unit-switch label');
  const isIn = (unit: string) => units.filter({ hasText: unit }).locator('input').isChecked();
  expect(await isIn('in')).toBe(true);
  await units.filter({ hasText: 'cm' }).click();
  await expect.poll(() => isIn('cm')).toBe(true);
  await isSaved(page);
  await begin(page, 'Edge a shawl', 'Kittiwake shawl');
  await expect.poll(() => isIn('cm')).toBe(true);
  await page.reload();
  await row(page, 'live stitches').waitFor();
  await units.filter({ hasText: 'in' }).click();
  await expect.poll(() => isIn('in')).toBe(true);
  await isSaved(page);
  await page.getByRole('button', { name: 'A blank page' }).click();
  await page.getByRole('textbox', { name: 'the name of your first cell' }).waitFor();
  expect(await isIn('in')).toBe(true);
});
