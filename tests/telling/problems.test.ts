// Every problem that formulas, sheets and plans can have has a sentence of its own, and the ones a knitter meets most
// are fixed word by word.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { problemCodes, problemSentence } from '../../src/telling/index.ts';
import { sentencesOf } from './sentences.ts';

const src = join(import.meta.dirname, '../../src');

/** Words with a hyphen in quotes, which are how sources write problem codes and little else. */
function codesIn(folder: string): readonly string[] {
  const files = readdirSync(join(src, folder), { recursive: true, encoding: 'utf8' });
  const text = files.map((file) =>
    file.endsWith('.ts') ? readFileSync(join(src, folder, file), 'utf8') : '',
  );
  const hyphened = [...text.join('\n').matchAll(/'([a-z]+(?:-[a-z]+)+)'/g)].map(([, code = '']) => code);
  const said = [...text.join('\n').matchAll(/\b(?:problem|fail|refuse)\([^'()\n]*'([a-z]+)'/g)];
  return [...hyphened, ...said.map(([, code = '']) => code)];
}

const used = [...new Set(['formula', 'sheet', 'craft'].flatMap(codesIn))].filter((code) => code !== 'parts');

describe('sentences of problems', () => {
  test('the codes are found in the sources', () => {
    expect(used.length).toBeGreaterThan(90);
    expect(used).toEqual(expect.arrayContaining(['circle', 'unlike', 'in-unclear', 'plan-toe-end']));
  });

  test.each(used)('%s has a sentence', (code) => {
    expect(problemCodes).toContain(code);
  });

  test.each(problemCodes)('%s is told in one line that shows no code', (code) => {
    const sentence = problemSentence({ code, parts: {} });
    expect(sentence).not.toMatch(/\(.*-.*-.*\)|null|\n/);
    expect(sentence).toMatch(/[.?]$/u);
  });
});

const CELLS = {
  chest: '42 in',
  finished_chest: '44 in',
  negative_ease: '10%',
  heel_rows: '32 row',
  heel_stitches: '34 st',
  joins_per_repeat: '3 cm',
  gauge: '18 st / 4 in',
  a: '8 st',
  b: '12 st',
};

describe('what a knitter is told', () => {
  test.each([
    [
      'chest in',
      '“in” is unclear after chest: for inches put a number before it; to show in another unit write “to”.',
    ],
    [
      'heel_stitches + heel_rows',
      'This adds rows to stitches; say how many stitches to how many rows, as in heel rows * 1 st / 2 row.',
    ],
    [
      'heel_stitches < heel_rows',
      'This compares stitches with rows; say how many stitches to how many rows, as in heel rows * 1 st / 2 row.',
    ],
    [
      'heel_rows - heel_stitches',
      'This takes stitches from rows; say how many rows to how many stitches, as in heel stitches * 2 row / 1 st.',
    ],
    ['chest - negative_ease', 'negative ease is a percentage: write chest * (1 - negative ease).'],
    [
      'finished chest - chest',
      'Names are joined with _ in a formula: write finished_chest for “finished chest”.',
    ],
    ['a < b < 20 st', 'Compare two at a time: a < b and b < 20 st.'],
    ['1,000 m', 'This could be 1.000 or 1000: write it without the comma.'],
    ['chest + 1,5 in', 'Write 1.5 with a point here; in a formula a comma separates.'],
    ['chesst + 2 in', 'There is no cell called “chesst”: did you mean “chest”?'],
    ['3-1/2 in', '3 is a plain number and 1/2 in is a length: give the number its unit, as in 2 in or 5 cm.'],
    [
      'chest + a',
      'chest is a length and a is stitches: multiply the length by a gauge, or divide the count by one.',
    ],
    ['a == 8', 'a is stitches and 8 is a plain number: give the number its unit, as in 8 st.'],
    ['a / 4 - 1', 'a / 4 is stitches and 1 is a plain number: give the number its unit, as in 1 st.'],
    [
      'chosen(heel_rows) < heel_rows < 3',
      'Compare two at a time: chosen(heel rows) < heel rows and heel rows < 3.',
    ],
    [
      'joins_per_repeat - negative_ease',
      'negative ease is a percentage: write joins_per_repeat * (1 - negative ease).',
    ],
    [
      'whole(negative_ease * chest)',
      'whole is for counts, and negative ease * chest is a length: multiply it by a gauge first, or use to_nearest(negative ease * chest, 1/4 in).',
    ],
    ['heel_rows + 3', 'heel rows is rows and 3 is a plain number: give the number its unit, as in 3 rows.'],
    ['a + (1 + 2)', 'a is stitches and 1 + 2 is a plain number: make it a count, as in (1 + 2) * 1 st.'],
    ['20 December', 'Which year is 20 December? A day is written as 20 Dec 2026.'],
    ['12 stiches', 'There is no unit “stiches”: did you mean 12 stitches?'],
    ['2 gauge', 'A sign is missing between 2 and gauge: to multiply, write 2 * gauge.'],
    ['gauge / (a - 8 st)', 'This divides by nothing: check the number below the line, often a gauge of 0.'],
    [
      'whole(chest)',
      'whole is for counts, and chest is a length: multiply it by a gauge first, or use to_nearest(chest, 1/4 in).',
    ],
    [
      'whole((chest + chest) * 2)',
      'whole is for counts, and (chest + chest) * 2 is a length: multiply it by a gauge first, or use to_nearest((chest + chest) * 2, 1/4 in).',
    ],
    ['a = b', 'To ask whether two things are the same, write ==.'],
    [
      'toe(68 st, 18 st, 34 st)',
      'A toe loses 4 sts at a time, and 68 to 18 is not a whole number of fours: end with 20 or 16.',
    ],
  ])('%s', (text, sentence) => {
    expect(sentencesOf(text, CELLS)).toEqual([sentence]);
  });
});

describe('what a name may not be', () => {
  test.each([
    ['g', '“g” is grams here: call it gauge.'],
    ['Chest', 'There is a cell called “chest” already: choose another name.'],
    [
      '2nd_sleeve',
      '“2nd_sleeve” cannot be a name: begin with a letter and use only letters, digits and spaces.',
    ],
    ['and', '“and” is a word of formulas: call it something else.'],
    ['', 'A cell needs a name.'],
  ])('%s', (name, sentence) => {
    expect(sentencesOf.ofName(name, CELLS)).toBe(sentence);
  });

  test('a circle is told with its ring in order', () => {
    const parts = { ring: ['body', 'ease', 'chest', 'body'] };
    expect(problemSentence({ code: 'circle', parts })).toBe(
      'Going round in a circle: “body” uses “ease”, which uses “chest”, which uses “body”. Type one of them in, or change its formula.',
    );
  });
});
