import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { editorIsHere, keep, numbers, row, standOn } from './sheet-page.ts';
import { isSaved, mine, notice, openKept, write } from './shelf-page.ts';
import { runAxe } from './support.ts';

/** The notebook in two tabs, the first of which keeps it. */
async function inTwoTabs(): Promise<readonly [Page, Page]> {
  const one = await openKept();
  const two = await one.context().newPage();
  await two.addInitScript(letHold);
  await two.goto(one.url());
  await row(two, 'stitch gauge').waitFor();
  await Promise.all([editorIsHere(one), editorIsHere(two)]);
  return [one, two];
}

/** Runs in the page: lets what other tabs say be held back for a while. */
function letHold(): void {
  const { set } = Object.getOwnPropertyDescriptor(BroadcastChannel.prototype, 'onmessage') ?? {};
  const held: (() => void)[] = [];
  let isHeld = false;
  Object.defineProperty(BroadcastChannel.prototype, 'onmessage', {
    set(hear: (event: MessageEvent) => void) {
      set?.call(this, (event: MessageEvent) => (isHeld ? held.push(() => hear(event)) : hear(event)));
    },
  });
  Object.assign(globalThis, {
    hold: (is: boolean) => {
      isHeld = is;
      if (!is) for (const hear of held.splice(0)) hear();
    },
  });
}

const hold = (page: Page, is: boolean) =>
  page.evaluate((held) => (Reflect.get(globalThis, 'hold') as (is: boolean) => void)(held), is);

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
  // Nudges kept in both at once, of the same cells: both end equal.
  const cells = ['stitch gauge', 'row gauge', 'chest', 'ease wanted'];
  const storm = async (page: Page, from: number) => {
    for (let i = 0; i < 3; i += 1) {
      await standOn(page, cells[(i + from) % cells.length] ?? '');
      for (const key of ['+', '+', '-', '+']) await page.keyboard.press(key);
      await keep(page);
    }
  };
  await Promise.all([storm(one, 0), storm(two, 2)]);
  const all = async (page: Page) => (await Promise.all(cells.map((name) => numbers(page, name)))).join();
  await expect.poll(async () => (await all(one)) === (await all(two)), { timeout: 5_000 }).toBe(true);
  // The tab that keeps it is closed: the other goes on, and keeps.
  await one.close();
  await type(two, 'chest', '41 in');
  await isSaved(two);
  await two.reload();
  await row(two, 'chest').waitFor();
  expect(await numbers(two, 'chest')).toEqual(['41']);
  // What one does with the list, the other shows.
  const three = await two.context().newPage();
  await three.goto(two.url());
  await row(three, 'chest').waitFor();
  await three.locator('h1').getByRole('button').click();
  await three.keyboard.type('For Wren');
  await three.keyboard.press('Enter');
  await expect.poll(() => mine(two)).toContain('For Wren');
  await two.locator('h1', { hasText: 'For Wren' }).waitFor();
  await three.getByRole('button', { name: 'what to do with For Wren' }).click();
  await three.getByRole('menuitem', { name: 'delete' }).click();
  await notice(two, '“For Wren” is deleted').getByRole('button', { name: 'Put it back' }).click();
  await expect.poll(() => mine(three)).toContain('For Wren');
});

test('of two edits of one cell the later wins; the earlier is told, and comes back when asked', async () => {
  const [one, two] = await inTwoTabs();
  // The second does not hear the first for a moment: neither has seen what the other writes.
  await hold(two, true);
  await type(one, 'stitch gauge', '20 st / 4 in');
  await type(two, 'stitch gauge', '18 st / 4 in');
  const words = notice(one, 'Another tab changed the same thing');
  await words.waitFor();
  await hold(two, false);
  for (const page of [one, two]) await expect.poll(() => numbers(page, 'stitch gauge')).toEqual(['18']);
  expect(await words.textContent()).toContain(
    '(change stitch gauge): “18 ± ½ st / 4 in” stands; yours was “20 ± ½ st / 4 in”.',
  );
  await runAxe(one);
  await words.getByRole('button', { name: 'Put mine back' }).click();
  for (const page of [one, two]) await expect.poll(() => numbers(page, 'stitch gauge')).toEqual(['20']);
  expect(await notice(two, 'Another tab changed the same thing').count()).toBe(0);
  await one.locator('.header .undo').click();
  await expect.poll(() => numbers(two, 'stitch gauge')).toEqual(['18']);

  // One is writing while the other's change comes in: what is written last stands, and says what it took the place of.
  await standOn(one, 'chest');
  await one.keyboard.press('Enter');
  await one.locator('.editor .cm-content').waitFor();
  await type(two, 'chest', '39 in');
  await one.locator('.saved', { hasText: 'in another tab: change chest' }).waitFor();
  await one.keyboard.press('Enter'); // Nothing was written: nothing is overwritten.
  await expect.poll(() => numbers(one, 'chest')).toEqual(['39']);
  await standOn(one, 'chest');
  await one.keyboard.press('Enter');
  await one.locator('.editor .cm-content').waitFor();
  await one.keyboard.press('ControlOrMeta+a');
  await one.keyboard.type('44 in');
  await type(two, 'chest', '38 in');
  await one.locator('.saved', { hasText: 'in another tab: change chest' }).waitFor();
  await one.keyboard.press('Enter');
  for (const page of [one, two]) await expect.poll(() => numbers(page, 'chest')).toEqual(['44']);
  const here = one.locator('.notice', { hasText: 'Another tab wrote “38 in” here while you were writing' });
  await here.getByRole('button', { name: 'Undo' }).click();
  for (const page of [one, two]) await expect.poll(() => numbers(page, 'chest')).toEqual(['38']);
});
