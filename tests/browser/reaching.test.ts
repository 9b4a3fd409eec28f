// Getting where one wants to be: by Esc, by the link past the head, and with a thumb.
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { numbers, openBlank, openFieldfare, row, standOn, values } from './sheet-page.ts';
import { openApp } from './support.ts';

async function beginMore(page: Page, from: string): Promise<void> {
  await page.getByRole('button', { name: 'More to start from' }).click();
  await page.getByRole('main').getByRole('button', { name: from }).first().click();
}

const PHONE = { width: 390, height: 844, touch: true };

test('Esc goes back on the one value that is tried, and the link past the head leads into the sheet', async () => {
  const page = await openApp();
  await row(page, 'stitch gauge').waitFor();
  const before = await numbers(page, 'stitch gauge');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.closest('[role=gridcell]'));
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('+');
  await page.locator('.trial-bar').waitFor();
  await page.keyboard.press('Escape');
  await page.locator('.trial-bar').waitFor({ state: 'detached' });
  expect(await numbers(page, 'stitch gauge')).toEqual(before);
});

test('of several that are tried Esc goes back on the one where she stands', async () => {
  const page = await openFieldfare();
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('+');
  await standOn(page, 'ease wanted');
  await page.keyboard.press('+');
  await standOn(page, 'neck');
  await page.keyboard.press('Escape');
  await standOn(page, 'ease wanted');
  expect(await numbers(page, 'ease wanted')).toEqual(['3¼']);
  await page.keyboard.press('Escape');
  await expect.poll(() => numbers(page, 'ease wanted')).toEqual(['3']);
  expect(await numbers(page, 'stitch gauge')).toEqual(['21½']);
});

test('with a thumb: the row that stands open is written in at the first touch, and your column’s name is in sight', async () => {
  const page = await openApp(PHONE);
  await values(page, 'stitch gauge').first().tap();
  await row(page, 'stitch gauge').locator('.editor').waitFor();
  await page.keyboard.press('Escape');
  await row(page, 'row gauge').locator('.n').tap(); // This one only opens.
  await row(page, 'row gauge')
    .getByRole('button', { name: /more|\+/ })
    .first()
    .waitFor();
  expect(await page.locator('.editor').count()).toBe(0);

  await page.locator('.nav-button').tap();
  await page.getByText('More to start from').tap();
  await page
    .getByRole('button', { name: /^Grow a shawl/ })
    .first()
    .tap();
  await row(page, 'planned rows').waitFor();
  const head = page.locator('.head.pick');
  await expect
    .poll(async () => {
      const box = await head.boundingBox();
      return box !== null && box.x >= 0 && box.x + box.width <= PHONE.width;
    })
    .toBe(true);
});

test('with a thumb: what is written covers no other column’s number', async () => {
  const page = await openFieldfare(PHONE);
  const all = values(page, 'pattern body stitches');
  await all.first().tap();
  if ((await page.locator('.editor').count()) === 0) await all.first().tap();
  const box = await row(page, 'pattern body stitches').locator('.editor').boundingBox();
  const other = await all.nth(1).boundingBox();
  if (!box || !other) throw new Error('the editor or the number has no place on the page');
  const isBeside =
    other.x >= box.x + box.width || other.y >= box.y + box.height || other.y + other.height <= box.y;
  expect(isBeside).toBe(true);
});

test('with a thumb: the list and a blank page’s first cell are as wide as the screen', async () => {
  const page = await openBlank(PHONE);
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
  const edges = await page
    .locator('.first-cell > *')
    .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().right));
  expect(Math.max(...edges)).toBeLessThanOrEqual(PHONE.width);
  await page.getByRole('textbox', { name: 'the name of your first cell' }).fill('stitch gauge');
  await page.keyboard.press('Enter');
  const value = page.getByRole('textbox', { name: 'its value' });
  expect(await value.getAttribute('placeholder')).toBe('20 sts / 10 cm');
  await value.fill('20 sts / 10 cm');
  expect(await page.locator('.sheet').evaluate((sheet) => [sheet.scrollLeft, sheet.scrollWidth])).toEqual([
    0,
    PHONE.width,
  ]);
  await page.keyboard.press('Enter');
  await row(page, 'stitch gauge').locator('.how .more').tap();
  await page.getByRole('menu').waitFor();
  await page.keyboard.press('Escape');
  await page.locator('.nav-button').tap();
  await page.locator('.veil').waitFor();
  expect(await wide()).toBe(PHONE.width);
});

test('with a thumb: “…” opens at the first touch, and the large number stands for your column’s value', async () => {
  const page = await openApp(PHONE);
  await page.locator('.nav-button').tap();
  await page.getByRole('button', { name: 'Fit a sock' }).tap();
  await row(page, 'foot girth').waitFor();
  const first = page.locator('.row.typed.each').first();
  await first.locator('.nm').tap();
  await first.locator('.step.more').waitFor();
  await first.locator('.how .more').tap();
  await page.getByRole('menu').waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('menu').waitFor({ state: 'detached' });

  const other = page.locator('.row.typed.each').nth(1);
  await other.locator('.chosen-value .n').tap();
  await other.locator('.step.more').waitFor();
  expect(await other.locator('.v.pick').evaluate((cell) => cell === document.activeElement)).toBe(true);
  await other.locator('.v.pick .n').tap();
  await other.locator('.editor').waitFor();
});

/** The row and the part of it that has the keyboard. */
function focused(page: Page): Promise<string> {
  return page.evaluate(() => {
    const part = document.activeElement?.closest<HTMLElement>('[data-part]');
    const row = part?.closest('[data-row]');
    const name = row?.querySelector('.nm, h2')?.textContent ?? row?.className ?? '';
    return `${name} ${part?.dataset['part'] ?? 'nowhere'}`;
  });
}

test('a notebook begun by a key has the keyboard at its first value', async () => {
  const page = await openApp();
  await row(page, 'stitch gauge').waitFor();
  await page.getByRole('button', { name: 'Fit a sock' }).focus();
  await page.keyboard.press('Enter');
  await row(page, 'foot girth').waitFor();
  await expect.poll(() => focused(page)).toBe('foot girth 1');
});

test('Ctrl and an arrow go from section to section, and words typed on a heading change nothing', async () => {
  const page = await openApp();
  await beginMore(page, 'Knit a raglan');
  await page.locator('.title', { hasText: 'raglan' }).waitFor();
  const titles = await page.locator('.section-title').allTextContents();
  const notes = await page.locator('.about-text').allTextContents();
  await page.keyboard.press('ControlOrMeta+Home');
  const come: string[] = [];
  for (let i = 0; i < titles.length; i += 1) {
    await page.keyboard.press('ControlOrMeta+ArrowDown');
    come.push((await focused(page)).replace(/ \w+$/, ''));
  }
  expect(come).toEqual(titles);
  expect(await page.locator('.section-head.standing').boundingBox()).toMatchObject({
    y: expect.toSatisfy((y: number) => y > 0 && y < 860),
  });
  await page.keyboard.press('ControlOrMeta+ArrowUp');
  expect(await focused(page)).toBe(`${titles.at(-2)} 0`);

  await page.keyboard.press('ArrowRight');
  await page.keyboard.type('sleeve length');
  expect(await page.locator('.section-head input').count()).toBe(0);
  await page.keyboard.press('Enter');
  const field = page.locator('.section-head input');
  await field.waitFor();
  expect(await field.evaluate((one: HTMLInputElement) => [one.selectionStart, one.selectionEnd])).toEqual([
    notes.at(-2)?.length,
    notes.at(-2)?.length,
  ]);
  await page.keyboard.press('Escape');
  expect(await page.locator('.about-text').allTextContents()).toEqual(notes);
});

test('Ctrl and Home take the sheet to its top, from its end too', async () => {
  const page = await openApp();
  await row(page, 'stitch gauge').waitFor();
  const scrolled = () => page.locator('.sheet').evaluate((sheet) => sheet.scrollTop);
  await page.keyboard.press('ControlOrMeta+End');
  await expect.poll(scrolled).toBeGreaterThan(1000);
  await page.keyboard.press('ControlOrMeta+Home');
  await expect.poll(scrolled).toBe(0);
  expect(
    await page.evaluate(() => document.activeElement?.closest('[data-row]')?.getAttribute('data-row')),
  ).toBe('head');
});

test('− and + cover no number beside them, however narrow the columns, and nothing that is said goes on below them', async () => {
  const page = await openApp({ width: 1440, height: 960 });
  await row(page, 'stitch gauge').waitFor();
  await beginMore(page, 'Count the yarn');
  await row(page, 'stitches in part').waitFor();
  for (const column of [1, 3, 4, 5]) {
    await standOn(page, 'stitches in part', column);
    const room = await values(page, 'stitches in part')
      .nth(column)
      .evaluate((cell) => {
        const [less, more] = [...cell.querySelectorAll('.step')].map((step) => step.getBoundingClientRect());
        const beside = [cell.previousElementSibling, cell.nextElementSibling];
        const [left, right] = beside.map((one) => one?.querySelector('.n')?.getBoundingClientRect());
        return [(less?.left ?? 0) - (left?.right ?? 0), (right?.left ?? 0) - (more?.right ?? 0)];
      });
    expect(Math.min(...room)).toBeGreaterThanOrEqual(0);
  }
  await beginMore(page, 'Knit for a baby');
  await row(page, 'washable').waitFor();
  await standOn(page, 'washable');
  const says = await row(page, 'washable').locator('.says').boundingBox();
  const more = await row(page, 'washable').locator('.step.more').boundingBox();
  expect(says?.x).toBeGreaterThan((more?.x ?? Infinity) + (more?.width ?? 0));
});
