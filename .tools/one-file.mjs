// The whole tool as one HTML file that opens by a double click, made from the files of the built site: its scripts are
// joined into one, and script, styles, letters and icon stand in the page itself. Nothing is compiled a second time, so
// the one file is the site to the letter. What it may load is told by its content policy: nothing at all; what it may
// run: the one script whose hash the policy names. A notebook inside it is data, which a browser never runs.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';

/** Where a notebook stands in the file; `src/storage/tool.ts` looks for it. */
const PLACE = '<script type="application/json" id="ellwand-notebook"></script>';

/**
 * The one file, as text. Throws where the built page is not as expected.
 * @param {string} outDir the folder of the built site
 */
export async function oneFile(outDir) {
  const page = readFileSync(join(outDir, 'index.html'), 'utf8');
  const entry = /<script type="module"[^>]*\ssrc="([^"]+)"/.exec(page)?.[1];
  if (entry === undefined) throw new Error('the built page has no script');
  const script = insideScript(await joined(join(outDir, entry)));
  const styles = insideStyle(allStyles(outDir, page));
  const kept = page
    .replace(/\s*<script type="module"[^>]*\ssrc="[^"]*"[^>]*><\/script>/g, '')
    .replace(/\s*<link rel="(?:modulepreload|stylesheet|manifest|apple-touch-icon|preload)"[^>]*>/g, '')
    .replace(/\s*<meta http-equiv="Content-Security-Policy"[^>]*>/, '')
    .replace(
      /(<link rel="icon"[^>]*href=")([^"]+)/,
      (_, before, file) => before + inData(join(outDir, file)),
    );
  const whole = kept
    .replace('</head>', () => `<style data-ellwand>${styles}</style>\n  </head>`)
    .replace('</body>', () => `<script type="module" data-ellwand>${script}</script>\n  </body>`);
  const charset = '<meta charset="utf-8" />';
  if (!whole.includes(charset)) throw new Error('the built page does not say how it is written');
  // The charset must stand in the first 1024 bytes, before the notebook.
  return whole.replace(charset, () => [charset, policy(whole), PLACE].join('\n    '));
}

/**
 * The script with all that it fetches later, in one.
 * @param {string} entry
 */
async function joined(entry) {
  const made = await build({
    configFile: false,
    logLevel: 'error',
    plugins: [{ name: 'no-fetching-ahead', transform: withoutPreloads }],
    build: {
      write: false,
      copyPublicDir: false,
      modulePreload: false,
      target: 'es2022',
      rolldownOptions: { input: entry, output: { codeSplitting: false } },
    },
  });
  const [output] = Array.isArray(made) ? made : [made];
  const chunk = output && 'output' in output ? output.output[0] : undefined;
  if (chunk === undefined || !('code' in chunk)) throw new Error('the scripts could not be joined');
  return chunk.code;
}

/**
 * Parts that come later fetch their styles and scripts ahead of themselves: here all are there already.
 * @param {string} code
 */
function withoutPreloads(code) {
  return code.replace(/__vite__mapDeps\(\[[\d,]*\]\)/g, '[]');
}

/**
 * The styles of the page in its own order, then those that would come later; pictures and letters put in.
 * @param {string} outDir
 * @param {string} page
 */
function allStyles(outDir, page) {
  const first = [...page.matchAll(/<link rel="stylesheet"[^>]*href="\.\/([^"]+)"/g)].map(
    ([, file]) => file ?? '',
  );
  const later = readdirSync(join(outDir, 'assets'))
    .filter((name) => name.endsWith('.css'))
    .map((name) => `assets/${name}`)
    .filter((file) => !first.includes(file))
    .sort();
  return [...first, ...later]
    .map((file) => readFileSync(join(outDir, file), 'utf8'))
    .join('\n')
    .replace(
      /url\((["']?)\.\/([^)"']+)\1\)/g,
      (_, __, file) => `url(${inData(join(outDir, 'assets', file))})`,
    );
}

/** @type {Readonly<Record<string, string>>} */
const TYPES = { woff2: 'font/woff2', svg: 'image/svg+xml', png: 'image/png' };

/** @param {string} file */
function inData(file) {
  const type = TYPES[file.split('.').at(-1) ?? ''];
  if (type === undefined) throw new Error(`${file} is of a kind that has no place in one file`);
  return `data:${type};base64,${readFileSync(file).toString('base64')}`;
}

/**
 * A script that no letter of can end the element it stands in. In texts and patterns `\x3c` is `<`.
 * @param {string} code
 */
function insideScript(code) {
  // The browser would read these otherwise than they were written, and the hash would not fit.
  if (/[\r\0]/.test(code)) throw new Error('the script has a letter that HTML does not keep');
  return code.replaceAll('</script', '\\x3c/script').replaceAll('<!--', '\\x3c!--');
}

/** @param {string} styles */
function insideStyle(styles) {
  if (/<\/style/i.test(styles)) throw new Error('the styles would end their own element');
  return styles;
}

/** @param {string} page */
function policy(page) {
  const scripts = [...page.matchAll(/<script(?! type="application\/json")[^>]*>(.*?)<\/script>/gs)];
  const hashes = scripts.map(
    ([, code]) =>
      `'sha256-${createHash('sha256')
        .update(code ?? '')
        .digest('base64')}'`,
  );
  const rules = [
    "default-src 'none'",
    `script-src ${hashes.join(' ')}`,
    "style-src 'unsafe-inline'",
    'font-src data:',
    'img-src data: blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ];
  return `<meta http-equiv="Content-Security-Policy" content="${rules.join('; ')}">`;
}
