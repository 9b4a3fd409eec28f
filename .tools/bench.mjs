// `npm run bench`: bundles tests/bench/run.ts and runs it. Words: --quick, --keep, --check.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';
import { root } from './setup.mjs';

const out = join(root, 'node_modules', '.cache', 'ellwand', 'bench');
mkdirSync(out, { recursive: true });
process.env.BENCH_FOLDER = join(root, 'tests', 'bench');
await build({
  configFile: false,
  root,
  logLevel: 'warn',
  build: { ssr: 'tests/bench/run.ts', outDir: out, target: 'node20', minify: false, emptyOutDir: true },
});
const { main } = await import(pathToFileURL(join(out, 'run.js')).href);
process.exitCode = await main(process.argv.slice(2));
