// How far off, working back, and trials side by side, in the built app.
import type { Locator, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { goBack, numbers, openFieldfare, row, standOn, told, values } from './sheet-page.ts';
import { openApp, runAxe } from './support.ts';

const panel = (page: Page): Locator => page.locator('.panel[data-tab="doubt"]');

/** How wide the first bar is on the page. */
async function barWidth(page: Page): Promise<number> {
  return (await panel(page).locator('.band').first().boundingBox())?.width ?? 0;
}

/** Opens the page that stands in place of the sheet, from the list at the left. */
async function openSideBySide(page: Page): Promise<void> {
  const list = page.locator('.nav-button');
  if (await list.isVisible()) await list.click();
  await page.locator('.nav').getByRole('button', { name: 'Side by side' }).click();
  await page.getByRole('heading', { name: 'Side by side' }).waitFor();
}

const outcomes = (page: Page, name: string): Promise<readonly string[]> =>
  page.locator(`.beside-table tr:has(> th:text-is("${name}")) > td`).allInnerTexts();

for (const dark of [false, true])
  test(`bars appear on focus, and changing a tolerance moves them, ${dark ? 'dark' : 'light'}`, async () => {
    const page = await openFieldfare({ dark });
    await standOn(page, 'finished chest', 2);
    const bar = panel(page).locator('.bars > li').first();
    await expect
      .poll(() => panel(page).getByRole('heading').first().innerText())
      .toBe('How far off can finished chest be?');
    // Source: arithmetic. 231 st at 20½ and 21½ to 4 in: 45.07 and 42.98 in, to a sixteenth, rounded outward.
    await expect.poll(() => bar.locator('.bar-text').innerText()).toBe('42 15/16 to 45⅛ in');
    await expect
      .poll(() => panel(page).locator('.doubt-worth').innerText())
      .toContain('over 8 in instead of 4');
    await expect.poll(() => panel(page).locator('.otherwise li').count()).toBeGreaterThan(0);
    await runAxe(page);
    if (dark) return;
    const before = await barWidth(page);
    expect(before).toBeGreaterThan(100);

    // By the keyboard: the tolerance is a value of its own.
    await bar.getByRole('spinbutton', { name: 'how far off stitch gauge is' }).press('ArrowUp');
    await expect.poll(() => bar.locator('.bar-text').innerText()).toBe('42 7/16 to 45 11/16 in');
    expect(await told(page, 'stitch gauge')).toContain('± ¾');
    expect(await barWidth(page)).toBeGreaterThan(before * 1.2);
    // By the mouse, back again and further.
    await bar.hover();
    for (let i = 0; i < 2; i += 1)
      await bar.getByRole('button', { name: 'surer of stitch gauge', exact: true }).click();
    await expect.poll(() => barWidth(page)).toBeLessThan(before * 0.8);
    // Undo takes each step back.
    for (let i = 0; i < 3; i += 1) await page.getByRole('button', { name: /^Undo/ }).first().click();
    await expect.poll(() => bar.locator('.bar-text').innerText()).toBe('42 15/16 to 45⅛ in');

    // What is decided is held.
    await standOn(page, 'own count');
    await expect
      .poll(() => panel(page).locator('.doubt-sentence').innerText())
      .toMatch(/^Nothing: once you go by \d+ sts, they stay\.$/);
    await expect.poll(() => bar.innerText()).toContain('nothing');

    // What is usual is put in with one press, and undo takes it out.
    await standOn(page, 'yoke rows');
    await expect
      .poll(() => panel(page).locator('.doubt-sentence').innerText())
      .toBe(
        'The numbers it depends on are taken as exact: none has a ± typed. What is usual for them stands below.',
      );
    const put = panel(page).getByRole('button', { name: 'row gauge ± ½ rows / 4 in' });
    await put.click();
    await expect.poll(() => told(page, 'row gauge')).toContain('± ½');
    await page.locator('.notice').getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => told(page, 'row gauge')).not.toContain('± ½');
  });

test('what would have to change: a key, an answer while it is written, one press makes it a trial', async () => {
  const page = await openFieldfare();
  await standOn(page, 'finished chest', 2);
  await page.keyboard.press('Alt+Enter');
  const wanted = page.getByRole('textbox', { name: 'For finished chest, M to be' });
  await expect.poll(() => wanted.evaluate((one) => document.activeElement === one)).toBe(true);
  const answer = page.locator('.back-answer');
  await wanted.fill('42');
  // Source: arithmetic. 231 st ÷ 42 in = 5.5 st to the inch, 22 to 4 in.
  await expect
    .poll(() => answer.innerText())
    .toBe('With stitch gauge 22 sts / 4 in, finished chest, M comes to 42 in.');
  await runAxe(page);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter'); // On the way it offers.
  await page.locator('.trial-bar').waitFor();
  expect((await numbers(page, 'finished chest'))[2]).toBe('42');
  expect(await page.locator('.back-ask').count()).toBe(0);
  expect(
    await values(page, 'finished chest')
      .nth(2)
      .evaluate((one) => document.activeElement === one),
  ).toBe(true);
  await goBack(page);
  expect(await told(page, 'stitch gauge')).toContain('21');

  // From the menu, where counts step: both neighbours; Esc leaves it.
  await standOn(page, 'own count');
  await page.keyboard.press('Shift+F10');
  await page.getByRole('menuitem', { name: 'what would have to change' }).click();
  await page.getByRole('textbox', { name: 'For own count to be' }).fill('212');
  await page.getByLabel('what has to change is').selectOption({ label: 'chest, now 37 in' });
  await expect.poll(() => page.locator('.back-offers button').count()).toBe(2);
  expect(await answer.innerText()).toMatch(/210 sts with any chest from .* 216 sts with any chest from/);
  await page.getByRole('textbox', { name: 'For own count to be' }).fill('9000');
  // Chest 0 to 4 × 37 in, with 3 in of ease: 3 in and 151 in at 21 st to 4 in, 15.75 and 792.75 st, to multiples of 6.
  await expect
    .poll(() => answer.innerText())
    .toBe('Cannot be reached: with chest between 0 and 148 in, own count lies between 18 and 792 sts.');
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('.back-ask').count()).toBe(0);
  // A size has its few answers to choose from.
  await standOn(page, 'size to follow');
  await page.keyboard.press('Alt+Enter');
  await page.getByRole('combobox', { name: 'For size to follow to be' }).selectOption('L');
  await expect.poll(() => answer.innerText()).toMatch(/makes size to follow L\.$/);
});

test('two trials side by side, what differs marked, after a reload too', async () => {
  const page = await openFieldfare();
  await standOn(page, 'stitch gauge');
  for (let i = 0; i < 4; i += 1) await page.keyboard.press('-');
  await page.locator('.trial-bar').getByRole('button', { name: 'Put aside to compare' }).click();
  await expect.poll(() => page.locator('.trial-bar').count()).toBe(0);
  await expect.poll(() => numbers(page, 'stitch gauge')).toEqual(['21']);
  await standOn(page, 'stitch gauge');
  for (let i = 0; i < 2; i += 1) await page.keyboard.press('+');
  await openSideBySide(page);
  await page.getByRole('button', { name: 'Put aside what you are trying' }).click();
  // Source: arithmetic. 40 in at 21, 19 and 22 st to 4 in: 210, 190 and 220, to multiples of 6.
  const expected = ['210 sts', '192 sts', '222 sts'];
  const plain = async () =>
    (await outcomes(page, 'own count')).map((text) => text.replace(/,? ?differs/, '').trim());
  await expect.poll(plain).toEqual(expected);
  expect(await page.locator('.beside-table tr:has(> th:text-is("own count")) > td.differs').count()).toBe(2);
  const name = page.getByRole('button', { name: /^Name it: stitch gauge 22/ });
  await name.click();
  await page.getByRole('textbox', { name: /^a name for/ }).fill('needle 3.5 mm');
  await page.keyboard.press('Enter');
  await page.getByRole('columnheader', { name: /^needle 3.5 mm/ }).waitFor();
  await runAxe(page);

  await page.getByText('saved on this device').waitFor({ timeout: 10_000 });
  await page.reload();
  await page.getByRole('columnheader', { name: /^needle 3.5 mm/ }).waitFor();
  await expect.poll(plain).toEqual(expected);
  await page.getByRole('checkbox', { name: /^stitch gauge 19/ }).uncheck();
  await expect.poll(plain).toEqual(['210 sts', '222 sts']);
  await page.getByRole('button', { name: 'Go on with it: needle 3.5 mm' }).click();
  await expect.poll(() => numbers(page, 'stitch gauge')).toEqual(['22']);
  await page.locator('.trial-bar').waitFor();
});

test('on a phone: bars, the question and the columns, with a thumb', async () => {
  const page = await openFieldfare({ width: 390, height: 844, touch: true });
  await row(page, 'finished chest').locator('.v').nth(2).tap();
  await page.getByRole('button', { name: 'How far off', exact: true }).tap();
  await expect.poll(() => panel(page).locator('.bar-text').first().innerText()).toMatch(/ to .* in$/);
  const touched = panel(page).locator('.doubt-step:visible, .bars .go-to:visible, .usual-put:visible');
  await expect.poll(() => touched.count()).toBeGreaterThan(2);
  const heights = await touched.evaluateAll((all) =>
    all.map((one) => Math.round(one.getBoundingClientRect().height)),
  );
  expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  await runAxe(page);
  await page.getByRole('button', { name: 'Sheet', exact: true }).tap();
  await row(page, 'finished chest').locator('.more').tap();
  await page.getByRole('menuitem', { name: 'what would have to change' }).tap();
  await page.locator('.back-ask input').fill('42');
  await page.locator('.back-offers button').first().waitFor();
  const small = await page
    .locator('.back-ask input, .back-ask select, .back-ask button')
    .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 44).length);
  expect(small).toBe(0);
  await runAxe(page);
  await openSideBySide(page);
  await page.locator('.beside-table').waitFor();
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  await runAxe(page);
});

test('three swatches lead on to the sweater, the gauge carried over with how sure it is', async () => {
  const page = await openApp();
  await page.locator('.row').first().waitFor();
  await page.locator('.nav').getByRole('button', { name: 'More to start from' }).click();
  await page
    .locator('main')
    .getByRole('button', { name: /^Compare swatches/ })
    .click();
  await row(page, 'nearest gauge').waitFor();
  expect(await numbers(page, 'nearest gauge')).toEqual(['21.5']);
  await page.getByRole('button', { name: 'Resize a sweater with them' }).click();
  await row(page, 'finished chest').waitFor();
  // 43 ± ½ st counted over 20 cm: 21½ ± ¼ to 10 cm; 29½ ± ½ rows over 10 cm.
  await expect.poll(() => told(page, 'stitch gauge')).toMatch(/21[.½]5? ?sts \/ 10 cm.*± (¼|0\.25)/);
  expect(await told(page, 'row gauge')).toMatch(/29[.½]5? ?rows \/ 10 cm.*± (½|0\.5)/);
  expect(await told(page, 'pattern stitch gauge')).toContain('21 sts / 10 cm');
});
