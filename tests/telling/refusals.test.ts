// Every refusal and remark that the notebook and the shelf can give has a sentence of its own, fit to be read.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { refusalCodes, refusalSentence } from '../../src/telling/index.ts';

const src = join(import.meta.dirname, '../../src');

/** The codes that a folder's sources give: refused, remarked, or chosen between. */
function codesIn(folder: string): readonly string[] {
  const files = readdirSync(join(src, folder), { recursive: true, encoding: 'utf8' });
  const text = files
    .filter((file) => file.endsWith('.ts'))
    .map((file) => readFileSync(join(src, folder, file), 'utf8'))
    .join('\n');
  const calls = text.matchAll(/(?:\brefuse|\bremarks\.add|\bcode:|\bconst code =)\(?\s*([^\n]*)/gi);
  const codes = [...calls].flatMap(([, rest = '']) => {
    const upToParts = rest.split(/[{]/)[0] ?? '';
    return [...upToParts.matchAll(/'([a-z]+(?:_[a-z]+)*)'/g)].map(([, code = '']) => code);
  });
  const table = /const codes = \{([^}]*)\}/.exec(text)?.[1] ?? '';
  return [...codes, ...[...table.matchAll(/'([a-z_]+)'/g)].map(([, code = '']) => code)];
}

/** Words that stand in those calls beside the codes: paths, and what a change keeps. */
const NOT_CODES = new Set([
  'ellwand',
  'title',
  'units',
  'today',
  'sections',
  'columns',
  'id',
  'range',
  'string',
  'updated',
]);
const used = [...new Set([...codesIn('notebook'), ...codesIn('storage')])].filter((c) => !NOT_CODES.has(c));

describe('sentences of refusals and remarks', () => {
  test('the codes are found in the sources', () => {
    expect(used.length).toBeGreaterThan(45);
    expect(used).toEqual(expect.arrayContaining(['no_such_cell', 'cut_off', 'label_taken', 'link_cut']));
  });

  test.each(used)('%s has a sentence', (code) => {
    expect(refusalCodes).toContain(code);
  });

  test.each(refusalCodes)('%s is told in one line that shows no code', (code) => {
    for (const parts of [{}, { path: 'sections.1.cells.3.note' }]) {
      const sentence = refusalSentence({ code, parts });
      expect(sentence).toMatch(/^[A-Z“�].*\.$/u);
      expect(sentence).not.toMatch(/undefined|null|NaN|_|\n/);
    }
  });

  test('a place in the file is told in words, counted from 1', () => {
    expect(
      refusalSentence({
        code: 'too_long',
        parts: { path: 'sections.1.cells.3.note', length: 5000, limit: 4000 },
      }),
    ).toBe('A text of 5,000 letters was cut at 4,000, which is the most (section 2, cell 4, note).');
    expect(refusalSentence({ code: 'too_long', parts: { length: 5000, limit: 4000 } })).toBe(
      'This has 5,000 letters, and 4,000 is the most: shorten it.',
    );
  });

  test.each([
    [
      'another_kind',
      { kind: 'picture' },
      'This is a picture, not a notebook: choose a file that ends in .ellwand.json.',
    ],
    ['another_kind', { kind: 'zip' }, 'This is a packed file: unpack it first.'],
    ['too_big', { size: 52_428_800, limit: 4_194_304 }, 'This file has 50 MB, and 4 MB is the most.'],
    [
      'name_taken',
      { name: 'chest', taken: 'finished_chest' },
      'There is a cell called “finished chest” already: choose another name.',
    ],
    [
      'name_taken',
      { was: 'chest', name: 'chest_2', path: '' },
      'Two cells were called “chest”: the second is now “chest 2”.',
    ],
    [
      'cut_off',
      { line: 12, column: 4, path: '' },
      'The file breaks off at line 12: all before that was read.',
    ],
    ['slips', { count: 1, path: '' }, 'In the file 1 slip of comma or bracket was put right.'],
  ])('%s', (code, parts, sentence) => {
    expect(refusalSentence({ code, parts })).toBe(sentence);
  });

  test('a code nobody knows is told all the same', () => {
    expect(refusalSentence({ code: 'of_another_day', parts: {} })).toBe(
      'This could not be done (of another day).',
    );
  });
});
