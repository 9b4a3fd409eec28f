/** What a knitter writes that is not quite a formula: it is read as what it can only mean, or told what to write. */
import { describe, expect, test } from 'vitest';
import { writeNotebook } from '../../src/notebook/index.ts';
import { ask, createSession, type Session } from '../../src/session/index.ts';
import { notebookFrom } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

const FILE = `{ "ellwand": 1, "id": "n1", "title": "Gifts", "units": "cm",
  "columns": {"heading": "gift", "list": [{"id": "c1", "label": "hat"}, {"id": "c2", "label": "mitts"}]},
  "sections": [{"id": "s1", "title": "", "cells": [
    {"id": "k1", "name": "wrapped", "each": {"c1": "yes", "c2": "no"}},
    {"id": "k2", "name": "needed_on", "each": {"c1": "2026-12-24", "c2": "2026-12-01"}},
    {"id": "k3", "name": "around", "each": {"c1": "56 cm", "c2": "20 cm"}},
    {"id": "k4", "name": "fabric", "each": {"c1": "\\"plain\\"", "c2": "\\"ribbed\\""}},
    {"id": "k5", "name": "stitch_gauge", "text": "20 st / 10 cm"},
    {"id": "k6", "name": "cast_on", "text": ""},
    {"id": "k7", "name": "is_round", "text": "yes"},
    {"id": "k8", "name": "empty", "each": {"c1": "", "c2": ""}}]}] }`;

const opened = (): Session =>
  createSession({ notebook: notebookFrom(FILE), today: 20_000, random: () => 0.5 });

describe('in one column of typed values', () => {
  test.each([
    ['k1', 'soon', 'Write yes or no here.'],
    ['k2', 'soon', 'Write a day here, as 20 Dec 2026.'],
    ['k2', '20 December', 'Which year is 20 December? A day is written as 20 Dec 2026.'],
    ['k2', 'December 20', 'Which year is December 20? A day is written as 20 Dec 2026.'],
    ['k3', 'wide', 'Write a value here, as 20 cm.'],
    ['k4', 'cabled', 'Write words in quotes here, as "cabled".'],
    [
      'k3',
      'stitch_gauge * 2',
      'A formula stands for the whole row: choose “one value for all” in the row’s menu (…), then write it.',
    ],
  ])('%s: %s', (cell, text, sentence) => {
    const session = opened();
    const before = session.notebook;
    expect(session.type({ cell, column: 'c1' }, text)).toMatchObject({ done: false, sentence });
    expect(session.notebook).toBe(before);
  });

  test.each([
    ['n', 'no'],
    ['Y', 'yes'],
    ['No', 'no'],
  ])('%s is an answer', (text, stored) => {
    const session = opened();
    expect(session.type({ cell: 'k1', column: 'c1' }, text).done).toBe(true);
    expect(session.text({ cell: 'k1', column: 'c1' })).toBe(stored);
    session.type({ cell: 'k7', column: null }, text);
    expect(session.text({ cell: 'k7', column: null })).toBe(stored);
  });

  test('where nothing is typed in any of them, a formula is written for the row', () => {
    const session = opened();
    expect(session.type({ cell: 'k8', column: 'c2' }, 'around * 2').done).toBe(true);
    expect(session.row('k8').values.map(({ text }) => text)).toEqual(['112', '40']);
  });
});

describe('an x between two things', () => {
  test.each([
    ['around x stitch gauge', 'around * stitch_gauge'],
    ['2 x around', '2 * around'],
    ['(around + 2 cm) X stitch_gauge', '(around + 2 cm) * stitch_gauge'],
  ])('%s', (typed, text) => {
    const session = opened();
    expect(session.preview({ cell: 'k6', column: null }, typed)).toEqual([]);
    expect(session.type({ cell: 'k6', column: null }, typed).done).toBe(true);
    expect(session.text({ cell: 'k6', column: null })).toBe(text);
  });

  test('is a cell where one is called so', () => {
    const session = opened();
    session.addCell('s1', null, 'x', '3');
    expect(session.type({ cell: 'k6', column: null }, 'around x stitch_gauge').done).toBe(false);
    expect(session.type({ cell: 'k6', column: null }, 'around * x').done).toBe(true);
  });
});

test('a sum of numbers takes the unit of the length it is typed over, and what it comes to is kept', () => {
  const session = opened();
  const place = { cell: 'k3', column: 'c1' };
  session.preview(place, '44.5 - 4');
  expect(session.row('k3').values[0]).toMatchObject({ text: '40.5', tone: 'plain' });
  session.type(place, '44.5 - 4');
  expect(session.text(place)).toBe('40.5 cm');
  session.type(place, '(2 + 3) * 4 1/2');
  expect(session.text(place)).toBe('22.5 cm');
  session.type({ cell: 'k5', column: null }, '20 + 1/2');
  expect(session.text({ cell: 'k5', column: null })).toBe('20.5 sts / 10 cm');
  session.type(place, '3-1/2'); // Three and a half, most likely: asked about.
  expect(session.text(place)).toBe('3-1/2');
  session.type(place, '40 cm');
  session.type(place, '44 - 2 / (1 - 1)');
  expect(session.text(place)).toBe('44 - 2 / (1 - 1)');
});

test('another kind of thing tried over a gauge says what the gauge was, with its unit', () => {
  const session = opened();
  const place = { cell: 'k5', column: null };
  session.nudge(place, 1);
  session.type(place, '45 cm');
  expect(session.row('k5').values[0]).toMatchObject({
    text: '45',
    old: { text: '20 sts / 10 cm', difference: '' },
  });
  expect(session.page().trial?.cells[0]).toMatchObject({ was: '20 sts / 10 cm', tried: '45 cm' });
});

describe('a bare number in an empty cell takes the unit that the notebook names for it', () => {
  const EMPTY = `{ "ellwand": 1, "id": "n1", "title": "Shawl", "units": "cm",
    "columns": {"heading": "foot", "list": [{"id": "c1", "label": "left"}, {"id": "c2", "label": "right"}]},
    "sections": [{"id": "s1", "title": "", "cells": [
      {"id": "k1", "name": "live_left", "text": "", "shown": "st"},
      {"id": "k2", "name": "girth", "each": {}, "range": ["10 cm", "40 cm"]},
      {"id": "k3", "name": "row_gauge_on_needles", "text": "", "step": "1/2 row / 4 in"},
      {"id": "k4", "name": "rounds", "text": "", "shown": "rnd when in_the_round"},
      {"id": "k5", "name": "in_the_round", "text": "yes"},
      {"id": "k6", "name": "ease", "text": "", "shown": "%"},
      {"id": "k7", "name": "times", "text": "", "step": "1"}]}] }`;
  test.each([
    ['k1', null, '287', '287 sts'],
    ['k2', 'c2', '21', '21 cm'],
    ['k2', 'c1', '21 in', '21 in'],
    ['k3', null, '28', '28 rows / 10 cm'],
    ['k4', null, '12', '12 rnds'],
    ['k6', null, '10', '10%'],
    ['k7', null, '3', '3'],
  ])('%s %s: %s', (cell, column, typed, text) => {
    const session = createSession({ notebook: notebookFrom(EMPTY), today: 20_000, random: () => 0.5 });
    expect(session.type({ cell, column }, typed).done).toBe(true);
    expect(session.text({ cell, column })).toBe(text);
  });

  test('a length in the other system than it is named in', () => {
    const session = createSession({
      notebook: { ...notebookFrom(EMPTY), units: 'in' },
      today: 20_000,
      random: () => 0.5,
    });
    session.type({ cell: 'k2', column: 'c1' }, '9');
    expect(session.text({ cell: 'k2', column: 'c1' })).toBe('9 in');
  });
});

describe('what is said and not meant', () => {
  const cells = {
    stitches_to_cast_on: '112 st',
    head: '56 cm',
    row_gauge: '30 row / 10 cm',
    rows: 'head * row_gauge',
    times_in_all: '4',
    here: '',
  };
  const typed = (name: string, text: string): string => {
    const session = createSession({
      notebook: notebookOf(cells, { units: 'cm' }),
      today: 0,
      random: () => 0.5,
    });
    const cell = session.live.sheet.idOf(name) ?? '';
    expect(session.type({ cell, column: null }, text)).toMatchObject({ done: true });
    return String(session.live.sheet.textOf(cell));
  };

  test.each([
    ['= head - 4 cm', 'head - 4 cm'],
    ['=head', 'head'],
    ['21 sts = 4 in', '21 sts / 4 in'],
    ['21 1/2 stitches over 10 cm', '21 1/2 stitches / 10 cm'],
    ['30 rows to 10 cm', '30 rows / 10 cm'],
    ['1 lb 3 oz', '1 lb + 3 oz'],
    ['10 000 m', '10000 m'],
    ['1\u202f200 m - 12 000 cm', '1200 m - 12000 cm'],
    ['3 000/4 in', '3 000/4 in'],
    ['"no 10 000"', '"no 10 000"'],
    ['stitches to cast on + 2 st', 'stitches_to_cast_on + 2 st'],
    ['2 * stitches to cast on', '2 * stitches_to_cast_on'],
    ['head to in', 'head to in'],
    ['head == 56 cm', 'head == 56 cm'],
    ['head × row gauge, to the nearest whole', 'whole(head × row_gauge)'],
    ['head * row_gauge, up to a whole row', 'whole_up(head * row_gauge)'],
    ['head × row gauge, to the nearest multiple of 4', 'multiple(head × row_gauge, 4)'],
    [
      'rows − 2 rows, down to a multiple of times in all plus 1',
      'multiple_down(rows − 2 rows, times_in_all, 1)',
    ],
    ['head ÷ 2, to the nearest 0.5 cm', 'to_nearest(head ÷ 2, 0.5 cm)'],
  ])('%s', (text, stands) => expect(typed('here', text)).toBe(stands));

  test.each([
    ['31/10 cm', '31 row / 10 cm'],
    ['7 / in', '7 row / in'],
    ['31 1/2 / 10cm', '31 1/2 row / 10cm'],
  ])('over a gauge of rows, %s are rows', (text, stands) => expect(typed('row_gauge', text)).toBe(stands));
});

describe('a name of two words that is not quite right', () => {
  const cells = {
    hat_stitches: '96 st',
    head: '56 cm',
    repeat: '12',
    stitch_gauge: '20 st / 10 cm',
    here: '',
  };
  const session = createSession({ notebook: notebookOf(cells), today: 0, random: () => 0.5 });
  const place = { cell: session.live.sheet.idOf('here') ?? '', column: null };

  test.each([
    ['hatt stiches * 2', 'There is no cell called “hatt stiches”: did you mean “hat stitches”?', [0, 12]],
    ['2 * hatt stitches', 'There is no cell called “hatt stitches”: did you mean “hat stitches”?', [4, 17]],
    ['head * stich guage', 'There is no cell called “stich guage”: did you mean “stitch gauge”?', [7, 18]],
    ['head repeat', 'A sign is missing between head and repeat: to multiply, write head * repeat.', [0, 11]],
    ['head wool', 'A sign is missing between head and wool: to multiply, write head * wool.', [0, 9]],
  ])('%s', (text, sentence, at) => {
    expect(session.type(place, text)).toEqual({ done: false, sentence, at });
    expect(session.preview(place, text)).toEqual([{ from: at[0], to: at[1], sentence }]);
  });
});

describe('what a sentence offers has the names as the sheet shows them, and can be typed as it stands', () => {
  const cells = {
    head: '56 cm',
    negative_ease: '10%',
    width_per_part: '20 cm',
    heel_rows: '32 row',
    heel_stitches: '34 st',
    here: '',
  };
  const session = createSession({ notebook: notebookOf(cells), today: 0, random: () => 0.5 });
  const place = { cell: session.live.sheet.idOf('here') ?? '', column: null };

  test.each([
    ['head - negative ease', 'head * (1 - negative ease)'],
    ['width_per_part - negative_ease', 'width_per_part * (1 - negative ease)'],
    ['head negative_ease', 'head * negative ease'],
  ])('%s', (text, offered) => {
    expect(session.preview(place, text)[0]?.sentence).toContain(`write ${offered}.`);
    expect(session.type(place, offered)).toEqual({ done: true });
    expect(session.row(place.cell).values[0]?.kind).toBe('quantity');
  });

  test('at the terminal too', () => {
    const file = writeNotebook(session.notebook);
    const asked = ask(file, { sets: ['here=head * (1 - negative ease)'], day: 0 });
    expect(JSON.stringify(asked)).toContain('"here","values":["19¾ in"]');
  });

  test('a name that cannot be is quoted as it was written', () => {
    const [section] = session.notebook.sections;
    const sentence =
      '“2x2 rib count (k/p)” cannot be a name: begin with a letter and use only letters, digits and spaces.';
    expect(session.renameCell(place.cell, '2x2 rib count (k/p)')).toMatchObject({ done: false, sentence });
    expect(session.addCell(section?.id ?? '', null, ' 2x2 rib count (k/p)')).toMatchObject({ sentence });
  });
});

describe('while it is written, a cell named with its spaces', () => {
  const cells = { stitch_gauge: '20 st / 10 cm', around: '56 cm', here: '' };
  const session = createSession({
    notebook: notebookOf(cells, { units: 'cm' }),
    today: 0,
    random: () => 0.5,
  });
  const place = { cell: session.live.sheet.idOf('here') ?? '', column: null };
  const cellsIn = (text: string) =>
    session
      .tokens(text)
      .filter(({ kind }) => kind === 'cell')
      .map(({ from, to }) => text.slice(from, to));

  test.each([
    ['whole(stitch gauge * around)', ['stitch gauge', 'around']],
    ['around  *  stitch   gauge * stitch gauge', ['around', 'stitch   gauge', 'stitch gauge']],
    ['= stitch gauge x around', ['stitch gauge', 'around']],
    ['whole(stitch gauge * aro', ['stitch gauge']],
    ['stitch gauge + gauge', ['stitch gauge']],
    [
      'around × stitch gauge, to the nearest multiple of stitch gauge',
      ['around', 'stitch gauge', 'stitch gauge'],
    ],
  ])('is one piece: %s', (text, found) => {
    expect(cellsIn(text)).toEqual(found);
  });

  test('is nothing to mend, and what is still missing is what is told', () => {
    expect(session.preview(place, 'whole(stitch gauge * ')[0]?.sentence).toBe(
      'Something is missing after “*”.',
    );
  });
});

describe('a size line with one comma and no blank behind it', () => {
  const blank = `{ "ellwand": 1, "id": "n1", "title": "", "units": "cm", "sections": [{"id": "s1", "title": "", "cells": [
    {"id": "k1", "name": "foot", "text": ""}]}] }`;
  const ASKS = '“21,5” can be one size or two: write “21.5” for one, or “21, 5”, with a space, for two.';
  const empty = (): Session =>
    createSession({ notebook: notebookFrom(blank), today: 20_000, random: Math.random });
  const sizes = (session: Session) => session.row('k1').values.map(({ text }) => text);

  test('is asked about, and makes no columns, however it comes', () => {
    const session = empty();
    const place = { cell: 'k1', column: null };
    const before = session.notebook;
    expect(session.preview(place, '18 (21,5) cm')).toMatchObject([{ sentence: ASKS }]);
    expect(session.type(place, '18 (21,5) cm')).toMatchObject({ done: false, sentence: ASKS });
    expect(session.paste(place, '18 (21,5) cm')).toMatchObject({ done: false, sentence: ASKS });
    expect(session.addCell('s1', null, 'head', '18 (21,5) cm')).toMatchObject({
      done: false,
      sentence: ASKS,
    });
    expect(session.notebook).toBe(before);
  });

  test('either answer is read', () => {
    for (const [line, wanted] of [
      ['18 (21.5) cm', ['18', '21.5']],
      ['18 (21, 5) cm', ['18', '21', '5']],
      ['18 (21,5; 24,5) cm', ['18', '21.5', '24.5']],
      ['88 (94,100) st', ['88', '94', '100']],
    ] as const) {
      const session = empty();
      expect(session.type({ cell: 'k1', column: null }, line)).toEqual({ done: true });
      expect(sizes(session)).toEqual(wanted);
    }
  });

  test('means what has as many sizes as there are columns', () => {
    const session = opened();
    expect(session.type({ cell: 'k3', column: null }, '18 (21,5) cm').done).toBe(true);
    expect(session.row('k3').values.map(({ text }) => text)).toEqual(['18', '21.5']);
    session.addColumn('scarf', 'c2');
    expect(session.type({ cell: 'k3', column: null }, '18 (21,24) cm').done).toBe(true);
    expect(session.row('k3').values.map(({ text }) => text)).toEqual(['18', '21', '24']);
  });
});
