// What a thumb touches on a phone is large enough: 24 pixels each way everywhere, as WCAG 2.2 (2.5.8) asks, and 44 where
// there is room. A value within a sentence is as high as its line.
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { prebuilt } from '../../src/app/prebuilt.ts';
import { openNotebook } from '../support/notebook.ts';
import { openApp } from './support.ts';

/** What can be touched within an element and is smaller, with its size: once for each kind. Runs in the page. */
function smaller(within: Element, least: number): readonly string[] {
  const TARGETS =
    'button, summary, select, input:not(label input), label:has(input), [role=button], [role=tab], [role=gridcell]';
  const found = new Map<string, string>();
  for (const block of within.querySelectorAll<HTMLElement>('.block'))
    block.style.contentVisibility = 'visible';
  for (const one of within.querySelectorAll(TARGETS)) {
    const { width, height } = one.getBoundingClientRect();
    const isShown = one.checkVisibility({ visibilityProperty: true }) && width > 1;
    const isEmptyCell = one.matches('[role=gridcell]') && one.textContent?.trim() === '';
    const isInSentence = getComputedStyle(one).display === 'inline';
    if (!isShown || isEmptyCell || isInSentence || Math.min(width, height) >= least - 0.5) continue;
    const kind = `${one.parentElement?.getAttribute('class')} > ${one.getAttribute('class')}`;
    const name = one.getAttribute('aria-label') ?? one.textContent ?? '';
    found.set(kind, `${kind} “${name.slice(0, 30)}” ${Math.round(width)} × ${Math.round(height)}`);
  }
  return [...found.values()];
}

/** Looks at a part of the page, the drawings in it as they are. */
const smallIn = (page: Page, part: string, least: number) =>
  page.locator(part).first().evaluate(smaller, least);

/** Begins a notebook from the list behind the ruler. */
async function begin(page: Page, name: string, title: string): Promise<void> {
  await page.locator('.nav-button').tap();
  await page
    .getByRole('button', { name: /^(More to start from|All notebooks)$/ })
    .last()
    .tap();
  await page
    .getByRole('main')
    .getByRole('button', { name: new RegExp(`^${title} ?[A-Z]`) })
    .tap();
  await page.locator('.title', { hasText: openNotebook(name).title }).waitFor();
  await page.locator('.sheet-body .row').first().waitFor();
}

for (const { name, title } of prebuilt.filter(({ name: one }) =>
  ['resize-sweater', 'fit-sock', 'edge-shawl', 'count-yarn'].includes(one),
))
  test(`${title}: everything a thumb touches is large enough`, async () => {
    const page = await openApp({ width: 390, height: 844, touch: true });
    await page.locator('.row').first().waitFor();
    await begin(page, name, title);
    const small: string[] = [];
    const look = async (part: string, least = 24) => {
      small.push(...(await smallIn(page, part, least)).map((one) => `${part}: ${one}`));
    };
    await look('.header', 44);
    const undo = await page.locator('.header .undo').boundingBox();
    expect((undo?.x ?? 0) + (undo?.width ?? 0), 'undo stands at the edge').toBe(380);
    await look('.sheet');
    await look('.add-row', 44);
    // A value being tried, in one of several columns where there are some.
    const closed = '.row.typed:not(.standing):has(.v .n)';
    const each = page.locator(`${closed}.each`);
    const one = (await each.count()) > 0 ? each : page.locator(closed);
    const typed = page.locator(`[data-row="${await one.first().getAttribute('data-row')}"]`);
    await typed.locator('.v:is(.pick, .wide) .n').first().tap();
    await typed.locator('.step.more').tap();
    await page.locator('.trial-bar').waitFor();
    await look('.sheet');
    await look('.foot', 44);
    for (const tab of ['Drawings', 'How far off', 'What to knit']) {
      const button = page.locator('.phone-tabs').getByRole('button', { name: tab, exact: true });
      if ((await button.count()) === 0) continue;
      await button.tap();
      await page.waitForFunction(() =>
        [...document.querySelectorAll<HTMLElement>('.panel')].every(
          (one) =>
            one.offsetParent === null || (one.children.length > 1 && !one.querySelector('[aria-busy=true]')),
        ),
      );
      await look('.aside');
    }
    await look('.phone-tabs', 44);
    await page.locator('.nav-button').tap();
    await look('.nav', 44);
    expect(small).toEqual([]);
  });

test('what can be touched in a sentence leaves its lines as far apart as any', async () => {
  const page = await openApp({ width: 390, height: 844, touch: true });
  await page.locator('.row').first().waitFor();
  await page.locator('.phone-tabs').getByRole('button', { name: 'How far off', exact: true }).tap();
  const sentence = page.locator('.otherwise li').filter({ hasText: 'body stitches' }).first();
  await sentence.waitFor();
  const apart = await sentence.evaluate((one) => {
    const range = document.createRange();
    range.selectNodeContents(one);
    const feet = [...range.getClientRects()].filter(({ height }) => height < 40).map(({ bottom }) => bottom);
    const lines = [...new Set(feet.map(Math.round))].sort((a, b) => a - b);
    return lines.slice(1).map((foot, i) => foot - (lines[i] ?? 0));
  });
  expect(apart.length).toBeGreaterThan(0);
  for (const gap of apart) expect(gap).toBeLessThan(26);
  expect((await sentence.locator('.go-to').boundingBox())?.height).toBeGreaterThanOrEqual(43.5);
});
