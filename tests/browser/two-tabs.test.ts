import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { editorIsHere, numbers, openFieldfare, row, standOn } from './sheet-page.ts';
import { isSaved, mine, notice, write } from './shelf-page.ts';
import { runAxe } from './support.ts';

/** The notebook in two tabs, the first of which keeps it. */
async function inTwoTabs(): Promise<readonly [Page, Page]> {
  const one = await openFieldfare();
  await isSaved(one);
  const two = await one.context().newPage();
  await two.goto(one.url());
  await row(two, 'stitch gauge').waitFor();
  await Promise.all([editorIsHere(one), editorIsHere(two)]);
  return [one, two];
}

const type = async (page: Page, name: string, text: string) => {
  await standOn(page, name);
  await write(page, text);
};

test('two tabs on one notebook: each sees the other, undo takes back one’s own, and whoever goes leaves nothing behind', async () => {
  const [one, two] = await inTwoTabs();
  await two.locator('.saved', { hasText: 'open in another tab too' }).waitFor();
  await type(one, 'chest', '39 in');
  await type(two, 'row gauge', '30 row / 4 in');
  await expect.poll(() => numbers(two, 'chest')).toEqual(['39']);
  await expect.poll(() => numbers(one, 'row gauge')).toEqual(['30']);
  // Each its own.
  await one.locator('.header .undo').click();
  await expect.poll(() => numbers(two, 'chest')).toEqual(['37']);
  expect(await numbers(two, 'row gauge')).toEqual(['30']);
  await two.locator('.header .undo').click();
  await expect.poll(() => numbers(one, 'row gauge')).toEqual(['29']);
  await one.locator('.header .redo').click();
  await expect.poll(() => numbers(two, 'chest')).toEqual(['39']);
  // The tab that keeps it is closed: the other goes on, and keeps.
  await one.close();
  await type(two, 'chest', '41 in');
  await isSaved(two);
  await two.reload();
  await row(two, 'chest').waitFor();
  expect(await numbers(two, 'chest')).toEqual(['41']);
});

test('of two edits of one cell the later wins; the earlier is told, and comes back when asked', async () => {
  const [one, two] = await inTwoTabs();
  for (const page of [one, two]) {
    await standOn(page, 'stitch gauge');
    await page.keyboard.press('Enter');
    await page.locator('.editor .cm-content').waitFor();
    await page.keyboard.press('ControlOrMeta+a');
  }
  await one.keyboard.type('20 st / 4 in');
  await two.keyboard.type('18 st / 4 in');
  await Promise.all([one.keyboard.press('Enter'), two.keyboard.press('Enter')]);
  const told = [one, two].map((page) => notice(page, 'Another tab changed the same thing'));
  await expect.poll(async () => (await Promise.all(told.map((one) => one.count()))).join()).toMatch(/1/);
  const loser = (await told[0]?.count()) === 1 ? one : two;
  const winner = loser === one ? two : one;
  const [lost, won] = loser === one ? ['20', '18'] : ['18', '20'];
  for (const page of [one, two]) await expect.poll(() => numbers(page, 'stitch gauge')).toEqual([won]);
  const words = notice(loser, 'Another tab changed the same thing');
  expect(await words.textContent()).toContain('stitch gauge');
  await runAxe(loser);
  await words.getByRole('button', { name: 'Put mine back' }).click();
  for (const page of [one, two]) await expect.poll(() => numbers(page, 'stitch gauge')).toEqual([lost]);
  expect(await notice(winner, 'Another tab changed the same thing').count()).toBe(0);
});

test('a storm of nudges in two tabs: both end equal, and what is kept is what they show', async () => {
  const [one, two] = await inTwoTabs();
  for (const page of [one, two]) await standOn(page, 'chest');
  const cells = ['stitch gauge', 'row gauge', 'chest', 'ease wanted'];
  const storm = async (page: Page, from: number) => {
    for (let i = 0; i < 6; i += 1) {
      const name = cells[(i + from) % cells.length] ?? '';
      await standOn(page, name);
      for (const key of ['+', '+', '-', '+']) await page.keyboard.press(key);
      await page.getByRole('button', { name: 'Keep it' }).click();
    }
  };
  await Promise.all([storm(one, 0), storm(two, 2)]);
  const all = async (page: Page) => (await Promise.all(cells.map((name) => numbers(page, name)))).flat();
  await expect.poll(async () => String(await all(one))).toBe(String(await all(two)));
  for (const page of [one, two]) await isSaved(page);
  const shown = await all(one);
  await one.close();
  await two.reload();
  await row(two, 'chest').waitFor();
  expect(await all(two)).toEqual(shown);
});

test('what one tab does with the shelf the other shows', async () => {
  const [one, two] = await inTwoTabs();
  await one.locator('h1').getByRole('button').click();
  await one.keyboard.type('For Wren');
  await one.keyboard.press('Enter');
  await expect.poll(() => mine(two)).toContain('For Wren');
  await two.locator('h1', { hasText: 'For Wren' }).waitFor();
  await one.getByRole('button', { name: 'what to do with For Wren' }).click();
  await one.getByRole('menuitem', { name: 'delete' }).click();
  await notice(two, '“For Wren” is deleted').getByRole('button', { name: 'Put it back' }).click();
  await expect.poll(() => mine(one)).toContain('For Wren');
});
