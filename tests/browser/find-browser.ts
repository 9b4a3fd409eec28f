// Finds a browser that really starts. In order: CHROME_PATH alone when it is set; the one packaged with the
// development dependencies (Linux on x64: pinned, the same everywhere); an installed Chrome, Chromium or Edge.
import { existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { brotliDecompressSync } from 'node:zlib';
import { chromium, type LaunchOptions } from 'playwright-core';

// Found by a package, as the bench runs from a bundle of its own.
const cache = join(
  dirname(createRequire(import.meta.url).resolve('playwright-core/package.json')),
  '../.cache',
);

/** A browser program, and what its environment must say for it to start. */
export interface Browser {
  readonly name: string;
  readonly executablePath: string;
  readonly env: Readonly<Record<string, string>>;
  /** True for the packaged one: only there are screen pictures alike to the pixel. */
  readonly isPackaged: boolean;
}

const quiet = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--font-render-hinting=none',
  '--force-color-profile=srgb',
];

/** How to start the browser. Without a sandbox: in containers a plain user may not make one. */
export function launchOptions(browser: Browser): LaunchOptions {
  const env: Record<string, string> = { ...browser.env };
  for (const [name, value] of Object.entries(process.env)) if (value !== undefined) env[name] ??= value;
  return {
    executablePath: browser.executablePath,
    headless: true,
    args: quiet,
    timeout: 30_000,
    chromiumSandbox: false,
    env,
  };
}

/** The first browser that starts and shows a page. Throws, saying what was tried and what to do, when none does. */
export async function findBrowser(): Promise<Browser> {
  const own = process.env['CHROME_PATH'];
  const sources = own ? [() => [plain('CHROME_PATH', own)]] : [packaged, installed];
  const tried: string[] = [];
  for (const source of sources) {
    for (const browser of candidates(source, tried)) {
      const fault = await faultOf(browser);
      if (fault === undefined) return browser;
      tried.push(`${browser.name} ${browser.executablePath}: ${fault}`);
    }
  }
  throw new Error(
    `The browser tests need Chrome, Chromium or Edge, and none of these started:\n${tried.map((line) => `  - ${line}\n`).join('')}Do one of: install Google Chrome or Chromium (Debian/Ubuntu: "apt-get install chromium"), or set CHROME_PATH to the program of one. On Linux x64 "npm ci" also brings a packaged one.`,
  );
}

function candidates(source: () => readonly Browser[], tried: string[]): readonly Browser[] {
  try {
    return source();
  } catch (error) {
    tried.push(`${source.name}: ${sentenceOf(error)}`);
    return [];
  }
}

async function faultOf(browser: Browser): Promise<string | undefined> {
  try {
    const running = await chromium.launch(launchOptions(browser));
    const page = await running.newPage();
    await page.goto('data:text/html,<title>ok</title>');
    const title = await page.title();
    await running.close();
    return title === 'ok' ? undefined : 'showed no page';
  } catch (error) {
    return sentenceOf(error);
  }
}

function sentenceOf(error: unknown): string {
  return String(error instanceof Error ? error.message : error).split('\n')[0] ?? '';
}

function plain(name: string, executablePath: string): Browser {
  return { name, executablePath, env: {}, isPackaged: false };
}

/** The packaged browser, first with the system's libraries, then with those in the package. */
function packaged(): readonly Browser[] {
  if (process.platform !== 'linux' || process.arch !== 'x64') return [];
  const main = createRequire(import.meta.url).resolve('@sparticuz/chromium');
  const folder = join(dirname(main), '..', '..');
  const version = versionIn(folder);
  const dir = join(cache, `chromium-${version}`);
  if (!existsSync(dir)) unpack(folder, dir);
  const base = { name: `packaged ${version}`, executablePath: join(dir, 'chrome'), isPackaged: true };
  // Its own fonts always, so that pictures do not depend on the machine's.
  const env = { FONTCONFIG_FILE: join(dir, 'fonts.conf') };
  return [
    { ...base, env },
    { ...base, env: { ...env, LD_LIBRARY_PATH: join(dir, 'nss', 'lib') } },
  ];
}

function versionIn(folder: string): string {
  const data: unknown = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const version = typeof data === 'object' && data !== null && 'version' in data ? data.version : undefined;
  if (typeof version !== 'string') throw new Error(`${folder}/package.json names no version`);
  return version;
}

/** Unpacks aside, then renames: two runs at the same moment never see half a browser. Takes about 4 seconds. */
function unpack(folder: string, dir: string): void {
  mkdirSync(dirname(dir), { recursive: true });
  const aside = mkdtempSync(`${dir}-`);
  const open = (file: string) => brotliDecompressSync(readFileSync(join(folder, 'bin', file)));
  writeFileSync(join(aside, 'chrome'), open('chromium.br'), { mode: 0o755 });
  untar(open('al2023.tar.br'), join(aside, 'nss'));
  untar(open('fonts.tar.br'), aside);
  const inside = `<dir>${dir}/fonts</dir><cachedir>${dir}/fontcache</cachedir>`;
  const config = `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig>${inside}</fontconfig>`;
  writeFileSync(join(aside, 'fonts.conf'), config);
  try {
    renameSync(aside, dir);
  } catch {
    rmSync(aside, { recursive: true, force: true }); // Another run was first.
  }
}

/** Reads the plain ustar form: a 512-byte head (name at 0, size in octal at 124, kind at 156), then the data. */
function untar(tar: Buffer, into: string): void {
  for (let at = 0; at + 512 <= tar.length; ) {
    const field = (from: number, length: number) => {
      return tar.toString('utf8', at + from, at + from + length).split('\0')[0] ?? '';
    };
    const name = field(0, 100);
    if (name === '') return;
    const size = Number.parseInt(field(124, 12).trim() || '0', 8);
    const kind = field(156, 1);
    if (kind === '0' || kind === '') {
      mkdirSync(dirname(join(into, name)), { recursive: true });
      writeFileSync(join(into, name), tar.subarray(at + 512, at + 512 + size), { mode: 0o755 });
    }
    at += 512 + Math.ceil(size / 512) * 512;
  }
}

function installed(): readonly Browser[] {
  const places = placesOf(process.platform).filter((path) => existsSync(path));
  return places.map((path) => plain('installed', path));
}

function placesOf(platform: string): readonly string[] {
  if (platform === 'darwin') {
    return ['Google Chrome', 'Chromium', 'Microsoft Edge'].map(
      (n) => `/Applications/${n}.app/Contents/MacOS/${n}`,
    );
  }
  if (platform === 'win32') {
    const tops = ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].map((name) => process.env[name] ?? '');
    const rest = ['Google/Chrome/Application/chrome.exe', 'Microsoft/Edge/Application/msedge.exe'];
    return tops.filter((top) => top !== '').flatMap((top) => rest.map((path) => join(top, path)));
  }
  const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];
  return (process.env['PATH'] ?? '').split(':').flatMap((top) => names.map((name) => join(top, name)));
}
