// The tool as one file: opened from the disk by its own address, as a double click does it.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, onTestFinished, test } from 'vitest';
import { chooseAction, numbers, openBlank, row, values } from './sheet-page.ts';
import { appUrl, drop, openApp, savedBy } from './support.ts';

/** Opens an address with all networks cut, in the profile of a page of its own. */
async function openCutOff(text: string): Promise<{ readonly page: Page; readonly address: string }> {
  const folder = mkdtempSync(join(tmpdir(), 'ellwand-one-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, 'Für Ada.html');
  writeFileSync(file, text);
  const address = pathToFileURL(file).href;
  const page = await openApp({ path: 'favicon.svg' });
  await page.context().setOffline(true);
  await page.goto(address);
  return { page, address };
}

const fetched = async (): Promise<string> => (await fetch(new URL('ellwand.html', appUrl()))).text();

test('from a file it opens, works out again, and keeps an edit over a reload; nothing is asked of a network', async () => {
  const { page } = await openCutOff(await fetched());
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  await row(page, 'finished chest').waitFor();
  const before = await numbers(page, 'finished chest');
  await values(page, 'stitch gauge').first().focus();
  await page.keyboard.press('+');
  await page.getByRole('button', { name: /^keep / }).click();
  await expect.poll(() => numbers(page, 'finished chest')).not.toEqual(before);
  const after = await numbers(page, 'finished chest');
  await page.getByText('saved on this device').waitFor();
  await page.waitForTimeout(300);
  await page.reload();
  await row(page, 'finished chest').waitFor();
  expect(await numbers(page, 'finished chest')).toEqual(after);
  // Parts that come later on the site are in the file: the editor, a page, the reference, another notebook.
  await values(page, 'stitch gauge').first().focus();
  // Until it has come the plain field opens.
  const opensEditor = async () => {
    await page.keyboard.press('Escape');
    await page.keyboard.press('Enter');
    return page.locator('.cm-content').isVisible();
  };
  await expect.poll(opensEditor).toBe(true);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Units, functions, keys' }).click();
  await page.getByRole('heading', { name: 'Units, functions, keys' }).waitFor();
  await page.getByRole('button', { name: 'Fit a sock' }).click();
  await page
    .getByRole('heading', { level: 1 })
    .getByText('sock')
    .or(row(page, 'foot length'))
    .first()
    .waitFor();
  await chooseAction(page, 'Share');
  await page.getByText('This page is open from your own machine').waitFor();
  expect(asked.filter((address) => !/^(file|data|blob):/.test(address))).toEqual([]);
});

test('the site saves the tool with a notebook in it; that file opens with it, shows an edit again, and copies itself', async () => {
  const site = await openBlank();
  await site.getByRole('heading', { level: 1 }).first().waitFor();
  await site.getByRole('button', { name: 'Fit a sock' }).click();
  await row(site, 'foot length').waitFor();
  await chooseAction(site, 'Share');
  const file = (await savedBy(site, 'Save the tool with this notebook')).text;
  const { page, address } = await openCutOff(file);
  await row(page, 'foot length').waitFor();
  await expect.poll(() => page.url()).toContain('#at=');
  const typed = row(page, 'foot length').locator('.vals > .v').first();
  const was = (await numbers(page, 'foot length'))[0];
  await typed.focus();
  await page.keyboard.press('+');
  await page.getByRole('button', { name: /^keep / }).click();
  await expect.poll(async () => (await numbers(page, 'foot length'))[0]).not.toBe(was);
  const now = (await numbers(page, 'foot length'))[0];
  await page.waitForTimeout(400);
  // Opened by a double click again: her own state, not the one that came in the file.
  await page.goto('about:blank');
  await page.goto(address);
  await row(page, 'foot length').waitFor();
  expect((await numbers(page, 'foot length'))[0]).toBe(now);
  await chooseAction(page, 'Share');
  const copy = (await savedBy(page, 'Save the tool with this notebook')).text;
  expect(copy.length).toBeGreaterThan(1_000_000);
  const again = await openCutOff(copy);
  await row(again.page, 'foot length').waitFor();
  expect((await numbers(again.page, 'foot length'))[0]).toBe(now);
  // The friend sends the whole tool back: a site takes the notebook out of it.
  await drop(site, 'Ada.html', copy);
  await site.getByText('From Ada.html').waitFor();
  await site.getByText('You have this notebook').waitFor();
});

test('a site that has been left alone for a while has the one file too, without a network', async () => {
  const page = await openApp({ worker: true });
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
  await page.evaluate(() => navigator.serviceWorker.controller?.postMessage('keep the rest'));
  await page.waitForFunction(async () => {
    const names = await caches.keys();
    const kept = await Promise.all(
      names.map(async (name) => (await caches.open(name)).match('./ellwand.html')),
    );
    return kept.some(Boolean);
  });
  await page.context().setOffline(true);
  await chooseAction(page, 'Share');
  expect((await savedBy(page, 'Save the tool with this notebook')).text).toContain('id="ellwand-notebook">{');
});
