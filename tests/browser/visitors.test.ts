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
