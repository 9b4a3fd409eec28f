// Once for all browser tests: builds the app as users get it, serves it on a free port, and starts one browser.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';
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
  const server = await preview({
    root: join(root, 'src'),
    configFile: join(root, 'vite.config.ts'),
    build: { outDir },
    preview: { host: '127.0.0.1', port: await freePort(), strictPort: true },
    logLevel: 'warn',
  });
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

/**
 * Builds into a folder of its own. In a child process, because vitest sets NODE_ENV to "test", with which vite
 * would build the app as for development.
 */
function build(): string {
  const top = join(root, 'node_modules/.cache/ellwand');
  mkdirSync(top, { recursive: true });
  const outDir = mkdtempSync(join(top, 'built-'));
  const words = ['build', '--outDir', outDir, '--emptyOutDir', '--logLevel', 'warn'];
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(root, 'node_modules/vite/bin/vite.js'), ...words],
    {
      cwd: root,
      env: { ...process.env, NODE_ENV: 'production', VITEST: undefined },
      encoding: 'utf8',
    },
  );
  if (status !== 0) throw new Error(`The app could not be built:\n${stdout}${stderr}`);
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
