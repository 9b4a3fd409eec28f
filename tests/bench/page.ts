/*
 * The page, in a real browser: from a nudge to the frame that shows it, against a bare page of the same number of rows
 * and columns that sets as many texts. Both stand in one document and are measured in turn, each from the start of a
 * frame, so that what is compared is the same clock. Runs of frames are told as counts.
 */

import type { Page } from 'playwright-core';
import { type Figure, median, ratioOf } from './figure.ts';
import { type Probe, setUp } from './probe.ts';
import { draggedFigure } from './scroll-bar.ts';
import { nudgedId, openGenerated, openWeb, type Web } from './web.ts';

const COLUMNS = 6;

async function prepared(web: Web, cells: number): Promise<Page> {
  const page = await openGenerated(web, cells, COLUMNS);
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
 * Milliseconds of the main thread for a nudge until the frame that shows it is over; for a nudge alone, and for each of
 * twenty in a row, both with the rows out of sight that follow when the nudges rest. Counted is what the thread ran,
 * whatever else the machine did, less as much idling.
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
  const shown: number[] = [];
  const nothing: number[] = [];
  const single: number[] = [];
  const bare: number[] = [];
  const inRow: number[] = [];
  for (let i = 0; i < rounds; i += 1) {
    const idle = await during(REST + 100, () => Promise.resolve());
    const by = i % 2 ? 1 : -1;
    const empty = await during(0, () => page.evaluate(nudgeOnce, 0));
    nothing.push(empty);
    const alone = await during(REST, async () => {
      shown.push((await during(0, () => page.evaluate(nudgeOnce, by))) - empty);
    });
    single.push(alone - idle);
    await page.evaluate(showBare, true);
    await page.waitForTimeout(REST);
    const bareIdle = await during(REST + 100, () => Promise.resolve());
    bare.push((await during(REST, () => page.evaluate(writeOnce, i))) - bareIdle);
    await page.evaluate(showBare, false);
    const still = await during(REST + RUN * APART, () => Promise.resolve());
    const all = await during(REST, () => page.evaluate(nudgeOften, { times: RUN, apart: APART, by }));
    inRow.push((all - still) / RUN);
  }
  const figure = (name: string, list: readonly number[], note?: string): Figure => {
    const ratio = median(list);
    const spread = median(list.map((one) => Math.abs(one - ratio)));
    return {
      name: `page: main-thread work of ${name}, 1000 × ${COLUMNS}`,
      ratio,
      spread,
      aim: 10,
      better: 'less',
      unit: 'ms',
      ...(note ? { note } : {}),
    };
  };
  return [
    figure(
      'a nudge until it is shown',
      shown,
      `beyond a frame that shows nothing new: ${median(nothing).toFixed(1)} ms`,
    ),
    figure('a nudge alone', single, `the bare page in turn: ${median(bare).toFixed(1)} ms`),
    figure(`each of ${RUN} nudges in a row`, inRow),
  ];
}

/** Milliseconds after which all that follows a nudge has been done: rows out of sight, and keeping it. */
const REST = 1500;

const showBare = (isShown: boolean) => (globalThis as unknown as { probe: Probe }).probe.showBare(isShown);
/** Runs in the page: sets the texts at the start of a frame, as `nudge` does. */
const writeOnce = (turn: number) =>
  new Promise<void>((done) => {
    requestAnimationFrame(() => {
      (globalThis as unknown as { probe: Probe }).probe.write(turn);
      requestAnimationFrame(() => done());
    });
  });
const nudgeOnce = (by: number) => (globalThis as unknown as { probe: Probe }).probe.nudge(by);

/** Runs in the page: as when − or + is held, ten one way and ten back. */
async function nudgeOften({ times, apart, by }: { times: number; apart: number; by: number }): Promise<void> {
  const { probe } = globalThis as unknown as { probe: Probe };
  for (let i = 0; i < times; i += 1) {
    probe.press(i < times / 2 ? by : -by);
    await new Promise((done) => setTimeout(done, apart));
  }
}

/** So many times two seconds of each. */
const SERIES = 5;

/** What every frame brings: a nudge; as many texts of the bare page; nothing. */
type Load = 'nudge' | 'bare' | 'empty';

/**
 * Frames missed while every frame brings a nudge, for two seconds; several times. In turn with it, in the same page, the
 * same is counted for the bare page and for frames that bring nothing, which the machine alone may miss.
 */
async function dropped(page: Page): Promise<Figure> {
  const counts: Record<Load, number[]> = { nudge: [], bare: [], empty: [] };
  for (let i = 0; i < SERIES; i += 1)
    for (const load of ['nudge', 'bare', 'empty'] as const) {
      await page.waitForTimeout(REST);
      counts[load].push(await page.evaluate(missedOf, { load, frames: 120 }));
    }
  const { nudge, bare, empty } = counts;
  return {
    name: `page: frames missed of 120 with a nudge in each, 1000 × ${COLUMNS}`,
    ratio: median(nudge),
    spread: (Math.max(...nudge) - Math.min(...nudge)) / 2,
    aim: 0,
    better: 'less',
    unit: 'frames',
    note: `${SERIES} series: ${nudge.join(', ')}; the bare page in turn: ${bare.join(', ')}; empty frames: ${empty.join(', ')}`,
  };
}

/** Runs in the page: frames missed of so many, after a few that are not counted. */
async function missedOf({ load, frames }: { load: Load; frames: number }): Promise<number> {
  const { probe } = globalThis as unknown as { probe: Probe };
  const next = () => new Promise<number>((done) => requestAnimationFrame(done));
  probe.showBare(load === 'bare');
  for (let i = 0; i < 12; i += 1) await next();
  let [missed, last] = [0, 0];
  for (let i = 0; i < frames; i += 1) {
    const now = await next();
    if (last > 0) missed += Math.max(0, Math.round((now - last) / (1000 / 60)) - 1);
    last = now;
    if (load === 'nudge') probe.press(i % 20 < 10 ? 1 : -1);
    else if (load === 'bare') probe.write(i);
  }
  probe.showBare(false);
  return missed;
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

/**
 * Frames until a deed is shown: focusing a cell, opening workings in sight and far out of it, starting a trial. The deed
 * comes when a frame is over; 1 is the frame that begins next, and is over before the one after it is due.
 */
async function frames(page: Page, rounds: number): Promise<readonly Figure[]> {
  const deeds = {
    'focusing a cell': 'focus',
    'opening workings': 'open',
    'opening workings out of sight': 'leap',
    'starting a trial': 'trial',
  };
  const figures: Figure[] = [];
  for (const [what, deed] of Object.entries(deeds)) {
    const counts: number[] = [];
    for (let i = 0; i < rounds; i += 1)
      counts.push(
        await page.evaluate(
          async ({ kind, id, turn }) => {
            const next = () =>
              new Promise<{ readonly begun: number; readonly over: number }>((done) => {
                requestAnimationFrame((begun) => {
                  const channel = new MessageChannel();
                  channel.port1.onmessage = () => done({ begun, over: performance.now() });
                  channel.port2.postMessage(0);
                });
              });
            const shut = document.querySelectorAll<HTMLElement>('.how-link[aria-expanded="false"]');
            const sheet = document.getElementById('sheet');
            const link = shut[kind === 'leap' ? 300 + 9 * turn : 0];
            // What she presses she sees; a leap comes with the press.
            if (kind === 'open') link?.scrollIntoView({ block: 'center' });
            else if (kind === 'leap' && sheet) sheet.scrollTop = 0;
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
            const before = await next();
            if (kind === 'focus') other?.focus();
            else if (kind === 'open' || kind === 'leap') link?.click();
            else
              row?.dispatchEvent(new KeyboardEvent('keydown', { key: '+', bubbles: true, cancelable: true }));
            const shown = await next();
            const frame = 1000 / 60;
            return (
              Math.round((shown.begun - before.begun) / frame) +
              Math.floor((shown.over - shown.begun) / frame)
            );
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
  } finally {
    await web.close();
  }
  return quick ? figures : [...figures, await draggedFigure()];
}
