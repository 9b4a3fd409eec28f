/*
 * The page, in a real browser: from a nudge to the frame that shows it, against a bare page of the same number of rows
 * and columns that sets as many texts. Both stand in one document and are measured in turn, each from the start of a
 * frame, so that what is compared is the same clock. Runs of frames are told as counts.
 */

import type { Page } from 'playwright-core';
import { type Figure, median, ratioOf } from './figure.ts';
import { notebookText, nudgedId, openOn, openWeb, type Web } from './web.ts';

const COLUMNS = 6;

/** What the page is asked for; it lives in the document under measure. */
interface Probe {
  /** Milliseconds from the start of a frame to the end of the frame that shows the nudge. */
  nudge(by: number): Promise<number>;
  /** Nudges, and waits for nothing. */
  press(by: number): void;
  /** The same for as many texts of the bare page. */
  bare(turn: number): Promise<number>;
  /** Nudges and counts the texts that change, those out of sight too. */
  settle(): Promise<void>;
  texts: number;
}

/** Runs in the page: puts the bare page beside the app, and the means to measure both. */
function setUp({ rows, columns, id }: { rows: number; columns: number; id: string }): void {
  const frame = () =>
    new Promise<number>((done) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => done(performance.now());
      requestAnimationFrame(() => channel.port2.postMessage(0));
    });
  const rest = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));
  const bare = document.createElement('div');
  bare.style.cssText = 'position:fixed;inset:0;overflow:auto;background:white;z-index:99;display:none';
  const nodes: Text[] = [];
  for (let i = 0; i < rows; i += 1) {
    const row = document.createElement('div');
    row.style.cssText = 'display:flex;height:33px;content-visibility:auto;contain-intrinsic-size:auto 33px';
    for (let k = 0; k <= columns; k += 1) {
      const cell = document.createElement('span');
      cell.style.cssText = 'flex:1';
      const text = document.createTextNode(k === 0 ? `row ${i}` : '0');
      if (k > 0) nodes.push(text);
      cell.append(text);
      row.append(cell);
    }
    bare.append(row);
  }
  document.body.append(bare);
  const place = document.querySelector<HTMLElement>(`[data-row="k:${id}"] [data-part="1"]`);
  const press = (by: number) =>
    place?.dispatchEvent(
      new KeyboardEvent('keydown', { key: by > 0 ? '+' : '-', bubbles: true, cancelable: true }),
    );
  const timed = async (deed: () => void) => {
    await frame();
    const start = performance.now();
    deed();
    return (await frame()) - start;
  };
  const probe = {
    texts: 0,
    press,
    settle: async () => {
      place?.focus();
      let changed = 0;
      const watcher = new MutationObserver((list) => {
        for (const { type } of list) if (type === 'characterData') changed += 1;
      });
      press(1);
      await rest(1500);
      watcher.observe(document.getElementById('sheet') ?? document.body, {
        characterData: true,
        subtree: true,
      });
      press(1);
      await rest(1500);
      watcher.disconnect();
      probe.texts = Math.min(changed, nodes.length);
    },
    nudge: async (by: number) => {
      bare.style.display = 'none';
      await rest(80);
      return timed(() => press(by));
    },
    bare: async (turn: number) => {
      bare.style.display = 'block';
      await rest(80);
      const every = nodes.length / Math.max(1, probe.texts);
      const time = await timed(() => {
        for (let i = 0; i < probe.texts; i += 1) {
          const node = nodes[Math.floor(i * every)];
          if (node) node.data = String(turn * 7 + i);
        }
      });
      bare.style.display = 'none';
      return time;
    },
  };
  Object.assign(globalThis, { probe });
}

async function prepared(web: Web, cells: number): Promise<Page> {
  const page = await openOn(web, notebookText(cells, COLUMNS));
  await page.waitForFunction(
    (count) => document.querySelectorAll('[data-row^="k:"]').length >= count,
    cells,
    { timeout: 120_000 },
  );
  await page.evaluate(setUp, { rows: cells, columns: COLUMNS, id: nudgedId });
  await page.evaluate(() => (globalThis as unknown as { probe: Probe }).probe.settle());
  return page;
}

async function nudging(page: Page, cells: number, rounds: number): Promise<readonly Figure[]> {
  const [app, bare] = [[] as number[], [] as number[]];
  for (let i = 0; i < rounds; i += 1) {
    const turn = i;
    bare.push(await page.evaluate((n) => (globalThis as unknown as { probe: Probe }).probe.bare(n), turn));
    app.push(
      await page.evaluate(
        (by) => (globalThis as unknown as { probe: Probe }).probe.nudge(by),
        i % 2 === 0 ? -1 : 1,
      ),
    );
  }
  const texts = await page.evaluate(() => (globalThis as unknown as { probe: Probe }).probe.texts);
  return [
    {
      name: `page: a nudge to its frame, ${cells} × ${COLUMNS}, against a bare page`,
      ...ratioOf(app, bare),
      aim: 1.5,
      better: 'less',
      note: `${median(app).toFixed(1)} ms against ${median(bare).toFixed(1)} ms, ${texts} texts`,
    },
  ];
}

/** Nudges in one run of them, so many milliseconds apart. */
const RUN = 20;
const APART = 50;

/**
 * Milliseconds of the main thread for a nudge alone, and for each of twenty in a row, both with the rows out of sight
 * that follow when the nudges rest. Counted is what the thread ran, whatever else the machine did, less as much idling.
 */
async function work(page: Page, rounds: number): Promise<readonly Figure[]> {
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Performance.enable', { timeDomain: 'threadTicks' });
  const taken = async () => {
    const { metrics } = await devtools.send('Performance.getMetrics');
    return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN);
  };
  const during = async (ms: number, deed: () => Promise<unknown>) => {
    const before = await taken();
    await deed();
    await page.waitForTimeout(ms);
    return (await taken()) - before;
  };
  const single: number[] = [];
  const inRow: number[] = [];
  for (let i = 0; i < rounds; i += 1) {
    const idle = await during(REST + 100, () => Promise.resolve());
    const by = i % 2 ? 1 : -1;
    single.push((await during(REST, () => page.evaluate(nudgeOnce, by))) - idle);
    const still = await during(REST + RUN * APART, () => Promise.resolve());
    const all = await during(REST, () => page.evaluate(nudgeOften, { times: RUN, apart: APART, by }));
    inRow.push((all - still) / RUN);
  }
  const figure = (name: string, list: readonly number[]): Figure => {
    const ratio = median(list);
    const spread = median(list.map((one) => Math.abs(one - ratio)));
    return {
      name: `page: main-thread work of ${name}, 1000 × ${COLUMNS}`,
      ratio,
      spread,
      aim: 10,
      better: 'less',
      unit: 'ms',
    };
  };
  return [figure('a nudge alone', single), figure(`each of ${RUN} nudges in a row`, inRow)];
}

/** Milliseconds after which all that follows a nudge has been done: rows out of sight, and keeping it. */
const REST = 1500;

const nudgeOnce = (by: number) => (globalThis as unknown as { probe: Probe }).probe.nudge(by);

/** Runs in the page: as when − or + is held, ten one way and ten back. */
async function nudgeOften({ times, apart, by }: { times: number; apart: number; by: number }): Promise<void> {
  const { probe } = globalThis as unknown as { probe: Probe };
  for (let i = 0; i < times; i += 1) {
    probe.press(i < times / 2 ? by : -by);
    await new Promise((done) => setTimeout(done, apart));
  }
}

/** So many times two seconds. */
const SERIES = 5;

/** Frames missed while every frame brings a nudge, for two seconds; several times. */
async function dropped(page: Page): Promise<Figure> {
  const counts: number[] = [];
  for (let i = 0; i < SERIES; i += 1) counts.push(await droppedOnce(page));
  return {
    name: `page: frames missed of 120 with a nudge in each, 1000 × ${COLUMNS}`,
    ratio: median(counts),
    spread: (Math.max(...counts) - Math.min(...counts)) / 2,
    aim: 0,
    better: 'less',
    unit: 'frames',
    note: `${SERIES} series: ${counts.join(', ')}`,
  };
}

function droppedOnce(page: Page): Promise<number> {
  return page.evaluate(async (id) => {
    const place = document.querySelector(`[data-row="k:${id}"] [data-part="1"]`);
    let [missed, last] = [0, 0];
    for (let i = 0; i < 120; i += 1) {
      const now = await new Promise<number>((done) => requestAnimationFrame(done));
      if (last > 0) missed += Math.max(0, Math.round((now - last) / (1000 / 60)) - 1);
      last = now;
      const key = i % 20 < 10 ? '+' : '-';
      place?.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    }
    return missed;
  }, nudgedId);
}

/**
 * Screens shown with a gap while leaping through the whole sheet: one frame after each leap, at one of three heights, no row
 * is drawn. And rows that are not in the page.
 */
async function scrolling(page: Page, cells: number): Promise<readonly Figure[]> {
  const { blanks, screens, rows } = await page.evaluate(async () => {
    const main = document.getElementById('sheet');
    const scroller = main && main.scrollHeight > main.clientHeight ? main : document.scrollingElement;
    const next = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done, 0)));
    let [blank, seen] = [0, 0];
    if (scroller) {
      scroller.scrollTop = 0;
      for (let last = -1; scroller.scrollTop !== last; ) {
        last = scroller.scrollTop;
        const hasRow = (share: number) =>
          document
            .elementsFromPoint(500, innerHeight * share)
            .some((one) => one.closest('[data-row]')?.checkVisibility({ contentVisibilityAuto: true }));
        if (![0.25, 0.5, 0.75].every(hasRow)) blank += 1;
        seen += 1;
        scroller.scrollTop += innerHeight * 3;
        await next();
      }
    }
    return { blanks: blank, screens: seen, rows: document.querySelectorAll('[data-row^="k:"]').length };
  });
  return [
    {
      name: `page: blank screens while scrolling ${cells} cells`,
      ratio: blanks,
      spread: 0,
      aim: 0,
      better: 'less',
      unit: 'screens',
      note: `of ${screens}`,
    },
    {
      name: `page: share of ${cells} cells in the page, for find, print and screen readers`,
      ratio: rows / (cells + 22),
      spread: 0,
      aim: 1,
      better: 'more',
    },
  ];
}

/** Frames until a deed is shown: focusing a cell, opening workings, starting a trial. */
async function frames(page: Page, rounds: number): Promise<readonly Figure[]> {
  const deeds = { 'focusing a cell': 'focus', 'opening workings': 'open', 'starting a trial': 'trial' };
  const figures: Figure[] = [];
  for (const [what, deed] of Object.entries(deeds)) {
    const counts: number[] = [];
    for (let i = 0; i < rounds; i += 1)
      counts.push(
        await page.evaluate(
          async ({ kind, id, turn }) => {
            const next = () =>
              new Promise<number>((done) => {
                const channel = new MessageChannel();
                channel.port1.onmessage = () => done(performance.now());
                requestAnimationFrame(() => channel.port2.postMessage(0));
              });
            const links = document.querySelectorAll<HTMLElement>('.how-link');
            const row = document.querySelector<HTMLElement>(`[data-row="k:${id}"] [data-part="1"]`);
            const other = document.querySelectorAll<HTMLElement>('[data-row^="k:"] [data-part="1"]')[
              turn % 12
            ];
            if (kind === 'trial') {
              document.dispatchEvent(
                new KeyboardEvent('keydown', { key: 'z', ctrlKey: true, bubbles: true }),
              );
              row?.focus();
            }
            await new Promise((done) => setTimeout(done, 300));
            await next();
            const start = performance.now();
            if (kind === 'focus') other?.focus();
            else if (kind === 'open') links[turn % links.length]?.click();
            else
              row?.dispatchEvent(new KeyboardEvent('keydown', { key: '+', bubbles: true, cancelable: true }));
            return Math.max(1, Math.round(((await next()) - start) / (1000 / 60)));
          },
          { kind: deed, id: nudgedId, turn: i },
        ),
      );
    const ratio = median(counts);
    figures.push({
      name: `page: frames until shown, ${what}, 1000 × ${COLUMNS}`,
      ratio,
      spread: median(counts.map((one) => Math.abs(one - ratio))),
      aim: 1,
      better: 'less',
      unit: 'frames',
      note: `at most ${Math.max(...counts)}`,
    });
  }
  return figures;
}

/** The figures of the page. */
export async function pageFigures(quick: boolean): Promise<readonly Figure[]> {
  const web = await openWeb();
  const rounds = quick ? 7 : 21;
  const figures: Figure[] = [];
  try {
    for (const cells of quick ? [60, 1000] : [60, 1000, 10_000]) {
      const page = await prepared(web, cells);
      figures.push(...(await nudging(page, cells, rounds)));
      if (cells === 1000)
        figures.push(
          ...(await work(page, quick ? 3 : 9)),
          await dropped(page),
          ...(await frames(page, rounds)),
        );
      if (cells === 10_000) figures.push(...(await scrolling(page, cells)));
      await page.context().close();
    }
    return figures;
  } finally {
    await web.close();
  }
}
