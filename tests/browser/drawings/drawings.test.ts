// Drawings in a real browser, with the real letters: texts are never wider than their ground, each is a button that
// a finger and the keyboard can reach, and a new width lays the drawing out anew.
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import solid from 'vite-plugin-solid';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { browser, runAxe } from '../support.ts';

let page: Page;

/** The test page as one script and one style sheet. */
async function bundle(): Promise<{ readonly js: string; readonly css: string }> {
  const built = await build({
    configFile: false,
    logLevel: 'warn',
    plugins: [solid()],
    define: { 'process.env.NODE_ENV': '"production"' },
    build: {
      write: false,
      minify: false,
      lib: { entry: join(import.meta.dirname, 'page.tsx'), formats: ['iife'], name: 'drawings' },
    },
  });
  const outputs = [built].flat().flatMap((one) => ('output' in one ? one.output : []));
  const js = outputs.flatMap((one) => (one.type === 'chunk' ? [one.code] : [])).join('\n');
  const css = outputs.flatMap((one) => (one.type === 'asset' ? [String(one.source)] : [])).join('\n');
  return { js, css };
}

beforeAll(async () => {
  const { js, css } = await bundle();
  page = await (await browser()).newPage({ viewport: { width: 400, height: 900 } });
  await page.setContent(
    '<!doctype html><html lang="en"><title>drawings</title><body><main><h1 class="hidden">A drawing</h1></main></body></html>',
  );
  await page.addStyleTag({ content: css });
  await page.addScriptTag({ content: js });
  await page.locator('.drawing svg').waitFor();
  await page.evaluate(() => document.fonts.load('600 16px "Atkinson Hyperlegible Next Variable"'));
  await page.evaluate(() => document.fonts.ready);
});

afterAll(() => page.close());

/** What stands on the page wider than its ground, or on another text: one line each. */
function faultsOnPage(): readonly string[] {
  const faults: string[] = [];
  const texts = [...document.querySelectorAll<SVGTextElement>('.drawing-text')];
  const boxes = texts.map((text) => text.getBoundingClientRect());
  texts.forEach((text, k) => {
    const box = boxes[k];
    const ground = text.parentElement?.querySelector('.drawing-touch')?.getBoundingClientRect();
    if (!box) return;
    // Two pixels of ground on either side: at some sizes the browser sets letters up to a pixel wider than measured.
    if (ground && (box.width > ground.width - 4 || box.left < ground.left || box.right > ground.right))
      faults.push(`"${text.textContent}" is ${box.width} wide on ${ground.width}`);
    if (ground && ground.height < 23.9)
      faults.push(`"${text.textContent}" is ${ground.height} high to the touch`);
    const high = (one: DOMRect) => [one.top + one.height * 0.2, one.bottom - one.height * 0.2] as const;
    boxes.slice(k + 1).forEach((other, n) => {
      const [[top, bottom], [otherTop, otherBottom]] = [high(box), high(other)];
      const apart =
        box.right <= other.left + 0.5 ||
        other.right <= box.left + 0.5 ||
        bottom <= otherTop ||
        otherBottom <= top;
      if (!apart) faults.push(`"${text.textContent}" lies on "${texts[k + 1 + n]?.textContent}"`);
    });
  });
  if (document.documentElement.scrollWidth > window.innerWidth) faults.push('the page scrolls sideways');
  return faults;
}

test.each([320, 390, 700, 1000])(
  'with the real letters every text keeps to its ground, %i px wide',
  async (width) => {
    await page.setViewportSize({ width, height: 900 });
    for (const name of await page.evaluate(() => window.names)) {
      await page.evaluate((next) => window.show(next), name);
      await page.waitForFunction(() => {
        const svg = document.querySelector('.drawing svg');
        return (
          Number(svg?.getAttribute('viewBox')?.split(' ')[2]) ===
          document.querySelector('.drawing')?.clientWidth
        );
      });
      expect(await page.evaluate(faultsOnPage), `${name} at ${width}`).toEqual([]);
    }
  },
);

test('the check sees letters that are wider than was thought', async () => {
  await page.evaluate(() => window.show('pullover'));
  const style = await page.addStyleTag({ content: '.drawing-text { letter-spacing: 3px }' });
  expect((await page.evaluate(faultsOnPage)).join()).toContain('wide on');
  await style.evaluate((element) => (element as Element).remove());
  expect(await page.evaluate(faultsOnPage)).toEqual([]);
});

test('a text is chosen with a finger, and what is chosen outside is marked', async () => {
  await page.evaluate(() => window.show('pullover'));
  await page.getByRole('button', { name: 'chest 41¼ in around' }).click();
  expect(await page.evaluate(() => window.selected())).toBe('cell-chest');
  expect(await page.locator('.drawing-button[aria-pressed="true"]').allTextContents()).toEqual([
    'chest 41¼ in around',
  ]);
  await page.evaluate(() => window.show('pullover', 'cell-yoke_rows'));
  expect(await page.locator('.drawing-button[aria-pressed="true"]').allTextContents()).toEqual(['63 rnds']);
});

test('the keyboard comes to one text, goes on by the arrows, and chooses with Enter', async () => {
  await page.evaluate(() => window.show('sock'));
  await page.locator('body').click({ position: { x: 1, y: 1 } });
  await page.keyboard.press('Tab');
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label'));
  const first = await focused();
  await page.keyboard.press('ArrowRight');
  const second = await focused();
  expect(second).not.toBe(first);
  await page.keyboard.press('Enter');
  expect(await page.locator('.drawing-button[aria-pressed="true"]').first().getAttribute('aria-label')).toBe(
    second,
  );
  await page.keyboard.press('End');
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.closest('.drawing'))).toBeNull();
  expect(await page.locator('.drawing-button[tabindex="0"]').count()).toBe(1);
});

test('its words say what it shows, and axe finds nothing wrong', async () => {
  for (const name of await page.evaluate(() => window.names)) {
    await page.evaluate((next) => window.show(next), name);
    await runAxe(page);
  }
  await page.evaluate(() => window.show('pullover'));
  const words = await page.locator('.drawing figcaption').textContent();
  expect(words).toContain('The body is 41¼ in around, on 184 sts.');
  expect(await page.locator('.drawing svg').getAttribute('aria-describedby')).toBe(
    await page.locator('.drawing figcaption').getAttribute('id'),
  );
});
