// Room for words and numbers: in every notebook that comes with the app no word of the sheet is broken in two, no value
// touches its neighbour, and the page ends where the window does, on a wide screen and on a phone. Source: common practice
// of setting tables.
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { prebuilt } from '../../src/app/prebuilt.ts';
import { openNotebook } from '../support/notebook.ts';
import { openApp } from './support.ts';

/** Text of the sheet that is broken in two or stands too close to what is beside it. Runs in the page. */
function crowded(): readonly string[] {
  const NEAR = 2;
  const found = new Set<string>();
  const rows = new Map<Element, { readonly at: DOMRect; readonly cell: Element; readonly text: string }[]>();
  for (const block of document.querySelectorAll<HTMLElement>('.sheet-body .block'))
    block.style.contentVisibility = 'visible';
  const texts = document.createTreeWalker(
    document.querySelector('.sheet-body') as Node,
    NodeFilter.SHOW_TEXT,
  );
  const seen = (range: Range) => [...range.getClientRects()].filter(({ width }) => width > 0);
  for (let node = texts.nextNode() as Text | null; node; node = texts.nextNode() as Text | null) {
    const row = node.parentElement?.closest('.row, .heads');
    const cell = node.parentElement?.closest('.v, .name, .how');
    if (!row || !cell || node.parentElement?.closest('.hidden, svg, .how-link')) continue;
    const range = document.createRange();
    for (const { 0: word, index } of node.data.matchAll(/[^\s–—/-]+/gu)) {
      range.setStart(node, index);
      range.setEnd(node, index + word.length);
      const lines = new Set(seen(range).map(({ top }) => Math.round(top / 4)));
      if (lines.size > 1) found.add(`${word} is broken in two`);
    }
    range.selectNodeContents(node);
    const list = rows.get(row) ?? [];
    rows.set(row, [...list, ...seen(range).map((at) => ({ at, cell, text: node?.data ?? '' }))]);
  }
  for (const list of rows.values())
    list.forEach((one, i) => {
      for (const two of list.slice(i + 1)) {
        const level = Math.min(one.at.bottom, two.at.bottom) - Math.max(one.at.top, two.at.top);
        const gap = Math.max(two.at.left - one.at.right, one.at.left - two.at.right);
        if (one.cell !== two.cell && level > 3 && gap < NEAR) found.add(`${one.text} touches ${two.text}`);
      }
    });
  const sheet = document.querySelector('.sheet-body')?.getBoundingClientRect();
  const frame = document.querySelector('.sheet-body')?.parentElement?.getBoundingClientRect();
  if (sheet && frame && sheet.right > frame.right + 1) found.add('the sheet is wider than its place');
  return [...found];
}

/** How far the page itself could be scrolled, when all that stands beside the sheet is drawn. */
async function beyondWindow(page: Page): Promise<readonly string[]> {
  await page.waitForFunction(() =>
    [...document.querySelectorAll('.panel')].every(
      (one) => one.children.length > 1 && !one.querySelector('[aria-busy="true"]'),
    ),
  );
  return page.evaluate(() => {
    const { scrollWidth, scrollHeight } = document.documentElement;
    const over = [scrollWidth - innerWidth, scrollHeight - innerHeight];
    return over.some((far) => far > 0) ? [`the page goes on ${over.join(' and ')} pixels`] : [];
  });
}

/** Begins a notebook from the list, which on a phone is behind the ruler, and waits until the sheet is its own. */
async function openPrebuilt(page: Page, name: string, title: string): Promise<void> {
  await page.locator('.sheet-body .row').first().waitFor();
  const list = page.locator('.nav-button');
  if (await list.isVisible()) await list.click();
  await page
    .getByRole('button', { name: /^(More to start from|All notebooks)$/ })
    .last()
    .click();
  await page.getByRole('button', { name: new RegExp(`^${title} ?[A-Z]`) }).click();
  await page.locator('.title', { hasText: openNotebook(name).title }).waitFor();
  await page.locator('.sheet-body .row').first().waitFor();
}

for (const [width, touch] of [
  [1440, false],
  [390, true],
] as const)
  test(`at ${width} pixels`, { timeout: 400_000 }, async () => {
    const page = await openApp({ width, height: 900, touch });
    const found: string[] = [];
    for (const { name, title } of prebuilt) {
      await openPrebuilt(page, name, title);
      const faults = [...(await beyondWindow(page)), ...(await page.evaluate(crowded))];
      found.push(...faults.map((one) => `${title}: ${one}`));
    }
    expect(found).toEqual([]);
  });
