// Keeping, in a real browser: the storage folder alone, built by itself, on an empty page of the app's origin.
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { build } from 'vite';
import { beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import type * as storageDoor from '../../src/storage/index.ts';
import { findBrowser, launchOptions } from './find-browser.ts';
import type * as door from './storage-entry.ts';
import { appUrl, browser } from './support.ts';

const LONG = Boolean(process.env['LONG']);
const root = join(import.meta.dirname, '../..');

/** What the script gives the page. */
type Kept = typeof door;

declare global {
  var kept: Kept;
  var opened: storageDoor.Opened;
  var shelf: storageDoor.Shelf;
  var news: string[];
}

let script = '';

beforeAll(async () => {
  const made = await build({
    configFile: false,
    logLevel: 'error',
    root,
    build: {
      write: false,
      minify: false,
      lib: { entry: join(import.meta.dirname, 'storage-entry.ts'), name: 'kept', formats: ['iife'] },
      rolldownOptions: { output: { codeSplitting: false } },
    },
  });
  const [output] = Array.isArray(made) ? made : [made];
  const chunk = output && 'output' in output ? output.output[0] : undefined;
  script = `${chunk && 'code' in chunk ? chunk.code : ''};globalThis.kept = kept;`;
});

const empty = (): string => new URL('nothing-here', appUrl()).href;

async function freshContext(): Promise<BrowserContext> {
  const context = await (await browser()).newContext();
  onTestFinished(() => context.close());
  return context;
}

/** A page that has the storage folder, with a notebook open. */
async function sit(page: Page, address = empty()): Promise<void> {
  await page.goto(address);
  await openNotebook(page);
}

async function openNotebook(page: Page): Promise<void> {
  await page.evaluate(script);
  await page.evaluate(async () => {
    const { openShelf, watchLeaving, isRefused } = globalThis.kept;
    globalThis.shelf = await openShelf();
    if (globalThis.shelf.trouble) throw new Error(`no storage: ${globalThis.shelf.trouble}`);
    watchLeaving(globalThis.shelf);
    if (!(await globalThis.shelf.has('ntest'))) {
      const cells = ['a', 'b', 'c', 'd'].map((name, i) => ({ id: `k${i}`, name, text: '' }));
      await globalThis.shelf.create(
        {
          ellwand: 1,
          id: 'ntest',
          title: '0',
          units: 'cm',
          sections: [{ id: 's', title: '', cells }],
          drawings: [],
          steps: [],
          sources: [],
          cautions: [],
        },
        { sameId: true },
      );
    }
    const opened = await globalThis.shelf.open('ntest');
    if (isRefused(opened)) throw new Error(JSON.stringify(opened));
    globalThis.opened = opened;
    globalThis.news = [];
    opened.keeper.onNews((told) => globalThis.news.push(told.kind));
  });
}

/** Does a change at once, without waiting for anything. */
function type(page: Page, cell: string, text: string): Promise<void> {
  return page.evaluate(
    ([id, words]) => {
      const change = { kind: 'set_text' as const, cell: id ?? '', text: words ?? '' };
      globalThis.opened.keeper.save({ change, title: 'change', role: 'do' });
    },
    [cell, text],
  );
}

const texts = (page: Page): Promise<readonly (string | undefined)[]> =>
  page.evaluate(() => globalThis.kept.allCells(globalThis.opened.keeper.notebook).map(({ text }) => text));

const settled = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => globalThis.opened.keeper.saved, undefined, { timeout: 5_000 });

describe('the browser’s disk', () => {
  test('writes a batch wholly or not at all', async () => {
    const page = await (await freshContext()).newPage();
    await page.goto(empty());
    await page.evaluate(script);
    const told = await page.evaluate(async () => {
      const disk = await globalThis.kept.openDatabase('trial');
      const troubleOf = (promise: Promise<void>): Promise<string> =>
        promise.then(
          () => 'written',
          (error: { trouble: string }) => error.trouble,
        );
      const outcomes = [
        await troubleOf(disk.write({ add: [['a:1', 1]], put: [['a:2', { two: [2] }]] })),
        // Cannot be cloned: nothing of the batch is stored.
        await troubleOf(
          disk.write({
            put: [
              ['a:3', 3],
              ['a:4', () => 4],
              ['a:5', 5],
            ],
          }),
        ),
        // Is there already: nothing of the batch is stored.
        await troubleOf(disk.write({ put: [['a:6', 6]], add: [['a:1', 'again']], delete: ['a:2'] })),
        await troubleOf(disk.write({ put: [['b:1', 1]], delete: ['a:9'] })),
      ];
      return {
        outcomes,
        entries: await disk.list('a:'),
        after: await disk.list('a:', 'a:1'),
        one: await disk.get('a:1'),
        looked: await disk.look(['b:1', 'b:2'], 'a:'),
      };
    });
    expect(told).toEqual({
      outcomes: ['written', 'failed', 'taken', 'written'],
      entries: [
        ['a:1', 1],
        ['a:2', { two: [2] }],
      ],
      after: [['a:2', { two: [2] }]],
      looked: {
        values: [1, undefined],
        entries: [
          ['a:1', 1],
          ['a:2', { two: [2] }],
        ],
      },
      one: 1,
    });
  });

  test('keeps what was done in the last moment before a reload, a change of page, a closing', async () => {
    const context = await freshContext();
    const page = await context.newPage();
    await sit(page);
    for (const [at, leave] of ['reload', 'navigate', 'close'].entries()) {
      // Ten changes in one turn: the first is being written, the others wait; and then the page goes.
      await page.evaluate((round) => {
        for (let i = 0; i < 10; i++) {
          const change = { kind: 'set_text' as const, cell: 'k0', text: `${round}.${i}` };
          globalThis.opened.keeper.save({ change, title: 'change', role: 'do' });
        }
        if (round === 0) location.reload();
        if (round === 1) location.assign('about:blank');
      }, at);
      if (leave === 'close') break;
      if (leave === 'navigate') await page.waitForURL('about:blank');
      else await page.waitForFunction(() => document.readyState === 'complete' && !('kept' in globalThis));
      if (leave === 'navigate') await page.goto(empty());
      await openNotebook(page);
      expect(await texts(page)).toEqual([`${at}.9`, '', '', '']);
    }
    await page.close();
    const next = await context.newPage();
    await sit(next);
    expect(await texts(next)).toEqual(['2.9', '', '', '']);
    expect(await next.evaluate(() => globalThis.opened.history.done.length)).toBe(30);
  });
});

describe('two tabs', () => {
  test('two hundred interleaved edits: both end equal, and equal to what is kept', async () => {
    const context = await freshContext();
    const pages = [await context.newPage(), await context.newPage()] as const;
    for (const page of pages) await sit(page);
    for (let number = 0; number < 200; number++) {
      const page = pages[number % 2] ?? pages[0];
      await type(page, `k${(number * 7) % 4}`, String(number));
    }
    for (const page of pages) await settled(page);
    await expect.poll(async () => (await texts(pages[0])).join()).toBe((await texts(pages[1])).join());
    const kept = await pages[1].evaluate(async () => {
      const peeked = await globalThis.shelf.peek('ntest');
      return 'sections' in peeked ? globalThis.kept.allCells(peeked).map(({ text }) => text) : [];
    });
    expect(kept).toEqual(await texts(pages[0]));
    await pages[0].close();
    await type(pages[1], 'k0', 'alone now');
    await settled(pages[1]);
    await pages[1].reload();
    await openNotebook(pages[1]);
    expect((await texts(pages[1]))[0]).toBe('alone now');
  });

  test('a duplicated tab has a history of its own', async () => {
    const context = await freshContext();
    const page = await context.newPage();
    await sit(page);
    await type(page, 'k0', 'mine');
    await settled(page);
    const remembered = await page.evaluate(() => JSON.stringify(sessionStorage));
    const copy = await context.newPage();
    await copy.goto(empty());
    await copy.evaluate((entries) => Object.assign(sessionStorage, JSON.parse(entries)), remembered);
    await openNotebook(copy);
    expect(await copy.evaluate(() => globalThis.opened.history.done.length)).toBe(0);
    await page.reload();
    await openNotebook(page);
    expect(await page.evaluate(() => globalThis.opened.history.done.length)).toBe(1);
  });
});

describe('the browser killed in the middle', () => {
  test(
    'whatever was told to be saved is there, and what is there is what had been done up to some moment',
    async () => {
      const profile = mkdtempSync(join(tmpdir(), 'ellwand-storm-'));
      onTestFinished(() => rmSync(profile, { recursive: true, force: true, maxRetries: 5 }));
      let rounds = 0;
      let saved = 0;
      /** What had been done a second before the browser was killed. */
      let due = 0;
      const doneAt: (readonly [time: number, number: number])[] = [];
      for (let round = 0; round < (LONG ? 50 : 3); round++) {
        const { page, kill } = await ownBrowser(profile);
        await page.exposeFunction('told', (kind: string, number: number) => {
          if (kind === 'done') doneAt.push([Date.now(), number]);
          else saved = number;
        });
        await sit(page);
        const found = Number((await texts(page))[0] ?? 0);
        const inStep = await texts(page);
        // All four cells get the number, one after the other: a prefix of the edits is told by them.
        expect(
          inStep.every(
            (text, at) =>
              [found, found - 1].includes(Number(text)) &&
              (at === 0 || Number(text) <= Number(inStep[at - 1])),
          ),
        ).toBe(true);
        // Where the browser threw its database away, the copy may be up to a second behind what was told to be saved.
        const wasPutBack = await page.evaluate(() => globalThis.shelf.putBack.length > 0);
        if (!wasPutBack) expect(found).toBeGreaterThanOrEqual(saved);
        expect(found).toBeGreaterThanOrEqual(due);
        // The next storm goes on from what was found.
        [saved, due] = [found, found];
        doneAt.length = 0;
        await page.evaluate((from) => {
          const { told } = globalThis as unknown as { told(kind: string, number: number): void };
          let number = from;
          globalThis.opened.keeper.onNews((news) => {
            if (news.kind === 'saved') told('saved', number);
          });
          setInterval(() => {
            number++;
            for (const cell of ['k0', 'k1', 'k2', 'k3']) {
              const change = { kind: 'set_text' as const, cell, text: String(number) };
              globalThis.opened.keeper.save({ change, title: 'change', role: 'do' });
            }
            told('done', number);
          }, 2);
        }, found);
        await new Promise((resolve) => setTimeout(resolve, 60 + ((round * 1171) % 2200)));
        kill();
        if (doneAt.length > 0) rounds++;
        due = doneAt.findLast(([time]) => time < Date.now() - 1_000)?.[1] ?? due;
      }
      expect(rounds).toBeGreaterThan(1);
    },
    LONG ? 600_000 : 60_000,
  );
});

/** A browser of its own on a profile that stays, which can be killed with all its processes. */
async function ownBrowser(profile: string): Promise<{ readonly page: Page; readonly kill: () => void }> {
  const { executablePath, args = [], env } = launchOptions(await findBrowser());
  const words = [
    ...args,
    '--headless',
    '--no-sandbox',
    '--remote-debugging-port=0',
    `--user-data-dir=${profile}`,
  ];
  const program = spawn(executablePath ?? '', words, {
    detached: true,
    env: { ...process.env, ...env } as NodeJS.ProcessEnv,
  });
  const connected = await chromium.connectOverCDP(await addressOf(program));
  const [context] = connected.contexts();
  const page = await (context ?? (await connected.newContext())).newPage();
  const kill = (): void => {
    if (program.pid !== undefined) process.kill(-program.pid, 'SIGKILL');
  };
  return { page, kill };
}

/** The address it says it listens at. */
function addressOf(program: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    program.on('exit', () => reject(new Error(`the browser ended: ${said}`)));
    program.stderr?.on('data', (data: Buffer) => {
      said += data.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
      if (found) resolve(found);
    });
  });
}
