import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { keep, numbers, row, standOn } from './sheet-page.ts';
import { isSaved, mine, notice } from './shelf-page.ts';
import { appUrl, axeFaults, openApp, runAxe } from './support.ts';

test('the start page says what this is, and axe finds nothing wrong', async () => {
  const page = await openApp();
  expect(await page.title()).toContain('Ellwand');
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await runAxe(page);
});

test('axe sees a fault that is planted', async () => {
  const page = await openApp();
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await page.evaluate(() => document.querySelector('main')?.append(document.createElement('img')));
  expect((await axeFaults(page)).join()).toContain('image-alt');
});

test('a file that is not there answers 404, not the start page', async () => {
  const answer = await fetch(new URL('assets/gone.js', appUrl()));
  expect(answer.status).toBe(404);
});

test('the page may run no script but its own files', async () => {
  const page = await openApp({ expected: /Content Security Policy/ });
  await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'document.title = "planted"';
    document.head.append(script);
  });
  expect(await page.title()).toContain('Ellwand');
});

/** A first visit on which the files of that name, a pattern, do not come until they are let come. */
async function openWithout(name: string): Promise<{ readonly page: Page; letCome(): void }> {
  const page = await openApp({ path: 'nothing-here', expected: /404/ });
  let letCome = () => {};
  const wanted = new Promise<void>((done) => {
    letCome = done;
  });
  await page.route(new RegExp(`/assets/(${name})-[^/]*\\.js$`), async (route) => {
    await wanted;
    await route.continue();
  });
  await page.goto(appUrl());
  await row(page, 'stitch gauge').waitFor();
  return { page, letCome };
}

test('on a first visit the sheet lives before the shelf has come, and what is done meanwhile is kept', async () => {
  const { page, letCome } = await openWithout('rest');
  const [before] = await numbers(page, 'finished chest');
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  await expect.poll(() => numbers(page, 'finished chest')).not.toContain(before);
  await keep(page);
  const now = await numbers(page, 'stitch gauge');
  await page.locator('.nav').getByRole('button', { name: 'All notebooks', exact: true }).click();
  expect(await page.locator('.saved').textContent()).toBe('');
  expect(await page.locator('.page').count()).toBe(0);

  letCome();
  await page.locator('.page h2').first().waitFor(); // What was asked for meanwhile is done now.
  await isSaved(page);
  await page.goBack();
  await row(page, 'stitch gauge').waitFor();
  await page.reload();
  await row(page, 'stitch gauge').waitFor();
  expect(await numbers(page, 'stitch gauge')).toEqual(now);
  await page.locator('.header .undo').click();
  await expect.poll(() => numbers(page, 'stitch gauge')).not.toEqual(now);
  expect(await notice(page, 'no room').count()).toBe(0);
});

test('it lives before the whole of the session has come: tried at once, kept and typed when it has', async () => {
  const { page, letCome } = await openWithout('session');
  const [before] = await numbers(page, 'finished chest');
  const [gauge] = await numbers(page, 'stitch gauge');
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  await expect.poll(() => numbers(page, 'finished chest')).not.toContain(before);
  const [tried] = await numbers(page, 'stitch gauge');
  await page.keyboard.press('ControlOrMeta+z');
  await expect.poll(() => numbers(page, 'stitch gauge')).toEqual([gauge]);
  await page.keyboard.press('-');
  await keep(page);
  await standOn(page, 'ease wanted');
  await page.keyboard.press('Enter');
  await page.keyboard.type('5');
  await page.keyboard.press('Enter');
  expect(await page.locator('.steps > li').count()).toBe(0);

  letCome();
  await page.locator('.steps > li').first().waitFor();
  await expect.poll(() => numbers(page, 'ease wanted')).toEqual(['5']);
  expect(await numbers(page, 'stitch gauge')).toEqual([tried]);
  await isSaved(page);
  await page.reload();
  await row(page, 'stitch gauge').waitFor();
  expect(await numbers(page, 'stitch gauge')).toEqual([tried]);
  expect(await numbers(page, 'ease wanted')).toEqual(['5']);
});

/** Closes the page in the middle of what is done there, and gives the next visit. */
async function closeAndReturn(page: Page): Promise<Page> {
  await page.close();
  const next = await page.context().newPage();
  await next.goto(appUrl());
  await row(next, 'stitch gauge').waitFor();
  return next;
}

/** Tries a gauge, and writes an ease over the one that is there without keeping it by a key. */
async function tryAndWrite(page: Page): Promise<readonly string[]> {
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  const tried = await numbers(page, 'stitch gauge');
  await standOn(page, 'ease wanted');
  await page.keyboard.press('5');
  await page.locator('.editor :is(.plain-editor, .cm-content)').waitFor();
  return tried;
}

// Without the rest nothing is kept yet; without the session what is typed is not even done; and without the editor a
// plain field takes it.
for (const missing of ['rest', 'rest|session', 'rest|session|formula-editor|before-buttons'])
  test(`the page closed at once, before ${missing} has come: what was tried and typed is there at the next visit`, async () => {
    const { page } = await openWithout(missing);
    const before = await numbers(page, 'stitch gauge');
    const tried = await tryAndWrite(page);
    expect(tried).not.toEqual(before);
    const next = await closeAndReturn(page);
    expect(await numbers(next, 'stitch gauge')).toEqual(tried);
    expect(await numbers(next, 'ease wanted')).toEqual(['5']);

    // It stands on the shelf once, as what was done there, and nothing waits any more.
    await keep(next);
    await isSaved(next);
    await next.reload();
    await row(next, 'stitch gauge').waitFor();
    expect(await numbers(next, 'stitch gauge')).toEqual(tried);
    expect(await mine(next)).toEqual(['Samphire pullover']);
    expect(await next.evaluate(() => localStorage.getItem('ellwand waiting'))).toBe(null);
  });
