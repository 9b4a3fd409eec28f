// The paper, printed by a real browser: every prebuilt notebook on A4 and on US letter.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { notebookNames, notebookText, openNotebook } from '../support/notebook.ts';
import { openApp } from './support.ts';

/** Where the PDFs are left to be looked at, when a folder is named. */
const keepIn = process.env['ELLWAND_PDFS'];

/** How many pages a PDF has: its page objects stand uncompressed in what the browser writes. */
function pageCount(pdf: Buffer): number {
  return pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

/** Opens the app with a notebook's own file dropped into the editor of the first notebook. */
async function openByFile(name: string): Promise<Page> {
  const page = await openApp();
  await page.locator('.row').first().waitFor();
  await page.locator('.header').getByRole('button', { name: 'File', exact: true }).click();
  const editor = page.getByRole('textbox', { name: 'this notebook’s file' });
  await editor.waitFor();
  await editor.press('ControlOrMeta+a');
  await page.keyboard.insertText(notebookText(name));
  await page.getByRole('button', { name: 'Keep the change' }).click();
  await page.locator('.title', { hasText: openNotebook(name).title }).waitFor();
  await paperIsReady(page);
  return page;
}

/** Waits until the part that makes the paper has been fetched. */
async function paperIsReady(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    dispatchEvent(new Event('beforeprint'));
    const isThere = document.querySelector('.paper') !== null;
    dispatchEvent(new Event('afterprint'));
    return isThere;
  });
}

function keep(name: string, pdf: Buffer): void {
  if (keepIn === undefined) return;
  mkdirSync(keepIn, { recursive: true });
  writeFileSync(join(keepIn, `${name}.pdf`), pdf);
}

/** A4 less its margins, in pixels of 1/96 in. */
const A4 = { width: 703, height: 1039 };

/**
 * Lays the paper in pages side by side, which the browser breaks as those of a printer. Gives how many there are, how many
 * rows stand on them, which of these stand on two, and what is cut at the right edge of its page. Runs in the page.
 */
function laidInPages(paper: Element, { width, height }: typeof A4) {
  const GAP = 100;
  const style = `columns: ${width}px; column-gap: ${GAP}px; column-fill: auto; width: ${width}px; height: ${height}px`;
  (paper as HTMLElement).style.cssText = style;
  const left = paper.getBoundingClientRect().left;
  const pageOf = (x: number) => Math.floor((x - left) / (width + GAP));
  const rows = [...paper.querySelectorAll('tr, .paper-steps ol > li:not(.long), .paper-steps ul li, svg')];
  const texts = document.createTreeWalker(paper, NodeFilter.SHOW_TEXT);
  const cut: string[] = [];
  let pages = 0;
  for (let node = texts.nextNode(); node; node = texts.nextNode()) {
    if (node.parentElement?.closest('.hidden')) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const at of range.getClientRects()) {
      if (at.width === 0) continue;
      pages = Math.max(pages, pageOf(at.left) + 1);
      const edge = left + pageOf(at.left) * (width + GAP) + width;
      if (at.right > edge + 1 || at.bottom > paper.getBoundingClientRect().top + height + 1)
        cut.push(node.textContent ?? '');
    }
  }
  const split = rows.filter((row) => row.getClientRects().length > 1).map((row) => row.textContent);
  return { pages, rows: rows.length, split, cut };
}

/** The colours on the paper that are not grey. */
function colours(page: Page): Promise<readonly string[]> {
  return page.locator('.paper *').evaluateAll((all) => {
    const styles = all.map((one) => getComputedStyle(one));
    const used = styles.flatMap((one) => [one.color, one.backgroundColor, one.fill, one.stroke]);
    return [...new Set(used)].filter((colour) => {
      const [, red, green, blue] = /^rgba?\((\d+), (\d+), (\d+)/.exec(colour) ?? [];
      return red !== green || green !== blue;
    });
  });
}

describe('printed', () => {
  test.each(notebookNames)('%s takes two pages at most, on A4 and on letter', async (name) => {
    const page = await openByFile(name);
    for (const format of ['A4', 'Letter'] as const) {
      const pdf = await page.pdf({ format, preferCSSPageSize: false });
      keep(`${name}-${format}`, pdf);
      expect(pageCount(pdf), format).toBeGreaterThan(0);
      expect(pageCount(pdf), format).toBeLessThanOrEqual(2);
    }
  });

  test('what is on paper: size, gauge, drawing, steps with boxes, key, and nothing of the interface', async () => {
    const page = await openByFile('fit-sock');
    await page.evaluate(() => void dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    const paper = page.locator('.paper');
    const text = await paper.innerText();
    for (const word of [
      'Runa',
      'Gauge',
      '31 sts / 10 cm',
      'What to knit',
      'sl1, k17, k2tog, k1, turn',
      'knit 2 together',
    ])
      expect(text).toContain(word);
    expect(await paper.locator('.paper-steps ol > li > p .paper-box').count()).toBeGreaterThan(8);
    expect(await paper.locator('.paper-drawings svg').count()).toBeGreaterThan(0);
    expect(await paper.locator('button, input, select').count()).toBe(0);
    expect(await page.locator('.shell').isVisible()).toBe(false);
    expect(await paper.evaluate((one) => getComputedStyle(one).color)).toBe('rgb(0, 0, 0)');
    expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe(
      'rgb(255, 255, 255)',
    );
    expect(await colours(page), 'black and white is enough').toEqual([]);
    await page.evaluate(() => void dispatchEvent(new Event('afterprint')));
    expect(await paper.count()).toBe(0);
  });

  test('a step that is ticked has its tick in its box', async () => {
    const page = await openByFile('fit-sock');
    await page.getByRole('checkbox', { name: 'step 1 done' }).check();
    await page.evaluate(() => void dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print' });
    const box = page.locator('.paper-steps .paper-box');
    const [around, tick] = await Promise.all([
      box.first().boundingBox(),
      box.first().locator('svg').boundingBox(),
    ]);
    expect(tick?.x).toBeGreaterThanOrEqual(around?.x ?? Infinity);
    expect((tick?.x ?? 0) + (tick?.width ?? 0)).toBeLessThanOrEqual((around?.x ?? 0) + (around?.width ?? 0));
    expect(await box.nth(1).locator('svg').count()).toBe(0);
  });

  test('every size at once, where that is ticked', async () => {
    const page = await openByFile('resize-sweater');
    await page.locator('.steps-sizes input').check();
    await page.evaluate(() => void dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print' });
    const text = await page.locator('.paper').innerText();
    expect(text).toContain('every size: XS (S, M, L, XL, 2X)');
    expect(text).toContain('184 (204, 224, 248, 272, 296)');
  });

  /** What the paper says it is of, once Print was pressed and a line of its menu chosen. */
  async function sizePrinted(page: Page, label: string): Promise<string | undefined> {
    await page.evaluate(() => {
      window.print = () => {
        dispatchEvent(new Event('beforeprint'));
        document.title = document.querySelector('.paper-size')?.textContent ?? '';
        dispatchEvent(new Event('afterprint'));
      };
    });
    await page.locator('.header').getByRole('button', { name: 'Print' }).click();
    await page.getByRole('menuitem', { name: label }).click();
    return page.title();
  }

  test('Print asks which columns, and one press prints them', async () => {
    const page = await openByFile('resize-sweater');
    expect(await sizePrinted(page, 'print every size at once')).toMatch(/^every size: XS \(S, M/);
    expect(await sizePrinted(page, 'print size S')).toBe('size S');
    expect(await page.locator('.steps-sizes input').isChecked()).toBe(false);
  });

  test('of gifts all are printed where nothing is asked, and offered first', async () => {
    const page = await openByFile('plan-gifts');
    await page.evaluate(() => void dispatchEvent(new Event('beforeprint')));
    expect(await page.locator('.paper-size').textContent()).toBe(
      'every gift: Mitts for Ines (Socks for Tam, Hat for Oona, Cowl for Bram)',
    );
    await page.evaluate(() => void dispatchEvent(new Event('afterprint')));
    await page.locator('.header').getByRole('button', { name: 'Print' }).click();
    await expect
      .poll(() => page.getByRole('menuitem').allTextContents())
      .toEqual(['print every gift at once', 'print gift Mitts for Ines']);
    await page.keyboard.press('Escape');
    expect(await sizePrinted(page, 'print gift Mitts for Ines')).toBe('gift Mitts for Ines');
  });

  test.each(['fit-sock', 'resize-sweater'])(
    '%s, every size at once: nothing is cut at the page’s edge, and no row goes over a page break',
    async (name) => {
      const page = await openByFile(name);
      await page.locator('.steps-sizes input').check();
      const pages = pageCount(await page.pdf({ format: 'A4' }));
      await page.evaluate(() => void dispatchEvent(new Event('beforeprint')));
      await page.emulateMedia({ media: 'print' });
      const laid = (height: number) =>
        page.locator('.paper').evaluate(laidInPages, { width: A4.width, height });
      const found = await laid(A4.height);
      expect(found).toMatchObject({ pages, cut: [], split: [] });
      expect(found.rows).toBeGreaterThan(40);
      // Wherever a page ends: as paper, printer and notebook have it.
      for (let height = 500; height < A4.height; height += 37)
        expect(await laid(height), `${height}`).toMatchObject({ cut: [], split: [] });
    },
  );

  test('with every size at once nothing runs out of its column, long words neither', async () => {
    const page = await openByFile('fit-sock');
    await page.locator('.steps-sizes input').check();
    await page.evaluate(() => void dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 703, height: 1000 }); // A4 less its margins.
    const outside = await page.locator('.paper-columns section').evaluateAll((sections) =>
      sections.flatMap((section) => {
        const { right } = section.getBoundingClientRect();
        return [...section.querySelectorAll('td')]
          .filter((cell) => cell.getBoundingClientRect().right > right + 1)
          .map((cell) => cell.textContent);
      }),
    );
    expect(outside).toEqual([]);
  });
});
