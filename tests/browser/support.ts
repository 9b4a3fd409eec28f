// What browser tests share: opening the app in a fresh, empty browser profile, asking axe, comparing pictures.
import axe from 'axe-core';
import { type Browser, chromium, type Page } from 'playwright-core';
import { expect, inject, onTestFinished } from 'vitest';
import { comparePicture } from './picture.ts';

export interface OpenOptions {
  /** Of the window, in CSS pixels; 1440 × 900 unless said. */
  readonly width?: number;
  readonly height?: number;
  /** Asks for dark colours. */
  readonly dark?: boolean;
  /** A screen that is touched. */
  readonly touch?: boolean;
  /** What follows the app's address, for instance `#share=…` or `?x=1`. */
  readonly path?: string;
  /** Lets the service worker in; without it, every test sees the server's own files. */
  readonly worker?: boolean;
  /** Problems on the page that this test expects; others fail it. */
  readonly expected?: RegExp;
}

let connected: Promise<Browser> | undefined;

/** The one running browser. A file connects once, in some 30 ms. */
export function browser(): Promise<Browser> {
  connected ??= chromium.connect(inject('browserAt'));
  return connected;
}

/** Where the built app is served, with a slash at the end. */
export function appUrl(): string {
  return inject('appUrl');
}

/**
 * Opens the app with nothing stored, inside a test. Afterwards the profile is thrown away, and the test fails when
 * the page threw an error, reported one on its console, or broke its content policy.
 */
export async function openApp(options: OpenOptions = {}): Promise<Page> {
  const context = await (await browser()).newContext({
    viewport: { width: options.width ?? 1440, height: options.height ?? 900 },
    colorScheme: options.dark ? 'dark' : 'light',
    reducedMotion: 'reduce',
    hasTouch: options.touch ?? false,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    acceptDownloads: true,
  });
  if (!options.worker) await context.addInitScript(hideServiceWorkers);
  const problems: string[] = [];
  const note = (text: string) => {
    if (!options.expected?.test(text)) problems.push(text);
  };
  context.on('weberror', (error) => note(String(error.error())));
  context.on('console', (message) => {
    if (message.type() === 'error') note(message.text());
  });
  onTestFinished(async () => {
    await context.close();
    expect(problems, 'problems on the page').toEqual([]);
  });
  const page = await context.newPage();
  await page.goto(new URL(options.path ?? '', appUrl()).href);
  return page;
}

/** Runs in the page, before its own scripts: makes the browser look like one without service workers. */
function hideServiceWorkers(): void {
  Reflect.deleteProperty(Navigator.prototype, 'serviceWorker');
}

/** Waits until the page has been drawn anew: what hangs on its size, or on what is in sight, comes a frame later. */
export async function nextFrame(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go))));
}

/** The text of the file that pressing a button saves, and its name. */
export async function savedBy(
  page: Page,
  button: string,
): Promise<{ readonly name: string; readonly text: string }> {
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: button }).click();
  const download = await coming;
  const pieces: Buffer[] = [];
  for await (const piece of await download.createReadStream()) pieces.push(piece as Buffer);
  return { name: download.suggestedFilename(), text: Buffer.concat(pieces).toString('utf8') };
}

/** Drops a file on the page. */
export async function drop(page: Page, name: string, content: string | readonly number[]): Promise<void> {
  await page.evaluate(
    ([named, held]) => {
      const files = new DataTransfer();
      files.items.add(new File([typeof held === 'string' ? held : new Uint8Array(held)], named));
      document.body.dispatchEvent(
        new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: files }),
      );
    },
    [name, content] as const,
  );
}

/** What axe finds wrong on the page as it stands: one line for each fault, naming the rule and the elements. */
export async function axeFaults(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() => {
    return (globalThis as unknown as { axe: { run(): Promise<axe.AxeResults> } }).axe.run();
  });
  return violations.map((fault) => {
    const places = fault.nodes.map((node) => node.target.join(' ')).join(', ');
    return `${fault.id}: ${fault.help} (${places})`;
  });
}

/** Fails when axe finds anything wrong on the page as it stands. */
export async function runAxe(page: Page): Promise<void> {
  expect(await axeFaults(page)).toEqual([]);
}

/**
 * Compares what the window shows with tests/golden/screens/NAME.png; `npm run golden` records it again.
 * `full` takes the whole page. Pictures are alike to the pixel only in the packaged browser; in another one the
 * size alone is compared, as letters differ there.
 */
export async function shot(page: Page, name: string, full = false): Promise<void> {
  await page.evaluate(() => document.fonts.ready);
  await page.waitForFunction(() => {
    const panels = [...document.querySelectorAll<HTMLElement>('.panel')].filter((one) => one.offsetParent);
    return panels.every((one) => one.children.length > 1 && !one.querySelector('[aria-busy="true"]'));
  });
  const png = await page.screenshot({ fullPage: full, animations: 'disabled', caret: 'hide' });
  comparePicture(png, name, !inject('isPackagedBrowser'));
}
