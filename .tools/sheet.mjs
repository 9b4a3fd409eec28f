// The terminal door: `npm run -s sheet -- words`, or `node .tools/sheet.mjs words` from any folder.
// src/terminal/main.ts is bundled once and kept; it is bundled again when a file under src/ or notebooks/, or the
// lock file, has changed (sizes and times are compared: some 5 ms). Only the answer goes to standard output.
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import module from 'node:module';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { root, setup } from './setup.mjs';

const kept = join(root, 'node_modules', '.cache', 'ellwand', 'sheet');

await setup();
const folder = join(kept, state());
const start = join(folder, 'main.mjs');
if (!isThere(start)) await bundle();
if (process.env.npm_lifecycle_event === 'sheet' && process.env.INIT_CWD) process.chdir(process.env.INIT_CWD);
process.stdout.on('error', (error) => process.exit(error.code === 'EPIPE' ? 0 : 1)); // `| head` closes early
keepCompiled();
const { main } = await import(pathToFileURL(start).href);
process.exitCode = await main(process.argv.slice(2));

/** One word that changes whenever what goes into the bundle may have changed. */
function state() {
  const hash = createHash('sha256').update(process.version);
  hash.update(readFileSync(join(root, 'package-lock.json')));
  for (const file of [...filesIn('src'), ...filesIn('notebooks'), fileURLToPath(import.meta.url)]) {
    const { size, mtimeMs } = statSync(file);
    hash.update(`${file} ${size} ${mtimeMs}\n`);
  }
  return hash.digest('hex').slice(0, 20);
}

/** @param {string} name */
function filesIn(name) {
  const top = join(root, name);
  if (!isThere(top)) return [];
  return readdirSync(top, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

/** Bundles aside, then renames: a second command at the same moment never sees half a bundle. */
async function bundle() {
  mkdirSync(kept, { recursive: true });
  const aside = mkdtempSync(join(kept, 'new-'));
  process.env.NODE_ENV = 'production';
  const { build } = await import('vite');
  await build({
    configFile: false,
    root,
    publicDir: false,
    logLevel: 'error',
    ssr: { noExternal: true },
    build: {
      ssr: join(root, 'src/terminal/main.ts'),
      outDir: aside,
      target: 'node20',
      rollupOptions: { output: { entryFileNames: 'main.mjs', codeSplitting: false } },
    },
  });
  forgetOlder(aside);
  try {
    renameSync(aside, folder);
  } catch (error) {
    rmSync(aside, { recursive: true, force: true });
    if (!isThere(start)) throw error;
  }
}

/**
 * Removes bundles made more than an hour ago.
 * @param {string} aside the one being made
 */
function forgetOlder(aside) {
  for (const entry of readdirSync(kept)) {
    const path = join(kept, entry);
    if (path === aside || entry === 'compiled') continue;
    if (Date.now() - statSync(path).mtimeMs > 3_600_000) rmSync(path, { recursive: true, force: true });
  }
}

/** Node 22 and later can keep compiled code between runs. */
function keepCompiled() {
  const { enableCompileCache } = /** @type {Record<string, unknown>} */ (/** @type {unknown} */ (module));
  if (typeof enableCompileCache === 'function') enableCompileCache(join(kept, 'compiled'));
}

/** @param {string} path */
function isThere(path) {
  return statSync(path, { throwIfNoEntry: false }) !== undefined;
}
