// What the tests of the shelf share: the list at the left, its menus, notices, pages, files given and files that come.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import type { Locator, Page } from 'playwright-core';
import { row } from './sheet-page.ts';
import { type OpenOptions, openApp } from './support.ts';

/** The file of a notebook of our own invention. */
export const fieldfare = readFileSync(join(import.meta.dirname, '../data/fieldfare.ellwand.json'), 'utf8');

/** Opens the app with the Fieldfare pullover kept from its file, before any change. */
export async function openKept(options: OpenOptions = {}): Promise<Page> {
  const page = await openApp(options);
  await row(page, 'stitch gauge').waitFor();
  await drop(page, 'Fieldfare.ellwand.json', fieldfare);
  await page.getByRole('button', { name: 'Keep a copy' }).click();
  await page.locator('.visitor').waitFor({ state: 'detached' });
  await row(page, 'own count').waitFor();
  return page;
}

/** The titles of her notebooks in the list at the left. */
export async function mine(page: Page): Promise<readonly string[]> {
  const titles = await group(page, 'your notebooks').locator('.nav-item').allTextContents();
  return titles.filter((title) => title !== 'All notebooks');
}

/** A part of the list at the left. */
export function group(page: Page, heading: string): Locator {
  return page.locator('.nav section', { has: page.getByRole('heading', { name: heading, exact: true }) });
}

/** Begins a notebook from a prebuilt one, and waits until it is open. */
export async function begin(page: Page, from: string, title: string): Promise<void> {
  await group(page, 'start a new one from').getByRole('button', { name: from, exact: true }).click();
  await page.locator('h1', { hasText: title }).waitFor();
}

/** Goes to a page by the list at the left. */
export async function goTo(page: Page, name: string): Promise<void> {
  await page.locator('.nav').getByRole('button', { name, exact: true }).click();
  await page.locator('.page h2').first().waitFor();
}

/** Chooses from a notebook's menu in the list at the left. */
export async function choose(page: Page, title: string, item: string): Promise<void> {
  await chooseIn(page.locator('.nav'), title, item);
}

/** Chooses from a notebook's menu within a part of the page. */
export async function chooseIn(part: Locator, title: string, item: string): Promise<void> {
  await part
    .getByRole('button', { name: `what to do with ${title}`, exact: true })
    .first()
    .click();
  await part.page().getByRole('menuitem', { name: item, exact: true }).click();
}

/** A notice of the app that says this. */
export function notice(page: Page, words: string | RegExp): Locator {
  return page.locator('.app-notice', { hasText: words });
}

/** Gives the page a file as if it had been dropped on it. */
export async function drop(page: Page, name: string, content: string): Promise<void> {
  await page.evaluate(
    ([fileName = '', words = '']) => {
      const data = new DataTransfer();
      data.items.add(new File([words], fileName, { type: 'application/json' }));
      document.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
    },
    [name, content],
  );
}

/** The name and the text of the file that comes of this. */
export async function saved(page: Page, deed: () => Promise<void>): Promise<readonly [string, string]> {
  const coming = page.waitForEvent('download');
  await deed();
  const download = await coming;
  return [download.suggestedFilename(), await text(await download.createReadStream())];
}

/** Waits until all that was changed is on the disk. */
export async function isSaved(page: Page): Promise<void> {
  await page.locator('.saved', { hasText: /^saved on this device/ }).waitFor();
}

/** Types a text into a cell by the keyboard. */
export async function write(page: Page, text: string): Promise<void> {
  await page.keyboard.press('Enter');
  await page.locator('.editor :is(.plain-editor, .cm-content)').waitFor();
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}
