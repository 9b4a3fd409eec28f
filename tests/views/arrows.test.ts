// The page's letters have no arrows and ticks, and a browser may have none either: they are drawn, or said in words.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const src = join(import.meta.dirname, '../../src');

test('no arrow or tick is written on the page', () => {
  const files = ['views', 'app'].flatMap((folder) =>
    readdirSync(join(src, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.tsx?$/.test(name) && !name.endsWith('words.tsx')) // There they are drawn.
      .map((name) => join(folder, name)),
  );
  const written = files.filter((name) =>
    /[\u2190-\u21ff\u2713-\u2718]/u.test(readFileSync(join(src, name), 'utf8')),
  );
  expect(written).toEqual([]);
});
