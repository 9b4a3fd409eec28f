import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Page } from 'playwright-core';
import { expect, onTestFinished, test } from 'vitest';
import { editorIsHere, keep, numbers, row, standOn } from './sheet-page.ts';
import { goTo, isSaved, notice, saved } from './shelf-page.ts';
import { appUrl, openApp, runAxe } from './support.ts';

/** One nudge of the stitch gauge, kept. */
async function nudge(page: Page): Promise<void> {
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  await keep(page);
}

/** The number of the stitch gauge in a notebook's file. */
const gaugeIn = (text: string) => /"stitch_gauge", "text": "([\d½.]+)/.exec(text)?.[1];

/** Opens the app in a browser where something has been done to its storage first. */
async function openWith(spoil: () => void): Promise<Page> {
  const page = await openApp();
  await page.addInitScript(spoil);
  await page.goto('about:blank');
  await page.goto(appUrl());
  await row(page, 'stitch gauge').waitFor();
  return page;
}

test('a browser without storage says so at once, works, and offers the file', async () => {
  const page = await openWith(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('not here', 'SecurityError');
    };
  });
  const words = notice(page, 'This browser keeps nothing here');
  await words.waitFor();
  expect(await words.getAttribute('role')).toBe('alert');
  await expect
    .poll(() => page.locator('.saved').textContent())
    .toBe('not kept: this browser keeps nothing here');
  await runAxe(page);
  await nudge(page);
  const now = await numbers(page, 'stitch gauge');
  const [name, text] = await saved(page, () => words.getByRole('button', { name: 'Save a file' }).click());
  expect(name).toBe('Samphire pullover.ellwand.json');
  expect(gaugeIn(text)).toBe(now[0]);
});

test('a full one says so at once and offers the file; what waited is written when there is room', async () => {
  const page = await openWith(() => {
    const put = IDBObjectStore.prototype.put;
    const add = IDBObjectStore.prototype.add;
    const full = () => Reflect.get(globalThis, 'isFull') === true;
    const refusing = (really: typeof put) =>
      function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
        if (full()) throw new DOMException('no room', 'QuotaExceededError');
        return really.call(this, value, key);
      };
    IDBObjectStore.prototype.put = refusing(put);
    IDBObjectStore.prototype.add = refusing(add);
  });
  await page.locator('.saved', { hasText: 'saved on this device' }).waitFor();
  const fill = (isFull: boolean) => page.evaluate((is) => Object.assign(globalThis, { isFull: is }), isFull);
  await fill(true);
  await nudge(page);
  const words = notice(page, 'This device has no room left');
  await words.waitFor();
  expect(await page.locator('.saved').textContent()).toBe('not saved: no room on this device');
  const now = await numbers(page, 'stitch gauge');
  const [, text] = await saved(page, () => words.getByRole('button', { name: 'Save a file' }).click());
  expect(gaugeIn(text)).toBe(now[0]);
  await fill(false);
  await isSaved(page);
  await page.reload();
  await row(page, 'stitch gauge').waitFor();
  expect(await numbers(page, 'stitch gauge')).toEqual(now);
});

test('the browser is asked to keep things once there are some; while it does not, a file is offered after a day', async () => {
  const page = await openWith(() => {
    Object.assign(navigator.storage ?? {}, {
      persist: () => {
        Object.assign(globalThis, { asked: true });
        return Promise.resolve(false);
      },
    });
  });
  const wasAsked = () => page.evaluate(() => 'asked' in globalThis);
  await expect.poll(() => page.locator('.saved').textContent()).toBe('saved on this device');
  expect(await wasAsked()).toBe(false);
  await nudge(page);
  await expect.poll(wasAsked).toBe(true);
  await expect.poll(() => page.locator('.saved').textContent()).toBe('saved on this device, for now');
  await goTo(page, 'All notebooks');
  await page.getByText('This browser has not promised to keep').waitFor();

  const DAY = 24 * 3_600_000;
  const start = Date.now();
  await page.clock.setFixedTime(start + DAY - 3_600_000);
  await page.reload();
  await page.locator('.page').waitFor();
  await page.waitForTimeout(200);
  expect(await notice(page, 'may clear what a page keeps').count()).toBe(0);
  await page.clock.setFixedTime(start + DAY + 3_600_000);
  await page.reload();
  const due = notice(page, 'may clear what a page keeps');
  const [name] = await saved(page, () => due.getByRole('button', { name: 'Save a file' }).click());
  expect(name).toBe('Samphire pullover.ellwand.json');
  await page.reload();
  await page.locator('.page').waitFor();
  await page.waitForTimeout(200);
  expect(await due.count()).toBe(0);
});

test('a browser that has lost its store gets the notebooks back from their second copy, and says so', async () => {
  const page = await openApp({ expected: /404/ });
  await row(page, 'stitch gauge').waitFor();
  await nudge(page);
  const now = await numbers(page, 'stitch gauge');
  const isCopied = () =>
    page.evaluate(async () => {
      const cache = await caches.open('ellwand copies');
      const copies = await Promise.all((await cache.keys()).map((key) => cache.match(key)));
      const texts = await Promise.all(copies.map((copy) => copy?.text() ?? ''));
      return texts.some((text) => text.includes('"log:'));
    });
  await expect.poll(isCopied, { timeout: 15_000 }).toBe(true);
  await page.goto(new URL('nothing-here', appUrl()).href);
  await page.evaluate(async () => {
    for (const { name = '' } of await indexedDB.databases())
      await new Promise((resolve) => {
        indexedDB.deleteDatabase(name).onsuccess = resolve;
      });
  });
  await page.goto(appUrl());
  await notice(page, 'your notebooks were put back from their second copy').waitFor();
  await row(page, 'stitch gauge').waitFor();
  expect(await numbers(page, 'stitch gauge')).toEqual(now);
  await page.locator('.header .undo').click();
  await expect.poll(() => numbers(page, 'stitch gauge')).not.toEqual(now);
});

test('the server stops: the app opens, what is changed stays, and a new version waits until it is asked for', async () => {
  const server = await standIn();
  const page = await openApp({ worker: true });
  await page.goto(server.url());
  await row(page, 'stitch gauge').waitFor();
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
  await server.stop();
  await page.reload();
  await row(page, 'stitch gauge').waitFor();
  await nudge(page);
  const now = await numbers(page, 'stitch gauge');
  await isSaved(page);
  await page.reload();
  await row(page, 'stitch gauge').waitFor();
  expect(await numbers(page, 'stitch gauge')).toEqual(now);

  // The server is back, with another version.
  await server.start('// another version\n');
  await page.reload();
  const words = notice(page, 'A new version of Ellwand is ready');
  await words.waitFor();
  await nudge(page);
  const later = await numbers(page, 'stitch gauge');
  expect(later).not.toEqual(now);
  const reloaded = page.waitForEvent('load');
  await words.getByRole('button', { name: 'Change over' }).click(); // At once, before anything is told to be saved.
  await reloaded;
  await row(page, 'stitch gauge').waitFor();
  expect(await numbers(page, 'stitch gauge')).toEqual(later);
  expect(await notice(page, 'A new version').count()).toBe(0);
});

/** A server of the built app that can be stopped, and come back with something added to its service worker. */
async function standIn() {
  let server: Server | undefined;
  let port = 0;
  const start = (added = '') =>
    new Promise<void>((resolve) => {
      const made = createServer((request, response) => {
        void fetch(new URL(`.${request.url ?? '/'}`, appUrl())).then(async (answer) => {
          const isWorker = request.url?.endsWith('/sw.js') ?? false;
          response.writeHead(answer.status, { 'content-type': answer.headers.get('content-type') ?? '' });
          response.end(isWorker ? added + (await answer.text()) : Buffer.from(await answer.arrayBuffer()));
        });
      });
      made.listen(port, '127.0.0.1', () => {
        port = (made.address() as AddressInfo).port;
        server = made;
        resolve();
      });
    });
  const stop = () =>
    new Promise<void>((resolve) => {
      server?.closeAllConnections();
      server?.close(() => resolve());
      server = undefined;
    });
  onTestFinished(() => (server ? stop() : undefined));
  await start();
  return { start, stop, url: () => `http://127.0.0.1:${port}/` };
}

test('what is being written is kept when the page goes, and goes on being written when it comes back', async () => {
  const page = await openApp();
  await editorIsHere(page);
  const field = page.locator('.editor .cm-content');
  const writeOver = async (text: string) => {
    await standOn(page, 'chest');
    await page.keyboard.press('Enter');
    await field.waitFor();
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type(text);
  };
  // At once on a first visit: the shelf that keeps it is still being opened.
  await writeOver('42');
  await page.reload();
  await editorIsHere(page);
  expect(await numbers(page, 'chest')).toEqual(['42']);

  // Out of sight: kept, and taken back as she goes on.
  const beSeen = (state: 'hidden' | 'visible') =>
    page.evaluate((is) => {
      Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => is });
      document.dispatchEvent(new Event('visibilitychange', { bubbles: true }));
    }, state);
  await writeOver('4');
  await beSeen('hidden');
  await beSeen('visible');
  await page.keyboard.type('4');
  expect(await field.textContent()).toBe('44');
  await page.keyboard.press('Escape');
  expect(await numbers(page, 'chest')).toEqual(['42']);
  await writeOver('45');
  await beSeen('hidden');
  const tab = await page.context().newPage();
  await tab.goto(appUrl());
  await expect.poll(() => numbers(tab, 'chest')).toEqual(['45']);

  // What cannot be read stays as it was; a name is kept.
  await page.close();
  await standOn(tab, 'chest');
  await tab.keyboard.press('Enter');
  await tab.keyboard.type('45 +');
  await tab.reload();
  await row(tab, 'chest').waitFor();
  expect(await numbers(tab, 'chest')).toEqual(['45']);
  await tab.locator('.section-title').first().dblclick();
  await tab.keyboard.type('My gauge');
  await tab.reload();
  await tab.getByRole('heading', { name: 'My gauge' }).waitFor();
});
