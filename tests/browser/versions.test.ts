import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { editorIsHere, numbers, row, standOn } from './sheet-page.ts';
import { goTo, isSaved, notice, openKept, write } from './shelf-page.ts';
import { runAxe } from './support.ts';

const line = (page: Page, name: string) => page.locator('.version', { hasText: name });
const act = (page: Page, name: string, word: string) =>
  line(page, name).getByRole('button', { name: word }).click();

test('a version named, looked at, compared, brought back and undone', async () => {
  const page = await openKept();
  await editorIsHere(page);
  await goTo(page, 'Versions');
  await page.getByRole('textbox', { name: /Keep it as it is now/ }).fill('before I ripped back');
  await page.keyboard.press('Enter');
  await line(page, 'before I ripped back').waitFor();
  await runAxe(page);
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  const ease = await numbers(page, 'ease');
  await standOn(page, 'stitch gauge');
  await write(page, '18 st / 4 in');
  await standOn(page, 'chest');
  await write(page, '40 in');
  const moved = await numbers(page, 'ease');
  expect(moved).not.toEqual(ease);

  // Looked at: as it was, and nothing in it can be changed.
  await goTo(page, 'Versions');
  await act(page, 'before I ripped back', 'Look at it');
  await page.locator('.visitor', { hasText: 'before I ripped back' }).waitFor();
  expect(await numbers(page, 'stitch gauge')).toEqual(['21']);
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  expect(await numbers(page, 'stitch gauge')).toEqual(['21']);
  await runAxe(page);

  // Compared cell by cell, and one of them taken.
  await page.getByRole('button', { name: 'Compare with now' }).click();
  await page.getByText('2 things differ').waitFor();
  await page.getByText('all of it is one, too. Undo takes it back.').waitFor();
  // Nothing that writes over one's own is offered first.
  expect(await page.locator('.page-head .strong-button').count()).toBe(0);
  await runAxe(page);
  const differs = page.locator('.differences').filter({ hasText: 'stitch gauge' }).first();
  expect(await differs.locator('tbody tr').first().innerText()).toMatch(
    /18 ± ½ st \/ 4 in\s+21 ± 0\.5 st \/ 4 in/,
  );
  const outcome = page.locator('.differences', { hasText: 'finished chest' }).last();
  expect(await outcome.innerText()).toContain('42¾ in');
  await page.getByRole('button', { name: /Take it \(stitch gauge/ }).focus();
  await page.keyboard.press('Enter');
  await page.getByText('1 thing differs').waitFor();
  // The keyboard goes on with what is left.
  expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('chest');
  await notice(page, 'Taken over: stitch gauge').getByRole('button', { name: 'Undo' }).click();
  await page.getByText('2 things differ').waitFor();

  // Taken back by the head's undo, it is told no longer, so that its own undo takes back nothing older.
  await page.getByRole('button', { name: /Take it \(stitch gauge/ }).click();
  await notice(page, 'Taken over: stitch gauge').waitFor();
  await page.locator('.header .undo').click();
  await page.getByText('2 things differ').waitFor();
  expect(await notice(page, 'Taken over').count()).toBe(0);
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  expect(await numbers(page, 'ease')).toEqual(moved);

  // Brought back, and undone, and after a reload undone still.
  await goTo(page, 'Versions');
  await act(page, 'before I ripped back', 'Bring it back');
  await expect.poll(() => numbers(page, 'ease')).toEqual(ease);
  await notice(page, 'Brought back').getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => numbers(page, 'ease')).toEqual(moved);
  await page.locator('.header .redo').click();
  await expect.poll(() => numbers(page, 'ease')).toEqual(ease);
  await isSaved(page);
  await page.reload();
  await row(page, 'ease').waitFor();
  expect(await numbers(page, 'ease')).toEqual(ease);
  await page.locator('.header .undo').click();
  await expect.poll(() => numbers(page, 'ease')).toEqual(moved);

  // Deleted, with undo.
  await goTo(page, 'Versions');
  await act(page, 'before I ripped back', 'Delete');
  await notice(page, 'is deleted').getByRole('button', { name: 'Undo' }).click();
  await line(page, 'before I ripped back').waitFor();
});
