import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { type Plugin, runnerImport } from 'vite';
import solid from 'vite-plugin-solid';
import { defineConfig } from 'vitest/config';
import { oneFile } from './.tools/one-file.mjs';
import { FIRST } from './src/app/prebuilt.ts';

const root = import.meta.dirname;
const notebooks = join(root, 'notebooks');
const solidBuild = join(root, 'node_modules/solid-js');

/** What the built page may load: only its own files. The editor writes `<style>` elements, hence the one exception. */
const contentPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** Files in whose place another stands in the built page, as what is in them comes after the first sheet. */
const LATER: Readonly<Record<string, string>> = {
  'craft/functions.ts': 'craft/functions-later.ts',
  'formula/reader.ts': 'formula/reader-later.ts',
  'formula/ways.ts': 'formula/ways-later.ts',
  'telling/sentences.ts': 'telling/sentences-later.ts',
};

/** Files that are written while the page is built. */
const FILLED: Readonly<Record<string, () => Promise<string>>> = {
  'formula/shapes.ts': async () => {
    const { knownShapes } = await toolFor<typeof import('./.tools/known-shapes.ts')>('known-shapes.ts');
    return `export const shapes = ${JSON.stringify(knownShapes(notebooks, FIRST))};`;
  },
  'app/first-notebook.ts': async () => {
    const { firstNotebook } = await toolFor<typeof import('./.tools/first-notebook.ts')>('first-notebook.ts');
    return `export const beginFirst = async () => (${JSON.stringify(firstNotebook(notebooks))});`;
  },
};

export default defineConfig({
  root: join(root, 'src'),
  publicDir: join(root, 'public'),
  base: './',
  appType: 'mpa', // A missing file must answer 404, not the start page.
  clearScreen: false,
  plugins: [solid(), afterFirstSheetPlugin(), contentPolicyPlugin(), oneFilePlugin(), serviceWorkerPlugin()],
  build: {
    outDir: join(root, 'dist'),
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0, // The policy allows no data: fonts.
    modulePreload: { polyfill: false },
    rolldownOptions: {
      output: {
        // All the first sheet waits for is one file: together it is squeezed to less, and asked for once.
        codeSplitting: {
          groups: [{ name: 'first', tags: ['$initial'], includeDependenciesRecursively: false }],
        },
      },
    },
  },
  test: {
    root,
    environment: 'node', // Said here at the root, or the Solid plugin asks for jsdom.
    reporters: ['default', join(root, 'tests/support/plain-count.ts')],
    projects: [
      {
        extends: true,
        // Node would pick Solid's server build, in which nothing is reactive.
        resolve: {
          alias: [
            { find: /^solid-js$/, replacement: join(solidBuild, 'dist/solid.js') },
            { find: /^solid-js\/web$/, replacement: join(solidBuild, 'web/dist/web.js') },
            { find: /^solid-js\/store$/, replacement: join(solidBuild, 'store/dist/store.js') },
          ],
        },
        test: {
          name: 'unit',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**'],
          testTimeout: 60_000, // The laws try thousands of notebooks; a slow machine is no failure.
          server: { deps: { inline: [/solid-js/, /@kobalte/, /@solid-primitives/, /solid-/] } },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/global-setup.ts'],
          fileParallelism: false,
          testTimeout: 60_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 30_000 } }, // As long as the browser waits for an element: a slow machine is no failure.
          sequence: { groupOrder: 1 }, // After the unit tests: both at once would only slow each other.
        },
      },
    ],
  },
});

/** Writes the content policy into the built page; the dev server needs a web socket and inline styles. */
function contentPolicyPlugin(): Plugin {
  return {
    name: 'ellwand-content-policy',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: contentPolicy },
        injectTo: 'head-prepend',
      },
    ],
  };
}

/**
 * In the built page the formula parser, some plans and the sentences for problems come after the first sheet: others
 * stand in the place of their files. The notebook of a first visit stands in the page itself, as do the shapes of its formulas.
 */
function afterFirstSheetPlugin(): Plugin {
  const at = (name: string) => join(root, 'src', name).split(sep).join('/');
  const later = new Map(Object.entries(LATER).map(([name, instead]) => [at(name), at(instead)]));
  const filled = new Map(Object.entries(FILLED).map(([name, fill]) => [at(name), fill]));
  return {
    name: 'ellwand-after-first-sheet',
    apply: (config, { command }) => command === 'build' && !config.build?.ssr,
    enforce: 'pre',
    resolveId: (id, importer) =>
      id.startsWith('./') && importer
        ? later.get(join(dirname(importer), id).split(sep).join('/'))
        : undefined,
    load: (id) => filled.get(id)?.(),
  };
}

/** What a tool of `.tools` gives, run with the sources as they stand. */
async function toolFor<Tool extends object>(name: string): Promise<Tool> {
  return (await runnerImport<Tool>(join(root, '.tools', name), { configFile: false })).module;
}

/** The tool as one file, beside the built page. */
const ONE_FILE = 'ellwand.html';

/** Writes the tool as one file, from the files just built. */
function oneFilePlugin(): Plugin {
  let outDir = '';
  return {
    name: 'ellwand-one-file',
    apply: (config, { command }) => command === 'build' && !config.build?.ssr,
    configResolved(config) {
      outDir = config.build.outDir;
    },
    closeBundle: {
      sequential: true,
      async handler(error?: Error) {
        if (!error) writeFileSync(join(outDir, ONE_FILE), await oneFile(outDir));
      },
    },
  };
}

/** Writes `sw.js` beside the built page: the template with the list of built files and a hash of their contents. */
function serviceWorkerPlugin(): Plugin {
  let outDir = '';
  let isServerBuild = false;
  return {
    name: 'ellwand-service-worker',
    apply: 'build',
    configResolved(config) {
      outDir = config.build.outDir;
      isServerBuild = Boolean(config.build.ssr);
    },
    closeBundle(error?: Error) {
      if (error || isServerBuild) return;
      const files = builtFiles(outDir);
      const hash = createHash('sha256');
      for (const file of files) hash.update(file).update(readFileSync(join(outDir, file)));
      const template = readFileSync(join(root, 'src/app/sw.template.js'), 'utf8');
      const filled = template
        .replace("'VERSION'", () => JSON.stringify(hash.update(template).digest('hex').slice(0, 16)))
        .replace("['FILES']", () => JSON.stringify(files));
      writeFileSync(join(outDir, 'sw.js'), filled);
    },
  };
}

/** Paths of the files a page may ask for at any time, with forward slashes, in a steady order. */
function builtFiles(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter(
      (entry) =>
        entry.isFile() && entry.name !== 'sw.js' && entry.name !== ONE_FILE && !entry.name.endsWith('.map'),
    )
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}
