// `npm run golden`: records the golden files again by running the tests with GOLDEN=1. Read the difference before
// committing it. Words after `--` go to vitest, for instance a folder of tests.
import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { root, setup } from './setup.mjs';

await setup();
const vitest = join(dirname(createRequire(import.meta.url).resolve('vitest/package.json')), 'vitest.mjs');
const { status } = spawnSync(process.execPath, [vitest, 'run', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, GOLDEN: '1' },
});
process.exitCode = status ?? 1;
