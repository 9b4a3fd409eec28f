// The keys that the help page tells stand in the README as well, word for word.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sheetKeys } from '../../src/views/reference/sheet-keys.ts';

test('the README tells the keys of the sheet as the help page does', () => {
  const readme = readFileSync(join(import.meta.dirname, '../../README.md'), 'utf8');
  const [, table = ''] = readme.split('| keys | what they do |\n| --- | --- |\n');
  const rows = table.slice(0, table.indexOf('\n\n')).split('\n');
  expect(rows).toEqual(sheetKeys.map(([keys, does]) => `| ${keys} | ${does} |`));
});
