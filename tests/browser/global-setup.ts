// Once for all browser tests: builds the app as users get it, serves it on a free port, and starts one browser.
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import type { TestProject } from 'vitest/node';
import { buildApp, serveApp } from './built-app.ts';
import { findBrowser, launchOptions } from './find-browser.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the built app is served, with a slash at the end. */
    appUrl: string;
    /** The address of the running browser. */
    browserAt: string;
    /** True when the browser is the packaged one. */
    isPackagedBrowser: boolean;
  }
}

const root = join(import.meta.dirname, '../..');

/** Prepares everything and gives the function that takes it down again. Throws when there is no build or no browser. */
export default async function prepare(project: TestProject): Promise<() => Promise<void>> {
  const browser = await findBrowser();
  const outDir = build();
  const server = await serveApp(root, outDir, await freePort());
  const running = await chromium.launchServer(launchOptions(browser));
  project.provide('appUrl', server.resolvedUrls?.local[0] ?? '');
  project.provide('browserAt', running.wsEndpoint());
  project.provide('isPackagedBrowser', browser.isPackaged);
  return async () => {
    await running.close();
    await server.close();
    rmSync(outDir, { recursive: true, force: true });
  };
}

function build(): string {
  const top = join(root, 'node_modules/.cache/ellwand');
  mkdirSync(top, { recursive: true });
  const outDir = mkdtempSync(join(top, 'built-'));
  buildApp(root, outDir);
  return outDir;
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      const port = typeof address === 'object' && address ? address.port : 0;
      probe.close(() => resolve(port));
    });
  });
}
