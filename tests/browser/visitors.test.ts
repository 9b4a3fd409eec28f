import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { isRefused, readNotebook } from '../../src/notebook/index.ts';
import { linkTo } from '../../src/storage/index.ts';
import { editorIsHere, numbers, row, standOn } from './sheet-page.ts';
import { drop, fieldfare, isSaved, mine, notice, openKept, saved, write } from './shelf-page.ts';
import { openApp, runAxe } from './support.ts';

const visitor = (page: Page) => page.locator('.visitor');
const way = (page: Page, name: string) => visitor(page).getByRole('button', { name, exact: true });

/** Opens the app, its first notebook with a change of one's own that must come to no harm. */
async function openChanged(): Promise<Page> {
  const page = await openApp();
  await row(page, 'stitch gauge').waitFor();
  await editorIsHere(page);
  await standOn(page, 'chest');
  await write(page, '43 in');
  await isSaved(page);
  return page;
}

test('a stranger’s notebook is shown first, with what it works out and what is wrong in it, and kept when asked', async () => {
  const page = await openChanged();
  const strange = fieldfare.replace('whole(9 in * stitch_gauge)', 'whole(9 in * sttch_gauge)');
  await drop(page, 'Ada.ellwand.json', strange);
  await visitor(page).waitFor();
  const words = await visitor(page).innerText();
  expect(words).toContain('From Ada.ellwand.json: shown, not kept');
  expect(words).toContain('4 columns (size)');
  expect(words).toMatch(/It works out .*own count/);
  expect(words).toMatch(/\d cells? ha(s|ve) a problem|1 cell has a problem/);
  expect(await page.locator('h1').textContent()).toBe('Fieldfare pullover');
  expect(await row(page, 'cuff').locator('.problem, [class*=problem]').count()).toBeGreaterThan(0);
  await runAxe(page);
  // Nothing is kept of it, and nothing in it can be changed.
  expect(await mine(page)).toEqual(['Samphire pullover']);
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  expect(await numbers(page, 'stitch gauge')).toEqual(['21']);
  await way(page, 'Leave it').click();
  await row(page, 'size to follow').waitFor();
  expect(await numbers(page, 'chest')).toEqual(['43']);
  expect(await mine(page)).toEqual(['Samphire pullover']);

  await drop(page, 'Ada.ellwand.json', strange);
  await way(page, 'Keep a copy').click();
  await expect.poll(() => mine(page)).toEqual(['Fieldfare pullover', 'Samphire pullover']);
  await expect.poll(() => visitor(page).count()).toBe(0);
  await page.reload();
  await row(page, 'own count').waitFor();

  // The same again.
  await drop(page, 'Ada.ellwand.json', strange);
  await visitor(page).getByText('the two are the same').waitFor();
  await way(page, 'Open yours').click();
  await expect.poll(() => visitor(page).count()).toBe(0);

  // What is no notebook is one sentence, and the open one is left alone.
  await drop(page, 'stitches.png', '\u0089PNG no notebook');
  await notice(page, 'stitches.png').waitFor();
  expect(await page.locator('h1').textContent()).toBe('Fieldfare pullover');
});

test('a link is shown first and kept when asked; one that is cut says so, and the shelf opens', async () => {
  const read = readNotebook(fieldfare);
  if (isRefused(read)) throw new Error('must read');
  const link = await linkTo(read.notebook, {
    page: 'https://knitters.example/',
    findPrebuilt: () => Promise.resolve(undefined),
    withProgress: false,
  });
  if (isRefused(link)) throw new Error('must fit');
  const { hash } = new URL(link.address);
  const page = await openApp({ path: hash.slice(0, -9) });
  await row(page, 'stitch gauge').waitFor();
  expect(await page.locator('h1').textContent()).toBe('Samphire pullover');
  expect(await page.locator('.app-notice').textContent()).toContain('link');

  // Pasted into the address of a page that is open.
  await page.evaluate((fragment) => location.assign(fragment), hash);
  await visitor(page).getByText('From a link: shown, not kept').waitFor();
  expect(await mine(page)).toEqual(['Samphire pullover']);
  await way(page, 'Keep a copy').click();
  await expect.poll(() => mine(page)).toEqual(['Fieldfare pullover', 'Samphire pullover']);
  await expect.poll(() => visitor(page).count()).toBe(0);
  await page.reload(); // The address is the notebook's own by now.
  await row(page, 'own count').waitFor();
  expect(await visitor(page).count()).toBe(0);
});

test('a friend’s changes come back and are taken cell by cell', async () => {
  const page = await openKept();
  await page.locator('.header').getByRole('button', { name: 'Share', exact: true }).click();
  const [name, text] = await saved(page, () =>
    page.getByRole('button', { name: 'Save a file', exact: true }).click(),
  );
  expect(name).toBe('Fieldfare pullover.ellwand.json');

  // The friend keeps a copy, changes two numbers, adds one, takes one out, and sends it back.
  const friend = await openApp();
  await row(friend, 'stitch gauge').waitFor();
  await drop(friend, name, text);
  await way(friend, 'Keep a copy').click();
  await expect.poll(() => mine(friend)).toContain('Fieldfare pullover');
  await visitor(friend).waitFor({ state: 'detached' });
  await editorIsHere(friend);
  await standOn(friend, 'stitch gauge');
  await write(friend, '20 st / 4 in');
  await standOn(friend, 'ease wanted');
  await write(friend, '2 in');
  await standOn(friend, 'elbow');
  await friend.keyboard.press('Shift+F10');
  await friend.getByRole('menuitem', { name: 'take it away' }).click();
  await isSaved(friend);
  await friend.locator('.header').getByRole('button', { name: 'Share', exact: true }).click();
  const [, back] = await saved(friend, () =>
    friend.getByRole('button', { name: 'Save a file', exact: true }).click(),
  );

  await drop(page, 'from Ada.json', back);
  await visitor(page).getByText('You have this notebook: 3 things differ').waitFor();
  await way(page, 'Compare the two').click();
  await page.getByText('3 things differ').waitFor();
  await runAxe(page);
  await page.getByRole('button', { name: /Take it \(stitch gauge/ }).click();
  await page.getByText('2 things differ').waitFor();
  await page.getByRole('button', { name: /Delete it here too \(elbow/ }).click();
  await page.getByText('1 thing differs').waitFor();
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  expect(await numbers(page, 'stitch gauge')).toEqual(['20']);
  expect(await numbers(page, 'ease wanted')).toEqual(['3']);
  expect(await row(page, 'elbow').count()).toBe(0);
  // One change each.
  await page.locator('.header .undo').click();
  await row(page, 'elbow').waitFor();
  expect(await numbers(page, 'stitch gauge')).toEqual(['20']);
  await page.locator('.header .undo').click();
  await expect.poll(() => numbers(page, 'stitch gauge')).toEqual(['21']);
});

test('what is knitted stands in a saved file and is kept from it; a link leaves it out', async () => {
  const page = await openApp({ height: 1600 });
  const tick = (on: Page) => on.getByRole('checkbox', { name: 'step 1 done' });
  const count = (on: Page) => on.locator('.step-count span').first().innerText();
  await tick(page).check();
  const oneRow = page.getByRole('button', { name: /^one (row|round) done$/ }).first();
  await oneRow.click();
  await oneRow.click();
  await expect.poll(() => count(page)).toMatch(/\b2 of \d+/);
  const pins = (on: Page) => on.locator('.row .pin').count();
  await expect.poll(() => pins(page)).toBe(3);
  await isSaved(page);
  await page.locator('.header').getByRole('button', { name: 'Share', exact: true }).click();
  const along = (what: RegExp) => page.getByRole('checkbox', { name: what });
  expect(await along(/^the link takes along what is knitted so far/).isChecked()).toBe(false);
  expect(await along(/^the tool takes along what is knitted so far/).isChecked()).toBe(false);
  expect(await along(/^the file keeps what is knitted so far/).isChecked()).toBe(true);
  await runAxe(page);
  const saveFile = () => page.getByRole('button', { name: 'Save a file', exact: true }).click();
  const [name, text] = await saved(page, saveFile);
  await along(/^the file keeps/).uncheck();
  const [, bare] = await saved(page, saveFile);
  expect(JSON.parse(bare)).not.toHaveProperty('progress');

  const other = await openApp({ height: 1600 });
  await row(other, 'stitch gauge').waitFor();
  await drop(other, name, text);
  await visitor(other).waitFor();
  expect(await tick(other).isChecked()).toBe(true);
  await way(other, 'Keep a copy').click();
  await expect.poll(() => visitor(other).count()).toBe(0);
  await isSaved(other);
  await other.reload();
  await expect.poll(() => count(other)).toMatch(/\b2 of \d+/);
  expect(await tick(other).isChecked()).toBe(true);
  await expect.poll(() => pins(other)).toBe(3);

  // Her own stands on the shelf, and only the knitting differs.
  await tick(other).uncheck();
  await isSaved(other);
  await drop(other, name, text);
  await visitor(other)
    .getByText('You have this notebook; only what is knitted so far is another here.')
    .waitFor();
  await way(other, 'Keep it as a second notebook').click();
  await expect.poll(() => visitor(other).count()).toBe(0);
  await expect.poll(() => mine(other)).toContain('Samphire pullover 3');
  await expect.poll(() => tick(other).isChecked()).toBe(true);

  const friend = await openApp({ height: 1600 });
  await row(friend, 'stitch gauge').waitFor();
  await drop(friend, name, text);
  await way(friend, 'Keep it without what is knitted').click();
  await expect.poll(() => visitor(friend).count()).toBe(0);
  await tick(friend).waitFor();
  expect(await tick(friend).isChecked()).toBe(false);
});
