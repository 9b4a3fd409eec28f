/*
 * The built app for the parts of the bench that need a page: built as users get it, served, and opened in the browser
 * that the tests use. A notebook can be put in the place of the one a first visit begins with.
 */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { buildApp, serveApp } from '../browser/built-app.ts';
import { findBrowser, launchOptions } from '../browser/find-browser.ts';
import { generate } from './generate.ts';

const root = join(process.env['BENCH_FOLDER'] ?? import.meta.dirname, '../..');

/** The served app and a browser to open it in. */
export interface Web {
  /** Where the app is served, with a slash at the end. */
  readonly url: string;
  /** The folder of the built files. */
  readonly folder: string;
  /** A profile with nothing in it, each time another. */
  fresh(): Promise<BrowserContext>;
  close(): Promise<void>;
}

/** The page that `url + empty` answers: nothing but one word. */
export const empty = 'empty.html';

/** Builds, serves and starts. Throws when the app cannot be built or no browser starts. */
export async function openWeb({ scrollBars = false } = {}): Promise<Web> {
  const folder = mkdtempSync(join(tmpdir(), 'ellwand-bench-'));
  buildApp(root, folder);
  writeFileSync(
    join(folder, empty),
    '<!doctype html><html lang="en"><title>x</title><p data-row="k:">x</p></html>',
  );
  const server = await serveApp(root, folder);
  const browser = await chromium.launch({
    ...launchOptions(await findBrowser()),
    ...(scrollBars ? { ignoreDefaultArgs: ['--hide-scrollbars'] } : {}),
  });
  return {
    url: server.resolvedUrls?.local[0] ?? '',
    folder,
    fresh: () =>
      browser.newContext({
        viewport: { width: 1440, height: 900 },
        locale: 'en-GB',
        serviceWorkers: 'block',
      }),
    close: async () => {
      await browser.close();
      await server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** A generated notebook as a file: so many formulas, and so many columns in which `chest` differs; `more` moves them all. */
export function notebookText(count: number, columns: number): string {
  const { names, texts, chest } = generate(count);
  const list = Array.from({ length: columns }, (_, i) => ({ id: `c${i + 1}`, label: `S${i + 1}` }));
  const each = Object.fromEntries(list.map(({ id }, i) => [id, `${36 + 2 * i} in`]));
  const cells = names.map((name, i) => ({
    id: `k${i + 1}`,
    name,
    text: i === chest && columns > 1 ? 'before + more' : (texts[i] ?? ''),
  }));
  const varied = [
    { id: nudgedId, name: 'more', text: '1 in' },
    { id: 'kb', name: 'before', each },
  ];
  const sections: unknown[] = columns > 1 ? [{ id: 's0', title: 'Sizes', cells: varied }] : [];
  for (let i = 0; i < cells.length; i += 500)
    sections.push({
      id: `s${sections.length + 1}`,
      title: `Part ${sections.length + 1}`,
      cells: cells.slice(i, i + 500),
    });
  return JSON.stringify({
    ellwand: 1,
    id: 'bench',
    title: 'Generated',
    units: 'in',
    ...(columns > 1 ? { columns: { heading: 'size', list }, chosen: { column: 'c1' } } : {}),
    sections,
  });
}

/** The id of the cell that is nudged: it moves every column of what hangs on `chest`. */
export const nudgedId = 'k0';

/** Opens a generated notebook of so many formulas and columns, as `notebookText` has it, and waits until all of it is there. */
export async function openGenerated(web: Web, cells: number, columns: number): Promise<Page> {
  const page = await openOn(web, notebookText(cells, columns));
  await page.waitForFunction(
    (count) => document.querySelectorAll('[data-row^="k:"]').length >= count,
    cells,
    { timeout: 120_000 },
  );
  return page;
}

/** The ways on from a notebook that was dropped: a long one is asked for first. */
const WAY_ON = /^(Show it all the same|Keep a copy)$/;

/** Opens the app, and in it a notebook: dropped as a file, and kept. */
export async function openOn(web: Web, text: string): Promise<Page> {
  const page = await (await web.fresh()).newPage();
  page.setDefaultTimeout(120_000);
  await page.goto(web.url);
  await page.locator('[data-row^="k:"]').first().waitFor();
  await page.evaluate((content) => {
    const files = new DataTransfer();
    files.items.add(new File([content], 'generated.json'));
    document.body.dispatchEvent(new DragEvent('drop', { bubbles: true, dataTransfer: files }));
  }, text);
  const way = page.getByRole('button', { name: WAY_ON });
  await way.first().waitFor();
  do {
    const button = await way.first().elementHandle();
    await button?.click();
    await button?.waitForElementState('hidden');
    await page.locator(`[data-row="k:${nudgedId}"]`).waitFor();
  } while ((await way.count()) > 0);
  return page;
}
