// A sheet much longer than the screen: what a leap brings into sight is there in the same frame, with the numbers of now.
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { row } from './sheet-page.ts';
import { drop, openApp } from './support.ts';

const CELLS = 1200;

/** One cell that all others add to: `a0 = 1`, `a1 = a0 + 1`, … so that row i shows i + a0. */
function longNotebook(): string {
  const cells = Array.from({ length: CELLS }, (_, i) => ({
    id: `k${i}`,
    name: `a${i}`,
    text: i === 0 ? '1' : `a0 + ${i}`,
  }));
  const sections = [{ id: 's1', title: 'Rows', cells }];
  return JSON.stringify({ ellwand: 1, id: 'nlong', title: 'Long', units: 'cm', sections });
}

async function openLong(notebook = longNotebook(), cells = CELLS): Promise<Page> {
  const page = await openApp();
  await row(page, 'finished chest').waitFor();
  await drop(page, 'long.json', notebook);
  await page.getByRole('button', { name: 'Keep a copy' }).click();
  await page.locator('.visitor').waitFor({ state: 'detached' });
  await page.waitForFunction(
    (count) => document.querySelectorAll('[data-row^="k:"]').length === count,
    cells,
  );
  return page;
}

/** What the frame of a leap shows. */
interface Leap {
  /** For each of three heights: the row that is drawn there, or nothing. */
  readonly at: readonly (string | undefined)[];
  /** The names and the numbers of all rows drawn in the view. */
  readonly shown: readonly (readonly [string, string])[];
}

/** Runs in the page: at each leap nudges the first cell, leaps, and looks once the frame of the leap is shown. */
async function leap(shares: readonly number[]): Promise<readonly Leap[]> {
  const sheet = document.getElementById('sheet') as HTMLElement;
  const first = document.querySelector('[data-row="k:k0"] [data-part="1"]') as HTMLElement;
  const frame = () =>
    new Promise<void>((done) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => done();
      requestAnimationFrame(() => channel.port2.postMessage(0));
    });
  const textIn = (one: Element | undefined, place: string) =>
    one?.querySelector(place)?.firstChild?.textContent ?? '';
  const leaps: Leap[] = [];
  for (const share of shares) {
    await frame();
    first.dispatchEvent(new KeyboardEvent('keydown', { key: '+', bubbles: true, cancelable: true }));
    sheet.scrollTop = share * sheet.scrollHeight;
    await frame();
    const { top, bottom } = sheet.getBoundingClientRect();
    const seen = [...document.querySelectorAll('[data-row^="k:"]')].filter((one) => {
      const box = one.checkVisibility({ contentVisibilityAuto: true }) && one.getBoundingClientRect();
      return box && box.bottom > top && box.top < bottom;
    });
    const at = [0.25, 0.5, 0.75].map((part) => {
      const hits = document.elementsFromPoint(500, top + (bottom - top) * part);
      return seen.find((one) => hits.includes(one));
    });
    leaps.push({
      at: at.map((one) => one && textIn(one, '.nm')),
      shown: seen.map((one) => [textIn(one, '.nm'), textIn(one, '.v .n')]),
    });
  }
  return leaps;
}

test('a leap shows its rows in the same frame, and a nudge just before it has reached them', async () => {
  const page = await openLong();
  const leaps = await page.evaluate(leap, [0.5, 0.9, 0.2, 0.7, 0.05]);
  for (const [turn, { at, shown }] of leaps.entries()) {
    expect(at.filter((name) => name === undefined)).toEqual([]);
    expect(shown.length).toBeGreaterThan(8);
    // The first cell began at 1, and a nudge is a step of one.
    expect(shown).toEqual(shown.map(([name]) => [name, String(Number(name.slice(1)) + turn + 2)]));
  }
});

/** As many cells that hang on the second, which hangs on the first. */
function fanNotebook(cells: number): string {
  const textOf = (i: number) => (i === 0 ? '1' : i === 1 ? 'a0 * 2' : `a1 + ${i}`);
  const list = Array.from({ length: cells }, (_, i) => ({ id: `k${i}`, name: `a${i}`, text: textOf(i) }));
  const sections = [{ id: 's1', title: 'Rows', cells: list }];
  return JSON.stringify({ ellwand: 1, id: 'nfan', title: 'Fan', units: 'cm', sections });
}

test('workings that name hundreds of cells are read in their first frame, and come to name all of them', async () => {
  const page = await openLong(fanNotebook(260), 260);
  // What unfolds them has come once others have been unfolded.
  await page.locator('[data-row="k:k2"] .how-link').click();
  await page.locator('[data-row="k:k2"] .workings dd').first().waitFor();
  await page.locator('[data-row="k:k2"] .how-link').click();
  await page.locator('.workings').waitFor({ state: 'detached' });
  const first = await page.evaluate(async () => {
    const line = () => document.querySelector('.workings')?.textContent ?? '';
    (document.querySelector('[data-row="k:k1"] .how-link') as HTMLElement).click();
    await new Promise((done) => requestAnimationFrame(done));
    return line();
  });
  expect(first).toContain('comes to2');
  expect(first).toContain('movesa2a3a4');
  const names = page.locator('.workings .names').filter({ hasText: 'moves' }).locator('button');
  await expect.poll(() => names.count(), { timeout: 30_000 }).toBe(258);
  expect(await names.allTextContents()).toEqual(Array.from({ length: 258 }, (_, i) => `a${i + 2}`));
});

/** Rows that hang on the first, in two sizes: 1 and 10 and so on. */
function sizesNotebook(cells: number): string {
  const first = { id: 'k0', name: 'a0', each: { c1: '1', c2: '10' } };
  const rest = Array.from({ length: cells - 1 }, (_, i) => ({
    id: `k${i + 1}`,
    name: `a${i + 1}`,
    text: `a0 + ${i + 1}`,
  }));
  const columns = {
    heading: 'size',
    list: [
      { id: 'c1', label: 'S' },
      { id: 'c2', label: 'L' },
    ],
  };
  const sections = [{ id: 's1', title: 'Rows', cells: [first, ...rest] }];
  return JSON.stringify({ ellwand: 1, id: 'nsizes', title: 'Sizes', units: 'cm', columns, sections });
}

test('after quick nudges every row out of sight comes to hold its numbers, and their differences', async () => {
  const count = 500;
  const page = await openLong(sizesNotebook(count), count);
  await page.evaluate(async () => {
    const first = document.querySelector('[data-row="k:k0"] [data-part="1"]') as HTMLElement;
    first.focus();
    for (const key of ['+', '+', '+', '-', '+', '+']) {
      first.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
      await new Promise((done) => requestAnimationFrame(done));
    }
  });
  const texts = () =>
    page.evaluate(() => {
      const textsOf = (row: Element, place: string) =>
        [...row.querySelectorAll('.v')].map((one) => one.querySelector(place)?.firstChild?.textContent ?? '');
      return [...document.querySelectorAll('[data-row^="k:"]')].map((one) => [
        ...textsOf(one, '.n'),
        ...textsOf(one, 'small'),
      ]);
    });
  // Five of six presses were up, in the first size.
  await expect
    .poll(texts, { timeout: 30_000 })
    .toEqual(Array.from({ length: count }, (_, i) => [String(i + 5), String(i + 10), '+4', '']));
  await page.evaluate(() => {
    const first = document.querySelector('[data-row="k:k0"] [data-part="1"]') as HTMLElement;
    for (let i = 0; i < 4; i += 1)
      first.dispatchEvent(new KeyboardEvent('keydown', { key: '-', bubbles: true, cancelable: true }));
  });
  await expect
    .poll(texts, { timeout: 30_000 })
    .toEqual(Array.from({ length: count }, (_, i) => [String(i + 1), String(i + 10), '', '']));
  expect(await page.locator('[data-row^="k:"] .v.moved').count()).toBe(0);
});
