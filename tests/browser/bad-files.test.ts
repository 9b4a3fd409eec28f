// Files that are broken, huge or made to hang, dropped on the page as a knitter would: one sentence each, what can be read
// is offered, the open notebook is as it was, nothing in a file is run.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { numbers, row } from './sheet-page.ts';
import { appUrl, drop, openApp } from './support.ts';

const broken = (name: string): readonly number[] => [
  ...readFileSync(join(import.meta.dirname, '../files/broken', name)),
];

/** The sentence that a dropped file gets; then it is answered. */
async function refusalOf(page: Page, name: string, content: string | readonly number[]): Promise<string> {
  await drop(page, name, content);
  const notice = page.locator('.app-notice', { hasText: name });
  const sentence = await notice.locator('p').innerText();
  await notice.getByRole('button', { name: 'OK' }).click();
  return sentence;
}

/** A file of as many cells as wanted, each with the text that `text` gives it. */
function sheetOf(count: number, text: (index: number) => string): string {
  const cells = Array.from({ length: count }, (_, i) => `{"id":"k${i}","name":"a${i}","text":"${text(i)}"}`);
  return `{"ellwand":1,"id":"nbig","title":"Big","units":"cm","sections":[{"id":"s1","title":"","cells":[${cells.join(',')}]}]}`;
}

/** The longest time the page stood still while something was done, in milliseconds. */
async function standstill(page: Page, deed: () => Promise<void>): Promise<number> {
  await page.evaluate(() => {
    const told = globalThis as unknown as { longest: number; watch: number };
    told.longest = 0;
    let last = performance.now();
    told.watch = window.setInterval(() => {
      const now = performance.now();
      told.longest = Math.max(told.longest, now - last);
      last = now;
    }, 10);
  });
  await deed();
  return page.evaluate(() => {
    const told = globalThis as unknown as { longest: number; watch: number };
    clearInterval(told.watch);
    return told.longest;
  });
}

test('what is said of a file that could not be read goes when another notebook is opened', async () => {
  const page = await openApp();
  await row(page, 'finished chest').waitFor();
  await drop(page, 'a.zip', broken('zip.json'));
  const notice = page.locator('.app-notice', { hasText: 'a.zip' });
  await notice.waitFor();
  await page.locator('.nav').getByRole('button', { name: 'Fit a sock', exact: true }).click();
  await row(page, 'foot girth').waitFor();
  await expect.poll(() => notice.count()).toBe(0);
});

test('what is no notebook gets one sentence, and the open notebook stays as it was', async () => {
  const page = await openApp();
  await row(page, 'finished chest').waitFor();
  const before = await numbers(page, 'finished chest');
  await expect.poll(() => page.url()).toContain('#at='); // The first sheet is there before its address is.
  const place = page.url();
  expect(await refusalOf(page, 'a.zip', broken('zip.json'))).toBe(
    'a.zip: This is a packed file: unpack it first.',
  );
  expect(await refusalOf(page, 'b.png', broken('png.json'))).toMatch(
    /^b\.png: This is a picture, not a note/,
  );
  expect(await refusalOf(page, 'c.json', broken('deep-open.json'))).toMatch(/nested too deep/);
  expect(await refusalOf(page, 'd.json', broken('noise.json'))).toMatch(/is not text/);
  expect(await refusalOf(page, 'e.json', '[1, 2')).toMatch(/^e\.json: This is not a notebook: .*line 1/);
  // 50 MB, made in the page: refused by its size, unread.
  await page.evaluate(() => {
    const files = new DataTransfer();
    files.items.add(new File([new Uint8Array(50_000_000).fill(32)], 'f.json'));
    document.body.dispatchEvent(new DragEvent('drop', { bubbles: true, dataTransfer: files }));
  });
  await page.getByText('f.json: This file has 47.7 MB, and 4 MB is the most.').waitFor();
  expect(await numbers(page, 'finished chest')).toEqual(before);
  expect(page.url()).toBe(place);
  expect(await page.locator('.visitor').count()).toBe(0);
});

test('what can be read of a broken file is shown with what was mended; markup is words; a later version is only read', async () => {
  const page = await openApp();
  await row(page, 'finished chest').waitFor();
  const leave = () => page.getByRole('button', { name: 'Leave it' }).click();
  await drop(page, 'cut.json', broken('cut-in-cell.json'));
  await page.getByText('The file breaks off at line 9').waitFor();
  await row(page, 'gauge').waitFor();
  await leave();
  await row(page, 'finished chest').waitFor();

  await drop(page, 'wild.json', broken('markup-everywhere.json'));
  await page.locator('.visitor').waitFor();
  const made = await page.evaluate(() => ({
    elements: document.querySelectorAll('img[src="x"], [onerror], [onload], iframe, .visitor b, #app script')
      .length,
    said: document.body.innerText.includes('<'),
  }));
  expect(made).toEqual({ elements: 0, said: true });
  await leave();

  await drop(page, 'proto.json', broken('name-proto.json'));
  await page.locator('.visitor').waitFor();
  expect(await page.evaluate(() => 'polluted' in {} || 'text' in {})).toBe(false);
  await leave();

  await drop(page, 'twice.json', broken('name-twice.json'));
  await page
    .getByText(/Two cells were called/)
    .first()
    .waitFor();
  await leave();

  await drop(page, 'later.json', broken('version-later.json'));
  await page.getByText('made by a newer Ellwand').first().waitFor();
  expect(await page.getByRole('button', { name: 'Keep a copy' }).count()).toBe(0);
  await leave();
  await row(page, 'finished chest').waitFor();
});

test('formulas made to hang and a million cells do not freeze the page', async () => {
  const page = await openApp();
  await row(page, 'finished chest').waitFor();
  const leave = () => page.getByRole('button', { name: 'Leave it' }).click();
  const hanging = [
    sheetOf(300, () => `${'((((1+2)*3)-4)/5)+'.repeat(210)}1`),
    sheetOf(300, (i) => (i % 2 ? '2^2^2^2^2^2^2^2^2^2^2' : `${'('.repeat(2000)}1`)),
    sheetOf(600, (i) => `a${(i + 1) % 600} + a${(i * 7 + 3) % 600}`),
  ];
  // A small one first, so that what the page fetches at its first visitor is not measured.
  await drop(
    page,
    'small.json',
    sheetOf(5, () => '1 + 1'),
  );
  await row(page, 'a3').first().waitFor();
  await leave();
  for (const text of hanging) {
    const longest = await standstill(page, async () => {
      await drop(page, 'hang.json', text);
      await page.locator('.visitor').waitFor();
      await row(page, 'a3').first().waitFor();
    });
    // A generous bound for a busy machine; what hangs, hangs for minutes.
    expect(longest).toBeLessThan(10_000);
    await leave();
  }
  // Thousands of long plans, twenty thousand cells in one circle, a million cells: asked first, then shown.
  await drop(
    page,
    'plans.json',
    sheetOf(3000, (i) => `join(${99_000 - i} st, ${33_333 + i}, 7)`),
  );
  await page.getByText('It has 3,000 cells').waitFor();
  await leave();
  await drop(
    page,
    'ring.json',
    sheetOf(19_999, (i) => `a${(i + 1) % 19_999}`),
  );
  await page.getByText('It has 19,999 cells').waitFor();
  await leave();
  await page.evaluate(() => {
    const cells = Array(1_000_000).fill('{}').join(',');
    const text = `{"ellwand":1,"id":"nm","title":"Many","units":"cm","sections":[{"id":"s","title":"","cells":[${cells}]}]}`;
    const files = new DataTransfer();
    files.items.add(new File([text], 'many.json'));
    document.body.dispatchEvent(new DragEvent('drop', { bubbles: true, dataTransfer: files }));
  });
  await page.getByText('From many.json: Many. It has 20,000 cells').waitFor();
  await page.getByRole('button', { name: 'Show it all the same' }).click();
  await page.getByText('only the first 20,000 were read').waitFor();
  await leave();
  await row(page, 'finished chest').waitFor();
});

test('a link that was cut, or has letters of its own, is one sentence, and the shelf opens', async () => {
  const page = await openApp({ path: '#n=q83vEjRW' });
  await page.getByText('This link was cut short on its way').waitFor();
  await row(page, 'finished chest').waitFor();
  await page.goto(new URL('#n=%3Cscript%3E', appUrl()).href);
  await page.getByText('There are letters in this link that no link has').waitFor();
  await row(page, 'finished chest').waitFor();
});
