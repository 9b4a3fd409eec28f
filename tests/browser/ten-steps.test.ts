// Follows the ten steps as a newcomer would: reads each from the bar at the foot of the sheet, and does what it says
// to the letter. What is bold is touched, what stands as code is written, keys are pressed, and what is to be seen
// then must be there. No word of the steps stands here.
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { numbers, row, values } from './sheet-page.ts';
import { openApp, runAxe, shot } from './support.ts';

/** Opens the list of notebooks where it is behind a button. */
async function openList(page: Page): Promise<void> {
  const button = page.locator('.nav-button');
  const isOpen = (await button.getAttribute('aria-expanded')) === 'true';
  if ((await button.isVisible()) && !isOpen) await button.click();
}

async function openTenSteps(page: Page): Promise<void> {
  await page.locator('.row').first().waitFor();
  await openList(page);
  await page.getByRole('button', { name: 'Make your own in ten steps' }).click();
  await page.getByRole('heading', { name: 'Make your own in ten steps' }).waitFor();
}

/** What can be touched and says exactly this: in a menu, where she stands, anywhere else but in the steps themselves. */
function touchable(page: Page, words: string): Locator {
  const said = `:is(button, [role=menuitem], .label):visible:text-is("${words}")`;
  return page
    .locator(`[role=menu] [role=menuitem] :text-is("${words}"), [role=menuitem]:text-is("${words}")`)
    .or(page.locator(`#sheet .standing ${said}`))
    .or(page.locator(`.shell > :not(.sheet) ${said}`))
    .or(page.locator(`#sheet > :not(.foot) ${said}, #sheet > .foot > :not(.guide) ${said}`))
    .first();
}

async function touch(page: Page, words: string): Promise<void> {
  if ((await row(page, words).count()) > 0) return tap(values(page, words).locator('.n').first());
  const standing = page.locator(`#sheet .standing :is(button):visible:text-is("${words}")`);
  if ((await standing.count()) > 0) return tap(standing.first());
  const target = touchable(page, words);
  await target.waitFor({ timeout: 3_000 }).catch(() => openList(page)); // "On a phone it is in the list."
  await tap(target);
}

/** A finger where there is one, otherwise a click. */
async function tap(target: Locator): Promise<void> {
  const isPhone = (target.page().viewportSize()?.width ?? 0) < 600;
  await (isPhone ? target.tap() : target.click());
}

async function see(page: Page, words: string): Promise<void> {
  const [, name = '', wanted = ''] = /^([^:]+): (.+)$/.exec(words) ?? [];
  if (name === '') {
    const place = page.getByText(words, { exact: true });
    await place.first().waitFor({ state: 'attached' });
    return;
  }
  await expect.poll(() => numbers(page, name), { message: words }).toEqual(wanted.split(' '));
}

/** Writes, once there is a field with the keyboard in it, as anyone would wait for the caret. */
async function write(page: Page, text: string): Promise<void> {
  const caret = () => document.activeElement?.matches('input[type=text], .cm-content') === true;
  await page.waitForFunction(caret, undefined, { timeout: 10_000 }).catch(async () => {
    const has = await page.evaluate(() => document.activeElement?.outerHTML.slice(0, 200));
    throw new Error(`no field to write “${text}” in; the keyboard is in ${has}`);
  });
  await page.keyboard.type(text, { delay: 4 });
}

/** Does what a step says, piece by piece, and gives how many things it did. */
async function follow(page: Page): Promise<number> {
  const pieces = await page.locator('.guide p > *').evaluateAll((all) => {
    return all.map((one) => ({ tag: one.localName, text: one.textContent ?? '' }));
  });
  for (const { tag, text } of pieces) {
    if (tag === 'b') await touch(page, text);
    else if (tag === 'code') await write(page, text);
    else if (tag === 'kbd') await page.keyboard.press(text);
    else if (tag === 'samp') await see(page, text);
    else throw new Error(`the steps have no meaning for <${tag}>`);
    await page.waitForTimeout(30);
  }
  return pieces.length;
}

async function followAll(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Follow them on the sheet' }).click();
  const next = page.getByRole('button', { name: 'Next step' });
  const heading = page.locator('.guide h2');
  for (let step = 1; step <= 10; step += 1) {
    expect(await heading.textContent()).toMatch(new RegExp(`^${step} of 10 `));
    expect(await follow(page), `step ${step}`).toBeGreaterThan(2);
    if (step < 10) await next.click();
  }
  expect(await next.isDisabled()).toBe(true);
}

for (const { name, width, height, touch: hasTouch } of [
  { name: 'on a desk', width: 1440, height: 900, touch: false },
  { name: 'on a phone', width: 390, height: 844, touch: true },
]) {
  test(`the ten steps, followed to the letter, end in a notebook that another opens, ${name}`, async () => {
    const page = await openApp({ width, height, touch: hasTouch });
    await openTenSteps(page);
    const download = page.waitForEvent('download').catch(() => undefined);
    await followAll(page);
    const saved = await download;
    expect(saved?.suggestedFilename()).toBe('Headbands.ellwand.json');

    const other = await openApp({ width: 1440, height: 900 });
    await other.locator('.row').first().waitFor();
    const choosing = other.waitForEvent('filechooser');
    await other.getByRole('button', { name: 'A file', exact: true }).click();
    const path = join(mkdtempSync(join(tmpdir(), 'ten-steps-')), 'Headbands.ellwand.json');
    await saved?.saveAs(path);
    await (await choosing).setFiles(path);
    await other.getByRole('heading', { name: 'Headbands', exact: true }).waitFor();
    expect(await numbers(other, 'cast on')).toEqual(['100', '112']);
    expect(await other.locator('.head .label').allTextContents()).toEqual(['child', 'grown-up']);
    expect(await other.locator('.steps').textContent()).toContain('Cast on 112 sts and join in the round.');
  });
}

for (const dark of [false, true]) {
  const theme = dark ? 'dark' : 'light';
  test(`the page of the ten steps, ${theme}`, async () => {
    const page = await openApp({ dark, width: 390, height: 844, touch: true });
    await openTenSteps(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    await runAxe(page);
    await shot(page, `ten-steps-phone-${theme}`);
    await page.getByRole('button', { name: 'Follow them on the sheet' }).click();
    await page.locator('.guide').waitFor();
    await runAxe(page);
    const heights = await page
      .locator('.guide button')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
    await page.getByRole('button', { name: 'Leave off' }).click();
    expect(await page.locator('.guide').count()).toBe(0);
  });
}
