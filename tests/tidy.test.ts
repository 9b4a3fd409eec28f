// Reads what the files under src/ import and holds it against the folder table: imports point up the table only,
// and go into another folder through its `index.ts`. On a breach the failure names the line and the row.
// Also looks at what stands at the top of the repository.
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative, sep } from 'node:path';
import { parseSync } from 'vite';
import { describe, expect, test } from 'vitest';

const root = join(import.meta.dirname, '..');

/** For each folder, those it may import; "types of x" allows only `import type`. */
const table: Readonly<Record<string, readonly string[]>> = {
  quantity: [],
  formula: ['quantity'],
  craft: ['quantity', 'types of formula'],
  sheet: ['formula', 'quantity'],
  notebook: [],
  doubt: ['sheet', 'quantity'],
  telling: ['craft', 'quantity', 'formula'],
  session: ['quantity', 'formula', 'craft', 'sheet', 'notebook', 'doubt', 'telling'],
  drawing: ['quantity', 'craft', 'types of formula'],
  storage: ['notebook'],
  views: ['session', 'drawing', 'telling', 'types of storage'],
  app: [
    'quantity',
    'formula',
    'craft',
    'sheet',
    'notebook',
    'doubt',
    'telling',
    'session',
    'drawing',
    'storage',
    'views',
  ],
  terminal: ['session', 'storage'],
};

/** Packages from outside, each with the folders that may use it. One that is not named here may be used nowhere. */
const packages: readonly (readonly [RegExp, readonly string[]])[] = [
  [/^mathjs\/number$/, ['formula']],
  [/^d3-scale$/, ['drawing', 'views']],
  [/^(idb-keyval|fflate)$/, ['storage']],
  [/^(codemirror|@codemirror\/.+|@lezer\/.+)$/, ['views']],
  [/^solid-js(\/.+)?$/, ['views', 'app']],
  [/^@kobalte\/core(\/.+)?$/, ['views', 'app']],
  [/^uqr$/, ['views']],
  [/^@fontsource-variable\/.+$/, ['views', 'app']],
  [/^node:.+$/, ['terminal']],
];

interface Import {
  readonly file: string;
  readonly line: number;
  /** What stands between the quotes. */
  readonly from: string;
  readonly typesOnly: boolean;
}

/** The imports and re-exports of one file, `import()` included. `file` is relative to the repository. */
function importsOf(file: string, text: string): readonly Import[] {
  const parsed = parseSync(file, text);
  if (parsed.errors.length > 0) throw new Error(`${file} cannot be read: ${parsed.errors[0]?.message ?? ''}`);
  const at = (start: number, from: string, typesOnly: boolean): Import => {
    return { file, line: text.slice(0, start).split('\n').length, from, typesOnly };
  };
  const still = parsed.module.staticImports.map((one) => {
    const typesOnly = one.entries.length > 0 && one.entries.every((entry) => entry.isType);
    return at(one.start, one.moduleRequest.value, typesOnly);
  });
  const passedOn = parsed.module.staticExports.flatMap((one) => {
    const from = one.entries.find((entry) => entry.moduleRequest)?.moduleRequest?.value;
    return from === undefined
      ? []
      : [
          at(
            one.start,
            from,
            one.entries.every((entry) => entry.isType),
          ),
        ];
  });
  const later = parsed.module.dynamicImports.map((one) => {
    const words = text.slice(one.moduleRequest.start, one.moduleRequest.end);
    return at(one.start, words.replace(/^['"`]|['"`]$/g, ''), false);
  });
  return [...still, ...passedOn, ...later];
}

/** The breach in one import as a sentence, or undefined when it keeps to the tables. */
function breachOf(one: Import): string | undefined {
  const folder = one.file.split('/')[1] ?? '';
  const place = `${one.file}:${one.line}`;
  const row = table[folder];
  if (!row) return `${place}: the table has no row for src/${folder}`;
  if (!one.from.startsWith('.')) return packageBreach(one, folder, place);
  const target = slashed(normalize(join(dirname(one.file), one.from)));
  if (!target.startsWith('src/')) return outsideBreach(target, folder, place);
  const [, other = '', ...inside] = target.split('/');
  const door = inside.length === 0 || /^index(\.[jt]sx?)?$/.test(inside.join('/'));
  const rowText = `row "${folder} may import: ${row.join(', ') || 'nothing of ours'}"`;
  if (other === folder) return door ? `${place}: a file inside ${folder} imports its own door` : undefined;
  if (row.includes(`types of ${other}`) && !one.typesOnly)
    return `${place}: types only from ${other}; ${rowText}`;
  if (!row.includes(other) && !row.includes(`types of ${other}`))
    return `${place}: ${other} is not in ${rowText}`;
  return door ? undefined : `${place}: go through src/${other}/index.ts, not "${one.from}"`;
}

function packageBreach(one: Import, folder: string, place: string): string | undefined {
  const entry = packages.find(([name]) => name.test(one.from));
  if (!entry) return `${place}: the table of packages has no row for "${one.from}"`;
  if (entry[1].includes(folder)) return undefined;
  return `${place}: "${one.from}" is for ${entry[1].join(', ')}, not for ${folder}`;
}

/** Data of the prebuilt notebooks may be read by the two folders that open them. */
function outsideBreach(target: string, folder: string, place: string): string | undefined {
  if (target.startsWith('notebooks/') && ['app', 'terminal'].includes(folder)) return undefined;
  return `${place}: ${target} is outside src/`;
}

function sourceFiles(): readonly string[] {
  return readdirSync(join(root, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => slashed(relative(root, join(entry.parentPath, entry.name))))
    .sort();
}

function slashed(path: string): string {
  return path.split(sep).join('/');
}

describe('the folder table', () => {
  test('every import under src/ keeps to it', () => {
    const files = sourceFiles();
    expect(files.length).toBeGreaterThan(0);
    const imports = files.flatMap((file) => importsOf(file, readFileSync(join(root, file), 'utf8')));
    expect(imports.map(breachOf).filter((breach) => breach !== undefined)).toEqual([]);
  });

  test('no row lets two folders import each other, however long the way round', () => {
    const done = new Set<string>();
    const visit = (folder: string, way: readonly string[]): void => {
      expect(way, `a ring: ${[...way, folder].join(' → ')}`).not.toContain(folder);
      if (done.has(folder)) return;
      for (const other of table[folder] ?? []) visit(other.replace('types of ', ''), [...way, folder]);
      done.add(folder);
    };
    for (const folder of Object.keys(table)) visit(folder, []);
    expect(done.size).toBe(Object.keys(table).length);
  });

  test('src/ holds the folders of the table and the page, nothing else', () => {
    const known = [...Object.keys(table), 'index.html'];
    expect(readdirSync(join(root, 'src')).filter((name) => !known.includes(name))).toEqual([]);
  });

  test.each([
    [
      "import { a } from '../sheet/index.ts';",
      'sheet is not in row "craft may import: quantity, types of formula"',
    ],
    ["\nimport { a } from '../quantity/units.ts';", 'src/craft/x.ts:2: go through src/quantity/index.ts'],
    ["import { a } from '../formula/index.ts';", 'types only from formula'],
    ["import { type A, b } from '../formula';", 'types only from formula'],
    ["import { a } from './index.ts';", 'imports its own door'],
    ["export { a } from '../session/index.ts';", 'session is not in row'],
    ["const a = import('../views/index.ts');", 'views is not in row'],
    ["import { render } from 'solid-js/web';", '"solid-js/web" is for views, app, not for craft'],
    ["import left from 'left';", 'the table of packages has no row for "left"'],
    ["import a from '../../tests/a.ts';", 'tests/a.ts is outside src/'],
  ])('finds the breach in %j', (text, sentence) => {
    expect(importsOf('src/craft/x.ts', text).map(breachOf).join()).toContain(sentence);
  });

  test.each([
    ["import { a } from '../quantity/index.ts';"],
    ["import { a } from '../quantity';"],
    ["import type { A } from '../formula/index.ts';"],
    ["import { type A, type B } from '../formula/index.ts';"],
    ["import { a } from './spread.ts';\n// import { a } from '../sheet/index.ts';"],
  ])('finds none in %j', (text) => {
    const imports = importsOf('src/craft/x.ts', text);
    expect(imports).toHaveLength(1);
    expect(imports.map(breachOf)).toEqual([undefined]);
  });
});

describe('the top of the repository', () => {
  test('holds only what was agreed', () => {
    const agreed = [
      ...['src', 'notebooks', 'tests', 'public'],
      ...['package.json', 'package-lock.json', 'tsconfig.json', 'vite.config.ts'],
      ...['README.md', 'DEVELOPERS.md', 'LICENSE'],
      ...['node_modules', 'dist', 'coverage'], // not kept in the repository
    ];
    const extra = readdirSync(root).filter((name) => !name.startsWith('.') && !agreed.includes(name));
    expect(extra).toEqual([]);
  });

  test('the lock file carries no download addresses', () => {
    const lock = readFileSync(join(root, 'package-lock.json'), 'utf8');
    expect(lock).not.toContain('"resolved"');
    expect(lock).toContain('"integrity"');
  });
});
