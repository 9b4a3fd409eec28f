/*
 * Arrival: what a first visit fetches before the first row can be seen, how long that takes against an empty page from
 * the same server, and opening a large notebook against reading its file and grouping its formulas. Bytes are those of
 * the built files, gzipped; times are taken in the page, cold, in turn.
 */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { isRefused, readNotebook } from '../../src/notebook/index.ts';
import { createSession } from '../../src/session/index.ts';
import { type Figure, median, ratioOf } from './figure.ts';
import { generate } from './generate.ts';
import { mathjsParse } from './sheets.ts';
import { empty, notebookText, openWeb, type Web } from './web.ts';

/** What is written down in the page when the first row has been painted. */
interface Seen {
  readonly at: number;
  /** Paths of the files that had come when the row was put into the page. */
  readonly files: readonly string[];
}

/** Runs in the page before its own scripts. */
function watchFirstRow(): void {
  const look = () => {
    if (document.querySelector('[data-row^="k:"]') === null) return;
    watcher.disconnect();
    // What has come by now is what the row needed; what was asked for beside it comes after.
    const files = performance.getEntriesByType('resource').map(({ name }) => new URL(name).pathname);
    const channel = new MessageChannel();
    channel.port1.onmessage = () => Object.assign(globalThis, { firstRow: { at: performance.now(), files } });
    requestAnimationFrame(() => channel.port2.postMessage(0));
  };
  const watcher = new MutationObserver(look);
  watcher.observe(document, { childList: true, subtree: true });
}

async function firstRow(web: Web, path: string, slower: number): Promise<Seen> {
  const context = await web.fresh();
  await context.addInitScript(watchFirstRow);
  const page = await context.newPage();
  if (slower > 1) {
    const devtools = await context.newCDPSession(page);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: slower });
  }
  await page.goto(new URL(path, web.url).href);
  const seen = await page.waitForFunction(() => (globalThis as { firstRow?: Seen }).firstRow);
  const value = (await seen.jsonValue()) as Seen;
  await context.close();
  return value;
}

/** Gzipped kilobytes of the page and of all it fetched, fonts apart. */
export function kilobytesOf(folder: string, files: readonly string[]): number {
  const counted = new Set(['/index.html', ...files.filter((file) => !file.endsWith('.woff2'))]);
  let bytes = 0;
  for (const file of counted) bytes += gzipSync(readFileSync(join(folder, file))).length;
  return bytes / 1000;
}

async function times(web: Web, slower: number, rounds: number): Promise<Figure> {
  const [app, bare] = [[] as number[], [] as number[]];
  for (let i = 0; i < rounds; i += 1) {
    bare.push((await firstRow(web, empty, slower)).at);
    app.push((await firstRow(web, '', slower)).at);
  }
  const how = slower > 1 ? `, a ${slower} times slower processor` : '';
  return {
    name: `arrival: first row against an empty page${how}`,
    ...ratioOf(app, bare),
    better: 'less',
    note: `${median(app).toFixed(0)} ms against ${median(bare).toFixed(0)} ms`,
  };
}

/** Reading, working out and asking the page of a notebook, against JSON.parse of it and mathjs's parse of its formulas. */
function opening(quick: boolean): Figure {
  const count = 10_000;
  const text = notebookText(count, 1);
  // mathjs has no mixed numbers: those of the typed values are written for it as sums.
  const texts = generate(count).texts.map((one) => one.replace(/^(\d+) (\d+\/\d+)/, '($1 + $2)'));
  const parse = mathjsParse();
  const floor = () => {
    JSON.parse(text);
    for (const formula of texts) parse(formula);
  };
  const ours = () => {
    const read = readNotebook(text);
    if (isRefused(read)) throw new Error(read.refused.code);
    createSession({ notebook: read.notebook, today: 20_000, random: Math.random }).page();
  };
  const name = 'arrival: opening 10 000 cells against JSON.parse and math.parse';
  return inTurn(name, quick ? 3 : 7, ours, floor);
}

/** Reading and checking a file of one megabyte, against JSON.parse of it. */
function reading(quick: boolean): Figure {
  // A cell takes some sixty-four characters of it.
  const text = notebookText(15_500, 1);
  const name = 'arrival: reading a file of 1 MB against JSON.parse';
  const ours = () => readNotebook(text);
  const figure = inTurn(name, quick ? 5 : 15, ours, () => JSON.parse(text));
  return { ...figure, note: `${(text.length / 1e6).toFixed(2)} MB, ${figure.note}` };
}

/** How much longer ours takes than the floor, each done once a round, in turn. */
function inTurn(name: string, rounds: number, ours: () => unknown, floor: () => unknown): Figure {
  const timed = (deed: () => unknown) => {
    const start = performance.now();
    deed();
    return performance.now() - start;
  };
  const [app, bare] = [[] as number[], [] as number[]];
  for (let i = 0; i < rounds; i += 1) {
    bare.push(timed(floor));
    app.push(timed(ours));
  }
  return {
    name,
    ...ratioOf(app, bare),
    better: 'less',
    note: `${median(app).toFixed(0)} ms against ${median(bare).toFixed(0)} ms`,
  };
}

/** The figures of arrival. */
export async function arrivalFigures(quick: boolean): Promise<readonly Figure[]> {
  const web = await openWeb();
  try {
    const { files } = await firstRow(web, '', 1);
    const kilobytes: Figure = {
      name: 'arrival: fetched before the first row, gzipped, fonts apart',
      ratio: kilobytesOf(web.folder, files),
      spread: 0,
      aim: 110,
      better: 'less',
      unit: 'kB',
      note: `${files.length} files`,
    };
    const rounds = quick ? 3 : 9;
    return [
      kilobytes,
      await times(web, 1, rounds),
      await times(web, 4, rounds),
      opening(quick),
      reading(quick),
    ];
  } finally {
    await web.close();
  }
}
