import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { isRefused, readNotebook, writeNotebook } from '../../src/notebook/index.ts';
import { EXAMPLE, notebook } from './notebooks.ts';
import { patience, runs } from './runs.ts';

vi.setConfig({ testTimeout: patience });

/** The notebook in a text that must be good. */
function good(text: string) {
  const read = readNotebook(text);
  if (isRefused(read)) throw new Error(JSON.stringify(read));
  expect(read.remarks).toEqual([]);
  return read.notebook;
}

describe('the file', () => {
  test('is written as the format’s page shows it, to the letter', () => {
    expect(writeNotebook(good(EXAMPLE))).toBe(EXAMPLE);
  });

  test('a notebook written and read is the same notebook, and the second writing has the same bytes', () => {
    fc.assert(
      fc.property(notebook, (made) => {
        const text = writeNotebook(made);
        const back = good(text);
        expect(back).toEqual(made);
        expect(writeNotebook(back)).toBe(text);
      }),
      runs(150, 3000),
    );
  });

  test('is JSON that any other program reads, one cell to a line', () => {
    fc.assert(
      fc.property(notebook, (made) => {
        const text = writeNotebook(made);
        const cells = made.sections.flatMap((section) => section.cells);
        expect(JSON.parse(text).ellwand).toBe(1);
        expect(text.split('\n').filter((line) => /^ {6}\{"id": "k/.test(line))).toHaveLength(cells.length);
      }),
      runs(50, 500),
    );
  });

  test('keeps the keys it does not know, in their order, after those it knows', () => {
    const text = EXAMPLE.replace(
      '"note": "washed, dried flat"',
      '"mood": {"b": 1, "a": [null]}, "note": "dry", "yarn": "x"',
    ).replace('"rows": {"t4": 37}} }', '"rows": {"t4": 37}},\n  "colour": "sea",\n  "apple": 1 }');
    const written = writeNotebook(good(text));
    expect(written).toContain('"note": "dry", "mood": {"b": 1, "a": [null]}, "yarn": "x"}');
    expect(written).toMatch(/"colour": "sea",\n {2}"apple": 1 \}\n$/);
  });
});
