import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { keep, numbers, row, standOn } from './sheet-page.ts';
import { appUrl, openApp } from './support.ts';

/** Waits until the service worker has kept every file and answers for the page. */
async function waitUntilKept(page: Page): Promise<void> {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
}

test('after one visit the app opens without a network, whatever follows its address', async () => {
  const page = await openApp({ worker: true });
  await waitUntilKept(page);
  await page.context().setOffline(true);
  for (const path of ['', '?x=1#share=abc']) {
    await page.goto('about:blank');
    await page.goto(new URL(path, appUrl()).href);
    await page.getByRole('heading', { level: 1 }).first().waitFor();
  }
});

test('what is changed without a network is there at the next visit without one', async () => {
  const page = await openApp({ worker: true });
  await waitUntilKept(page);
  await page.context().setOffline(true);
  await page.reload();
  await standOn(page, 'chest');
  const [was] = await numbers(page, 'chest');
  await page.keyboard.press('+');
  await keep(page);
  const [changed] = await numbers(page, 'chest');
  expect(changed).not.toBe(was);
  await page.getByText('saved on this device').waitFor();
  await page.reload();
  await row(page, 'chest').waitFor();
  expect((await numbers(page, 'chest'))[0]).toBe(changed);
});

test('every built file is kept on the device', async () => {
  const page = await openApp({ worker: true });
  await waitUntilKept(page);
  const kept = await page.evaluate(async () => {
    const name = (await caches.keys()).find((key) => key !== 'ellwand copies') ?? '';
    const requests = await (await caches.open(name)).keys();
    return requests.map((request) => request.url);
  });
  const listed = await (await fetch(new URL('sw.js', appUrl()))).text();
  const files = /^const files = (\[.*\]);$/m.exec(listed)?.[1] ?? '[]';
  const paths = (JSON.parse(files) as string[]).map((file) => (file === 'index.html' ? '' : file));
  expect(paths.length).toBeGreaterThan(1);
  expect([...kept].sort()).toEqual(paths.map((path) => new URL(path, appUrl()).href).sort());
});
