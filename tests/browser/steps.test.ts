// What to knit, and the page of units and functions, in the built app on a prebuilt notebook.
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { editorIsHere, standOn } from './sheet-page.ts';
import { axeFaults, nextFrame, openApp } from './support.ts';

describe('what to knit', () => {
  test('a ticked step keeps its count when a measure changes, and offers what it would be now', async () => {
    const page = await openPrebuilt('Fit a sock');
    const first = page.locator('.steps > li').first();
    const box = page.getByRole('checkbox', { name: 'step 1 done' });
    await expect.poll(() => first.innerText()).toContain('cast on 64 sts');
    await box.check();
    await page.locator('.row .pin').first().waitFor();
    await editorIsHere(page);
    await standOn(page, 'foot girth');
    await page.keyboard.type('26 cm');
    await page.keyboard.press('Enter');
    const offer = first.locator('.step-offer');
    await offer.getByText(/^Knitted with .*cast on 64 sts.*; it would now be .*72 sts/).waitFor();
    expect(await first.locator('.step-text').innerText()).toContain('cast on 64 sts');
    await offer.getByText('stays as it was knitted, unless you did knit it').waitFor();
    expect(await offer.getByRole('button', { name: 'Knit it so', exact: true }).count()).toBe(0);
    await offer.getByRole('button', { name: 'I did knit it so' }).click();
    await expect.poll(() => first.locator('.step-text').innerText()).toContain('cast on 72 sts');
    expect(await offer.count()).toBe(0);
    await box.uncheck();
    await page.waitForFunction(() => !document.querySelector('.row .pin'));
  });

  test('the step in hand counts rows and takes one back', async () => {
    const page = await openApp({ height: 1600 });
    await page.getByRole('checkbox', { name: 'step 1 done' }).check();
    const words = page.locator('.step-count span').first();
    await words.waitFor();
    await page
      .getByRole('button', { name: /^one (row|round) done$/ })
      .first()
      .click();
    await page.waitForFunction(() =>
      /\b1 of \d+/.test(document.querySelector('.step-count span')?.textContent ?? ''),
    );
    const voices = page.getByRole('status');
    await expect.poll(async () => (await voices.innerText()).trim()).toBe(await words.innerText());
    await page
      .getByRole('button', { name: /^one (row|round) back$/ })
      .first()
      .click();
    await page.waitForFunction(
      () => !/\b1 of \d+/.test(document.querySelector('.step-count span')?.textContent ?? ''),
    );
    expect(await axeFaults(page)).toEqual([]);
  });

  test('where all its rounds are done, to count again stands apart from what is said', async () => {
    const page = await openPrebuilt('Fit a sock');
    await page.getByRole('checkbox', { name: 'step 1 done' }).check();
    const on = page.getByRole('button', { name: /^one (row|round) done$/ }).first();
    await on.waitFor();
    while (await on.isEnabled()) await on.click();
    const next = page.locator('.step-next', { hasText: 'again from 0' });
    expect(await next.textContent()).toMatch(/ again from 0/);
  });
});

/** Opens the app with a prebuilt notebook of that title. */
async function openPrebuilt(title: string, width = 1440): Promise<Page> {
  const page = await openApp({ width, height: 1600 });
  await page.locator('.row').first().waitFor();
  const before = await page.getByRole('heading', { level: 1 }).innerText();
  const list = page.locator('.nav-button');
  if (await list.isVisible()) await list.click();
  await page.locator('.nav').getByRole('button', { name: title, exact: true }).click();
  await expect.poll(() => page.getByRole('heading', { level: 1 }).innerText()).not.toBe(before);
  return page;
}

describe('steps beside the sheet', () => {
  test('of every wearer at once a step of another wearer can be read and not ticked', async () => {
    const page = await openPrebuilt('Fit a sock');
    await page.getByRole('checkbox', { name: /at once$/ }).check();
    const other = page.locator('.steps > li', { hasText: 'Only Imke: Calf:' });
    await other.waitFor();
    expect(await other.getByRole('checkbox').isDisabled()).toBe(true);
    await page.getByRole('checkbox', { name: 'step 1 done' }).check();
    await page.getByRole('checkbox', { name: 'step 2 done' }).check();
    const inHand = page.locator('.steps > li[aria-current="step"]');
    await expect.poll(() => inHand.innerText()).toContain('Heel flap');
  });

  test('follow the size, and can show every size at once', async () => {
    const page = await openPrebuilt('Fit a sock');
    const first = page.locator('.steps > li:not(.advice)').first().locator('.step-text');
    await expect.poll(() => first.innerText()).toContain('64 sts');
    await page.getByRole('checkbox', { name: /at once$/ }).check();
    await expect.poll(() => first.innerText()).toContain('64 (72, 92) sts');
    await page.getByRole('checkbox', { name: /at once$/ }).uncheck();
    await expect.poll(() => first.innerText()).not.toContain('(72');
  });

  test('the box that was ticked keeps the keyboard', async () => {
    const page = await openPrebuilt('Fit a sock');
    const box = page.getByRole('checkbox', { name: 'step 1 done' });
    await box.focus();
    await page.keyboard.press('Space');
    await expect.poll(() => box.isChecked()).toBe(true);
    expect(await box.evaluate((one) => document.activeElement === one)).toBe(true);
    await page.getByRole('button', { name: /^Take back/ }).click();
    await expect.poll(() => box.isChecked()).toBe(false);
  });

  test('another count on the needles: the rest is told, and gone on with', async () => {
    const page = await openPrebuilt('Fit a sock');
    const tick = (step: number) => page.getByRole('checkbox', { name: `step ${step} done` }).check();
    const hand = page.locator('.steps > li[aria-current="step"]');
    for (const step of [1, 2]) await tick(step);
    await hand.getByText('Heel flap').first().waitFor();
    await hand.getByText('Another count on the needles?').click();
    await hand.getByLabel('stitches there now').fill('60');
    await hand.getByText('nearly twice as many').waitFor();
    await hand.getByText('only what is on the heel needle').waitFor();
    const mend = hand.getByText('In the next plain row');
    expect(await mend.isVisible()).toBe(false);
    await hand.getByText('I have counted again, and it is right').click();
    await mend.waitFor();
    for (const step of [3, 4, 5]) await tick(step);
    await hand.getByText('Gusset').first().waitFor();
    for (let i = 0; i < 4; i += 1) await hand.getByRole('button', { name: 'one round done' }).click();
    await expect.poll(() => hand.locator('.step-count span').innerText()).toContain('4 of 20 rnds done');
    await hand.getByText('Another count on the needles?').click();
    const count = hand.getByLabel('stitches there now');
    await count.fill('78');
    await hand.getByText('78: 2 too few').waitFor();
    expect(await count.inputValue()).toBe('78');
    // Opened again, the count she typed stands there, and takes no keyboard from the sheet.
    await page.reload();
    await hand.getByText('78: 2 too few').waitFor();
    expect(await count.inputValue()).toBe('78');
    expect(await count.evaluate((one) => document.activeElement === one)).toBe(false);
    await hand.getByRole('button', { name: 'Go on from here' }).click();
    await hand.getByText('worked out again from rnd 4 with 78 sts').waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await hand.getByText('Another count on the needles?').click();
    expect(await count.inputValue()).toBe('');
  });

  test('a count is held against what is on the needles, and not asked where that is not known', async () => {
    const page = await openApp({ height: 1600 });
    await page.getByRole('button', { name: 'More to start from' }).click();
    await page.getByRole('main').getByRole('button', { name: 'Knit a raglan' }).first().click();
    const opener = (step: number) =>
      page.getByRole('button', { name: new RegExp(`Another count on the needles\\? Step ${step}$`) });
    await opener(8).click();
    await page.getByLabel('stitches there now').fill('224');
    await page.getByText('There should be 226, and there are 224: 2 too few.').waitFor();
    expect(await opener(3).count()).toBe(1);
    for (const step of [4, 13]) expect(await opener(step).count()).toBe(0);
  });

  test('another count can be typed at a step that is not reached yet, and at the last one ticked', async () => {
    const page = await openPrebuilt('Fit a sock');
    const hand = page.locator('.steps > li[aria-current="step"]');
    const field = page.getByLabel('stitches there now');
    const opener = (step: number) =>
      page.getByRole('button', { name: new RegExp(`Another count on the needles\\? Step ${step}$`) });
    const focused = (one: ReturnType<typeof opener>) =>
      expect.poll(() => one.evaluate((element) => document.activeElement === element)).toBe(true);
    await opener(3).click();
    await focused(field);
    await page.keyboard.type('31');
    await page.getByText('There should be 32, and there are 31: 1 too few.').waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(() => field.count()).toBe(0);
    await focused(opener(3));
    for (const step of [1, 2]) await page.getByRole('checkbox', { name: `step ${step} done` }).check();
    await hand.getByText('Heel flap').first().waitFor();
    await expect.poll(() => opener(1).count()).toBe(0);
    await opener(2).focus();
    await page.keyboard.press('Enter');
    await focused(field);
    await page.keyboard.type('62');
    await page.getByText('There should be 64, and there are 62: 2 too few.').waitFor();
    await page.getByText(/^In the next plain rnd: /).waitFor();
    expect(await axeFaults(page)).toEqual([]);
  });

  test('on a phone the steps come up at the first one not done, and a new plan is in sight', async () => {
    const page = await openPrebuilt('Fit a sock', 390);
    await page.setViewportSize({ width: 390, height: 844 });
    const show = (tab: string) => page.getByRole('button', { name: tab, exact: true }).click();
    const hand = page.locator('.steps > li[aria-current="step"]');
    /** How far below the top of what is scrolled the step in hand begins. */
    const below = () =>
      hand.evaluate((step) => {
        const aside = step.closest('.aside');
        return Math.round(step.getBoundingClientRect().top - (aside?.getBoundingClientRect().top ?? 0));
      });
    await show('What to knit');
    for (const step of [1, 2, 3, 4, 5])
      await page.getByRole('checkbox', { name: `step ${step} done` }).check();
    await hand.getByText('Gusset').first().waitFor();
    await show('Sheet');
    await page.locator('.aside').waitFor({ state: 'hidden' });
    await nextFrame(page);
    await show('What to knit');
    await expect.poll(below).toBeLessThan(40);
    expect(await below()).toBeGreaterThan(-2);
    for (let i = 0; i < 4; i += 1) await hand.getByRole('button', { name: 'one round done' }).click();
    await hand.getByText('Another count on the needles?').click();
    await hand.getByLabel('stitches there now').fill('78');
    await hand.getByRole('button', { name: 'Go on from here' }).click();
    await hand.getByText('worked out again from rnd 4 with 78 sts').waitFor();
    await expect.poll(below).toBeGreaterThan(-2);
    // Left at the steps it opens at them, and left at the sheet at the sheet.
    await page.reload();
    await hand.getByText('worked out again from rnd 4 with 78 sts').waitFor();
    await expect.poll(below).toBeLessThan(40);
    await show('Sheet');
    await page.locator('.aside').waitFor({ state: 'hidden' });
    await nextFrame(page);
    await page.reload();
    await page.locator('.steps').waitFor({ state: 'attached' });
    expect(await page.locator('.aside').isVisible()).toBe(false);
  });

  test('on a phone every target is at least 44 pixels high', async () => {
    const page = await openPrebuilt('Fit a sock', 390);
    await page.getByRole('button', { name: 'What to knit' }).click();
    await page.getByRole('checkbox', { name: 'step 1 done' }).waitFor();
    const small = await page
      .locator('.steps .step-tick, .steps button, .steps summary, .steps-sizes')
      .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 44).length);
    expect(small).toBe(0);
    expect(await page.locator('.steps .step-tick').count()).toBeGreaterThan(5);
  });

  test('the screen is kept on once a step was ticked, and let go when the steps are out of sight', async () => {
    const page = await openPrebuilt('Fit a sock', 390);
    await page.evaluate(() => {
      const log: string[] = [];
      Object.assign(globalThis, { lockLog: log });
      const release = () => Promise.resolve(void log.push('let go'));
      const request = () => {
        log.push('asked');
        return Promise.resolve({ release });
      };
      Object.defineProperty(navigator, 'wakeLock', { value: { request }, configurable: true });
    });
    const log = () => page.evaluate(() => (globalThis as unknown as { lockLog: string[] }).lockLog);
    await page.getByRole('button', { name: 'What to knit' }).click();
    await page.getByRole('checkbox', { name: 'step 1 done' }).waitFor();
    expect(await log()).toEqual([]);
    await page.getByRole('checkbox', { name: 'step 1 done' }).check();
    await expect.poll(log).toEqual(['asked']);
    await page.getByRole('button', { name: 'Sheet', exact: true }).click();
    await expect.poll(log).toEqual(['asked', 'let go']);
  });
});

test.each([false, true])('units and functions are a page of the app (dark: %s)', async (dark) => {
  const page = await openApp({ dark });
  await page.getByRole('button', { name: 'Units, functions, keys' }).click();
  await page.getByRole('heading', { name: 'Units, functions, keys' }).waitFor();
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
