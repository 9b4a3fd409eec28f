import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { editor, editorIsHere, numbers, openFieldfare, row, standOn, values } from './sheet-page.ts';
import { openApp, runAxe, shot } from './support.ts';

/** Without the list of notebooks to begin from, which grows and is not what these pictures are about. */
async function shotOfSheet(page: Page, name: string): Promise<void> {
  await page.locator('.nav section', { hasText: 'start a new one from' }).evaluate((list) => list.remove());
  await shot(page, name);
}

for (const dark of [false, true]) {
  const theme = dark ? 'dark' : 'light';

  test(`a first visit, and three nudges later, ${theme}`, async () => {
    const page = await openApp({ dark, height: 960 });
    await row(page, 'stitch gauge').locator('.step').first().waitFor();
    await page.locator('.drawing').first().waitFor();
    for (let i = 0; i < 3; i += 1) await page.keyboard.press('-');
    await page.locator('.trial-bar').waitFor();
    await runAxe(page);
    await shot(page, `resize-${theme}`);
  });

  test(`a change being tried, at 1440 pixels, ${theme}`, async () => {
    const page = await openFieldfare({ dark });
    await standOn(page, 'stitch gauge');
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('-');
    await runAxe(page);
    await shotOfSheet(page, `sheet-trial-${theme}`);
  });

  test(`writing with a mistake, workings open, at 1440 pixels, ${theme}`, async () => {
    const page = await openFieldfare({ dark });
    await editorIsHere(page);
    await standOn(page, 'own count');
    await page.keyboard.press(' ');
    await page.keyboard.press('Enter');
    await editor(page).waitFor();
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('multiple((chest + ease_wnted) * stitch_gauge, 6)');
    await page.locator('.t-mistake').waitFor();
    await runAxe(page);
    await shotOfSheet(page, `sheet-writing-${theme}`);
  });

  test(`a row’s menu, ${theme}`, async () => {
    const page = await openFieldfare({ dark });
    await standOn(page, 'cuff');
    await page.keyboard.press('Shift+F10');
    await page.getByRole('menuitem').first().waitFor();
    await runAxe(page);
  });

  test(`the notebook’s file, ${theme}`, async () => {
    const page = await openFieldfare({ dark });
    await page.locator('.header').getByRole('button', { name: 'File', exact: true }).click();
    await page.getByRole('textbox', { name: 'this notebook’s file' }).waitFor();
    await runAxe(page);
  });

  test(`a phone, with a thumb, ${theme}`, async () => {
    const page = await openFieldfare({ dark, width: 390, height: 844, touch: true });
    await row(page, 'stitch gauge').locator('.pill').tap();
    const less = row(page, 'stitch gauge').getByRole('button', { name: 'less' });
    for (let i = 0; i < 4; i += 1) await less.tap();
    expect(await numbers(page, 'stitch gauge')).toEqual(['19']);
    await row(page, 'stitch gauge').getByRole('button', { name: 'keep 19' }).waitFor();
    await runAxe(page);
    await shotOfSheet(page, `phone-trial-${theme}`);
  });
}

test('on a phone whatever is touched is at least 44 pixels high', async () => {
  const page = await openFieldfare({ width: 390, height: 844, touch: true });
  await row(page, 'stitch gauge').locator('.pill').tap();
  await row(page, 'stitch gauge').getByRole('button', { name: 'more' }).first().tap();
  for (const target of ['.step', '.offers button', '.row.each .v', '.head.v', '.trial-bar button']) {
    // Keeping and going back are at hand on the other tabs too.
    if (target.startsWith('.trial-bar')) await page.getByRole('button', { name: 'How far off' }).tap();
    const shown = page.locator(`${target}:visible`);
    await shown.first().waitFor();
    const heights = await shown.evaluateAll((all) => {
      return all.map((one) => Math.round(one.getBoundingClientRect().height));
    });
    expect(Math.min(...heights), target).toBeGreaterThanOrEqual(44);
  }
});

test('a finger drawn sideways over a value nudges it', async () => {
  const page = await openFieldfare({ width: 390, height: 844, touch: true });
  await row(page, 'stitch gauge').locator('.pill').tap();
  const box = await row(page, 'stitch gauge').locator('.n').boundingBox();
  if (!box) throw new Error('the value has no place on the page');
  const touch = await page.context().newCDPSession(page);
  const at = (x: number) => [{ x, y: box.y + box.height / 2 }];
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(box.x + 5) });
  for (const x of [20, 35, 50]) {
    await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(box.x + 5 + x) });
  }
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await expect.poll(() => numbers(page, 'stitch gauge')).toEqual(['22½']);
});

test('at 200 % zoom nothing is lost and nothing scrolls sideways', async () => {
  const page = await openFieldfare({ width: 720, height: 450 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  await values(page, 'finished chest').first().scrollIntoViewIfNeeded();
  expect(await values(page, 'finished chest').first().isVisible()).toBe(true);
  await runAxe(page);
});

test('one place in the grid is reached by Tab, and arrows, Home and End go everywhere', async () => {
  const page = await openFieldfare();
  expect(await page.locator('[role=grid] [tabindex="0"]').count()).toBe(1);
  await standOn(page, 'pattern body stitches');
  const focused = () =>
    page.evaluate(() => {
      const cell = document.activeElement;
      return `${cell?.closest('[data-row]')?.querySelector('.nm')?.textContent ?? ''} ${(cell as HTMLElement).dataset['part']}`;
    });
  await page.keyboard.press('ArrowRight');
  expect(await focused()).toBe('pattern body stitches 2');
  await page.keyboard.press('ArrowDown');
  expect(await focused()).toBe('finished chest 2');
  await page.keyboard.press('End');
  expect(await focused()).toBe('finished chest how');
  await page.keyboard.press('Home');
  expect(await focused()).toBe('finished chest 0');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  expect(await focused()).toBe('size to follow 1');
  await page.keyboard.press('ArrowUp');
  expect(await focused()).toBe('ease 2');
  await page.keyboard.press('ControlOrMeta+End');
  expect(await page.locator('.add-row.last :focus, .add-row.last [data-part]:focus').count()).toBe(1);
  await page.keyboard.press('ControlOrMeta+Home');
  expect(
    await page.evaluate(() => document.activeElement?.closest('[data-row]')?.getAttribute('data-row')),
  ).toBe('head');
  expect(await page.locator('[role=grid] [tabindex="0"]').count()).toBe(1);
});
