// The page that shares, on a site of a name of its own: a link is refused to pages that nobody else can open.
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { chooseAction, numbers, row, values } from './sheet-page.ts';
import { appUrl, type OpenOptions, openApp, runAxe, savedBy } from './support.ts';

const site = 'https://knitting.example/some/where/';

/** Opens the built app as if it stood on that site, in a fresh profile. */
async function openOnSite(fragment: string, options: OpenOptions = {}): Promise<Page> {
  const page = await openApp({ ...options, path: 'favicon.svg' });
  await page.context().route(`${site}**`, async (route) => {
    const file = route.request().url().slice(site.length);
    await route.fulfill({ response: await route.fetch({ url: new URL(file, appUrl()).href }) });
  });
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.goto(site + fragment);
  await row(page, 'finished chest').waitFor();
  return page;
}

const copied = (page: Page): Promise<string> => page.evaluate(() => navigator.clipboard.readText());

test('a changed notebook becomes a link and a picture of it; a fresh profile shows it, not kept', async () => {
  const page = await openOnSite('');
  await values(page, 'stitch gauge').first().focus();
  await page.keyboard.press('+');
  await page.getByRole('button', { name: /^keep / }).click();
  const sent = await numbers(page, 'finished chest');
  await chooseAction(page, 'Share');
  const address = page.getByRole('textbox', { name: 'the link' });
  await address.waitFor();
  await runAxe(page);
  await page.emulateMedia({ colorScheme: 'dark' });
  await runAxe(page);
  // By keyboard alone: the link, copied; the picture, shown.
  await page.getByRole('button', { name: 'Copy the link' }).focus();
  await page.keyboard.press('Enter');
  await page.getByText('The link is copied.').waitFor();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.getByRole('img', { name: /the link as a picture/ }).waitFor();
  const link = await copied(page);
  expect(link).toMatch(/^https:\/\/knitting\.example\/some\/where\/#n=/);
  expect(link.length).toBeLessThan(400);
  expect(await address.inputValue()).toBe(link);

  const friend = await openOnSite(link.slice(site.length), { width: 390, height: 844, touch: true });
  await friend.getByText('From a link: shown, not kept').waitFor();
  await friend.getByRole('button', { name: 'Keep a copy' }).waitFor();
  const shown = await numbers(friend, 'finished chest');
  expect(shown.filter((text) => sent.includes(text)).length).toBeGreaterThan(0);
  await friend.getByRole('button', { name: 'Keep a copy' }).click();
  await friend.locator('.visitor').waitFor({ state: 'detached' });
  await chooseAction(friend, 'Share');
  await friend.getByRole('textbox', { name: 'the link' }).waitFor();
  await friend.getByRole('button', { name: 'Show it to another phone' }).click();
  await friend.getByRole('img', { name: /the link as a picture/ }).waitFor();
  expect(await friend.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await runAxe(friend);
});

test('tables carry their units, copied and saved; the share sheet is offered where there is one', async () => {
  const page = await openApp();
  await row(page, 'finished chest').waitFor();
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await chooseAction(page, 'Share');
  await page.getByText('This page is open from your own machine').waitFor();
  expect(await page.getByRole('button', { name: 'Send it on…' }).count()).toBe(0);

  const table = await savedBy(page, 'Save a table (CSV)');
  expect(table.name).toBe('Samphire pullover.csv');
  const lines = table.text.replace(/^\ufeff/, '').split('\r\n');
  expect(lines[0]).toMatch(/^section,name,XS,S,M/);
  expect(lines.find((line) => line.includes(',stitch gauge,'))).toMatch(
    /^Gauge,stitch gauge,19 sts? \/ 4 in/,
  );
  expect(lines.find((line) => line.includes(',finished chest,'))).toMatch(/,43 in,/);
  await page.getByRole('button', { name: 'Copy the table' }).click();
  await page.getByText('The table is copied.').waitFor();
  expect(await copied(page)).toMatch(/\tfinished chest\t[^\n]*\t43 in\t/);
  const text = await savedBy(page, 'Save as text (Markdown)');
  expect(text.name).toBe('Samphire pullover.md');
  expect(text.text).toMatch(/^# Samphire pullover\n\n## Gauge\n/);
  expect(text.text).toMatch(/\| finished chest \|.*43 in/);
  await page.getByRole('button', { name: 'Copy as text (Markdown)' }).click();
  await page.getByText('The text is copied.').waitFor();
  expect(await copied(page)).toBe(text.text);

  // A system with a share sheet that takes files.
  await page.evaluate(() => {
    const sent: string[] = [];
    Object.assign(globalThis, { sent });
    Object.assign(navigator, {
      canShare: () => true,
      share: async ({ files }: { files: readonly File[] }) => {
        for (const file of files) sent.push(file.name, await file.text());
      },
    });
  });
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  await chooseAction(page, 'Share');
  await page.getByRole('button', { name: 'Send it on…' }).click();
  const sent = (): Promise<readonly string[]> =>
    page.evaluate(() => (globalThis as unknown as { sent: string[] }).sent);
  await expect.poll(async () => (await sent()).length).toBe(2);
  expect((await sent())[0]).toBe('Samphire pullover.ellwand.json');
  expect(JSON.parse((await sent())[1] ?? '')).toMatchObject({ title: 'Samphire pullover' });
});
