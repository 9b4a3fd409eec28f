/*
 * The scroll bar of a long sheet, dragged by hand: the browser moves the paper by itself then, and shows what has been
 * drawn of it. Every frame shown is looked at, whether a band of it has no row.
 */

import type { CDPSession, Page } from 'playwright-core';
import { PNG } from 'pngjs';
import type { Figure } from './figure.ts';
import { openGenerated, openWeb } from './web.ts';

const CELLS = 10_000;
const COLUMNS = 6;
/** Pixels of the bar a move goes, and how many moves go one way: some eighty screens a move. */
const MOVE = 8;
const MOVES = 45;
/** A frame is shown this wide, and its sheet looked at in so many bands. */
const WIDTH = 720;
const BANDS = 6;

/** Where the sheet and the bar are on the page. */
interface Place {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly bar: number;
}

/** Frames shown while the bar is dragged half way down, back, and up, that have a band without a row. */
export async function draggedFigure(): Promise<Figure> {
  const web = await openWeb({ scrollBars: true });
  try {
    const page = await openGenerated(web, CELLS, COLUMNS);
    const place = await page.evaluate(toMiddle);
    await page.waitForTimeout(1500);
    const shown = await framesWhile(page, () => drag(page, place));
    const empty = shown.filter((frame) => emptyBand(frame, place));
    return {
      name: `page: frames with empty paper while the scroll bar of ${CELLS} cells is dragged`,
      ratio: empty.length,
      spread: 0,
      aim: 0,
      better: 'less',
      unit: 'frames',
      note: `of ${shown.length}`,
    };
  } finally {
    await web.close();
  }
}

/** Runs in the page: scrolls to the middle, where the bar then is too. */
function toMiddle(): Place {
  const sheet = document.getElementById('sheet');
  if (!sheet) throw new Error('no sheet');
  sheet.scrollTop = (sheet.scrollHeight - sheet.clientHeight) / 2;
  const { left, right, top, bottom } = sheet.getBoundingClientRect();
  return { left, right, top, bottom, bar: sheet.offsetWidth - sheet.clientWidth };
}

async function drag(page: Page, { right, top, bottom, bar }: Place): Promise<void> {
  if (bar === 0) throw new Error('the scroll bar cannot be seen');
  const x = right - bar / 2;
  const middle = (top + bottom) / 2;
  const scrolled = () => page.evaluate(() => document.getElementById('sheet')?.scrollTop ?? 0);
  const before = await scrolled();
  await page.mouse.move(x, middle);
  await page.mouse.down();
  for (let i = 1; i <= MOVES; i += 1) await page.mouse.move(x, middle + i * MOVE);
  if ((await scrolled()) === before) throw new Error('the scroll bar did not move');
  for (let i = MOVES; i >= -MOVES; i -= 1) await page.mouse.move(x, middle + i * MOVE);
  await page.mouse.up();
}

/** The frames that are shown during a deed. */
async function framesWhile(page: Page, deed: () => Promise<void>): Promise<readonly PNG[]> {
  const devtools: CDPSession = await page.context().newCDPSession(page);
  const shown: string[] = [];
  devtools.on('Page.screencastFrame', ({ data, sessionId }) => {
    shown.push(data);
    void devtools.send('Page.screencastFrameAck', { sessionId });
  });
  await devtools.send('Page.startScreencast', { format: 'png', maxWidth: WIDTH, everyNthFrame: 1 });
  await deed();
  await page.waitForTimeout(300);
  await devtools.send('Page.stopScreencast');
  return shown.map((data) => PNG.sync.read(Buffer.from(data, 'base64')));
}

/** Whether a band of the sheet, below its heads, has no writing in it. */
function emptyBand(frame: PNG, { left, right, top, bottom }: Place): boolean {
  const scale = frame.width / 1440;
  const from = Math.ceil((top + 60) * scale);
  const high = Math.floor((bottom * scale - from) / BANDS);
  return Array.from({ length: BANDS }, (_, i) => from + i * high).some(
    (y) => darkest(frame, left * scale, right * scale - 15, y, y + high) > INK,
  );
}

/** Darker than this is writing, of 255. */
const INK = 150;

function darkest({ data, width }: PNG, left: number, right: number, from: number, to: number): number {
  let least = 255;
  for (let y = from; y < to; y += 1)
    for (let x = Math.ceil(left); x < right; x += 1) least = Math.min(least, data[4 * (y * width + x) + 1]!);
  return least;
}
