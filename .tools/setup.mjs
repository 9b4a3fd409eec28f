// Puts the packages of the lock file in place, once; the other commands call it first.
// Uses only what Node itself brings, as it runs when nothing is installed yet. Everything it says goes to
// standard error, so that a command's own answer stays clean.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The repository's own folder. */
export const root = fileURLToPath(new URL('..', import.meta.url));

const stampFile = join(root, 'node_modules', '.ellwand-stamp');
const lockFile = join(root, '.setup-lock');
const machine = `${process.platform} ${process.arch} node ${process.versions.node.split('.')[0]}`;

/** Installs what the lock file names, unless that is there already (2 ms). Ends the process when it cannot. */
export async function setup() {
  if (isReady()) return;
  await takeLock();
  try {
    if (!isReady()) install();
  } finally {
    rmSync(lockFile, { force: true });
  }
}

function isReady() {
  const stamp = textOf(stampFile);
  if (stamp === wantedStamp()) return true;
  // Somebody ran npm by hand: good enough when every package has the version the lock file names.
  if (stamp !== '' && !stamp.startsWith(machine)) return false;
  if (!isInstalledByHand()) return false;
  writeFileSync(stampFile, wantedStamp());
  return true;
}

function wantedStamp() {
  return `${machine} ${createHash('sha256')
    .update(textOf(join(root, 'package-lock.json')))
    .digest('hex')}`;
}

function isInstalledByHand() {
  const there = packagesIn(join(root, 'node_modules', '.package-lock.json'));
  const wanted = Object.entries(packagesIn(join(root, 'package-lock.json'))).filter(([path]) => path !== '');
  if (wanted.length === 0) return false;
  return wanted.every(([path, { version, optional }]) =>
    there[path] ? there[path].version === version : optional === true,
  );
}

/**
 * @param {string} file
 * @returns {Record<string, { version?: string, optional?: boolean }>}
 */
function packagesIn(file) {
  try {
    return JSON.parse(textOf(file)).packages ?? {};
  } catch {
    return {};
  }
}

function install() {
  say('Installing the packages of package-lock.json (about 15 seconds, once) …');
  const words = ['ci', '--include=dev', '--no-audit', '--no-fund'];
  const npm = process.env.npm_execpath; // npm's own script, when npm started us
  const [program, ...before] = npm?.endsWith('js') ? [process.execPath, npm] : ['npm'];
  const { status, error } = spawnSync(program ?? 'npm', [...before, ...words], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: program === 'npm' && process.platform === 'win32',
  });
  if (status !== 0) {
    say(
      `The packages could not be installed${error ? `: ${error.message}` : ''}. What npm said stands above.`,
    );
    rmSync(lockFile, { force: true });
    process.exit(1);
  }
  mkdirSync(join(root, 'node_modules'), { recursive: true });
  writeFileSync(stampFile, wantedStamp());
}

/** Waits until no other live process is installing in this folder: two at once wreck each other. */
async function takeLock() {
  for (let tries = 0; ; tries += 1) {
    try {
      writeFileSync(lockFile, String(process.pid), { flag: 'wx' });
      return;
    } catch (error) {
      if (codeOf(error) !== 'EEXIST') throw error;
    }
    const owner = Number(textOf(lockFile));
    if (tries > 0 && !isAlive(owner)) rmSync(lockFile, { force: true });
    else if (tries === 1) say(`Waiting for another installation in this folder (process ${owner}) …`);
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}

/** @param {number} pid */
function isAlive(pid) {
  if (!Number.isInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) === 'EPERM'; // alive, but somebody else's
  }
}

/** @param {unknown} error */
function codeOf(error) {
  return error instanceof Error && 'code' in error ? error.code : undefined;
}

/** @param {string} file */
function textOf(file) {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}

/** @param {string} text */
function say(text) {
  process.stderr.write(`${text}\n`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await setup();
