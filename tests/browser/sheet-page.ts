// What the tests of the sheet share: finding rows by their names, reading values, opening a notebook of their own.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { type OpenOptions, openApp } from './support.ts';

/** A notebook of our own invention, with a count of ten that all use the stitch gauge. */
const fieldfare = readFileSync(join(import.meta.dirname, '../data/fieldfare.ellwand.json'), 'utf8');

/** The row of a cell, by its name as the page shows it. */
export function row(page: Page, name: string): Locator {
  return page.locator(`.row:has(> .name .nm:text-is("${name}"))`);
}

/** The places in a row that hold its values. */
export function values(page: Page, name: string): Locator {
  return row(page, name).locator('.vals > .v');
}

/** The numbers of a row as they stand there, without units. */
export function numbers(page: Page, name: string): Promise<readonly string[]> {
  return values(page, name)
    .locator('.n')
    .evaluateAll((all) => all.map((one) => one.firstChild?.textContent ?? ''));
}

/** Everything a row says, in one line. */
export async function told(page: Page, name: string): Promise<string> {
  const parts = await row(page, name).evaluate((one) =>
    [...one.children].map((part) => part.textContent).join(' '),
  );
  return parts.replace(/\s+/g, ' ');
}

/** The names that are underlined: the cells that the focused one moves. */
export function moved(page: Page): Promise<readonly string[]> {
  return page.locator('.row.fed > .name .nm').allTextContents();
}

/** Stands on a row's value, in the column of that index from 0. */
export async function standOn(page: Page, name: string, column = 0): Promise<void> {
  const value = values(page, name).nth(column);
  await value.scrollIntoViewIfNeeded();
  await value.focus();
}

/** Keeps all that is tried: at the foot of the sheet or, where it has no such button, in the row of the one value. */
export async function keep(page: Page): Promise<void> {
  await page
    .getByRole('button', { name: /^(keep [\d½¼¾]|Keep it$|Keep all )/ })
    .last()
    .click();
}

/** Goes back to what was before something was tried. */
export async function goBack(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^(back to [\d½¼¾]|Go back)/ }).click();
}

/** Opens the app with a blank page and turns it into the Fieldfare pullover by its own file. */
export async function openFieldfare(options: OpenOptions = {}): Promise<Page> {
  const page = await openBlank(options);
  await chooseAction(page, 'File');
  const editor = page.getByRole('textbox', { name: 'this notebook’s file' });
  await editor.waitFor();
  await editor.press('ControlOrMeta+a');
  await page.keyboard.insertText(fieldfare);
  await page.getByRole('button', { name: 'Keep the change' }).click();
  await row(page, 'finished chest').waitFor();
  return page;
}

/** Opens the app and begins a blank page. */
export async function openBlank(options: OpenOptions = {}): Promise<Page> {
  const page = await openApp(options);
  await page.locator('.row').first().waitFor();
  await openList(page);
  await page.getByRole('button', { name: 'A blank page' }).click();
  await page.getByRole('textbox', { name: 'the name of your first cell' }).waitFor();
  return page;
}

async function openList(page: Page): Promise<void> {
  const button = page.locator('.nav-button');
  if (await button.isVisible()) await button.click();
}

/** Chooses what the head offers, or on a phone the list. */
export async function chooseAction(page: Page, label: string): Promise<void> {
  await page.locator('.header').waitFor();
  const inHead = page.locator('.header').getByRole('button', { name: label, exact: true });
  if (await inHead.isVisible()) return inHead.click();
  await openList(page);
  await page.locator('.nav-tools').getByRole('button', { name: label, exact: true }).click();
  await page.keyboard.press('Escape');
}

/** The editor of the cell that is being written. */
export function editor(page: Page): Locator {
  return page.locator('.editor .cm-content');
}

/** Waits until CodeMirror is there, so that the next writing opens in it: the menu is asked for once it has come. */
export async function editorIsHere(page: Page): Promise<void> {
  await page.waitForFunction(() =>
    performance.getEntriesByType('resource').some((entry) => entry.name.includes('/assets/menu-')),
  );
}
