import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { editorIsHere, numbers, openFieldfare, row, standOn } from './sheet-page.ts';

async function type(page: Page, text: string): Promise<void> {
  await page.keyboard.type(text, { delay: 10 });
}

test('a number written over one value of a worked-out row changes that one, and undo brings the formula back', async () => {
  const page = await openFieldfare();
  const before = await numbers(page, 'finished chest');
  await standOn(page, 'finished chest', 1);
  await type(page, '41');
  await page.keyboard.press('Enter');
  const notice = page.locator('.notice');
  await notice.getByText('Now it is typed in each column: S is 41 in').waitFor();
  const after = await numbers(page, 'finished chest');
  expect(after.map(parseFloat)[1]).toBe(41);
  expect(after.toSpliced(1, 1).map(parseFloat)).not.toContain(41);
  await notice.getByRole('button', { name: 'Undo' }).click();
  expect(await numbers(page, 'finished chest')).toEqual(before);
});

test('a button below a formula that cannot be read is reached by one click, though the row grows as it is left', async () => {
  const page = await openFieldfare();
  await editorIsHere(page);
  await standOn(page, 'own count');
  await page.keyboard.press('Enter');
  await page.keyboard.press('ControlOrMeta+a');
  await type(page, 'chest times times a gauge that is nowhere');
  const add = page.getByRole('button', { name: 'add a cell' }).last();
  await add.scrollIntoViewIfNeeded();
  const box = await add.boundingBox();
  await page.mouse.move((box?.x ?? 0) + 20, (box?.y ?? 0) + (box?.height ?? 0) / 2);
  await page.mouse.down();
  await page.mouse.up();
  await page.locator('.row input').waitFor();
  await type(page, 'plain rows');
  await page.keyboard.press('Enter');
  await type(page, '12 rows');
  await page.keyboard.press('Enter');
  expect(await numbers(page, 'plain rows')).toEqual(['12']);
  await row(page, 'own count').locator('.problem').first().waitFor();
});

test('a message that tells of a change goes once that is taken back: its undo takes back nothing older', async () => {
  const page = await openFieldfare();
  await editorIsHere(page);
  await standOn(page, 'chest');
  await type(page, '39');
  await page.keyboard.press('Enter');
  const chest = await numbers(page, 'chest');
  const before = await numbers(page, 'finished chest');
  const notice = page.locator('.notice');
  for (const takeBack of [
    () => page.locator('.header .undo').click(),
    () => page.keyboard.press('ControlOrMeta+z'),
  ]) {
    await standOn(page, 'finished chest', 1);
    await type(page, '41');
    await page.keyboard.press('Enter');
    await notice.getByText('Now it is typed in each column').waitFor();
    await takeBack();
    await expect.poll(() => numbers(page, 'finished chest')).toEqual(before);
    expect(await notice.count()).toBe(0);
    expect(await numbers(page, 'chest')).toEqual(chest);
  }
  await page.locator('.header .redo').click();
  await expect.poll(() => numbers(page, 'finished chest')).not.toEqual(before);
  expect(await notice.count()).toBe(0);
});
