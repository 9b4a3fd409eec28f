// What to knit, and the page of units and functions, in the built app on a prebuilt notebook.
import { describe, expect, test } from 'vitest';
import { axeFaults, openApp } from './support.ts';

describe('what to knit', () => {
  test('a ticked step keeps its count when the gauge changes; unticking frees it', async () => {
    const page = await openApp({ height: 1600 });
    await page.getByRole('checkbox', { name: 'step 1 done' }).waitFor();
    const row = page.locator('.row', { hasText: 'cast on' }).first();
    const before = await row.innerText();
    await page.getByRole('checkbox', { name: 'step 1 done' }).check();
    await page.waitForFunction(() => document.body.innerText.includes('on the needles'));
    await page.getByRole('checkbox', { name: 'step 1 done' }).uncheck();
    await page.waitForFunction(() => !document.querySelector('.pin'));
    expect((await row.innerText()).replace(/\s+/g, ' ')).toBe(before.replace(/\s+/g, ' '));
  });

  test('the step in hand counts rows and takes one back', async () => {
    const page = await openApp({ height: 1600 });
    await page.getByRole('checkbox', { name: 'step 1 done' }).check();
    const words = page.locator('.step-count span').first();
    await words.waitFor();
    await page.getByRole('button', { name: 'one row done' }).first().click();
    await page.waitForFunction(() =>
      /\b1 of \d+/.test(document.querySelector('.step-count span')?.textContent ?? ''),
    );
    await page.getByRole('button', { name: 'one row back' }).first().click();
    await page.waitForFunction(
      () => !/\b1 of \d+/.test(document.querySelector('.step-count span')?.textContent ?? ''),
    );
    expect(await axeFaults(page)).toEqual([]);
  });
});

test.each([false, true])('units and functions are a page of the app (dark: %s)', async (dark) => {
  const page = await openApp({ dark });
  await page.getByRole('button', { name: 'Units and functions' }).click();
  await page.getByRole('heading', { name: 'Units and functions' }).waitFor();
  const text = await page.locator('.reference').innerText();
  for (const word of [
    'multiple(x, n, [plus])',
    'heel_turn(',
    'nearest(',
    'also written sts',
    '18 ± 0.5 st / 4 in',
  ])
    expect(text).toContain(word);
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  await page.locator('.row').first().waitFor();
});
